// Sentences and tables of a panel sheet.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "schedules/schedules.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::TableData;

/// "2 scuppers", "1 hatch".
std::string counted(int n, FeatureKind kind) {
  std::string name = feature_name(kind);
  if (n != 1) name += name.ends_with("h") || name.ends_with("s") ? "es" : "s";
  return std::to_string(n) + " " + name;
}

std::map<FeatureKind, int> counts(const PanelShape& s) {
  std::map<FeatureKind, int> out;
  for (const Feature& f : s.features)
    if (f.kind != FeatureKind::pad && f.kind != FeatureKind::tag) ++out[f.kind];
  return out;
}

bool same_outline(const PanelShape& a, const PanelShape& b) {
  const auto near = [](double u, double v) { return std::abs(u - v) < 0.5; };
  const auto same_slope = [](double u, double v) { return std::abs(u - v) < 1e-4; };
  return a.left_joint == b.left_joint && a.right_joint == b.right_joint &&
         same_slope(a.back_slope, b.back_slope) && same_slope(a.ahead_slope, b.ahead_slope) &&
         near(a.length, b.length) && near(a.left_back, b.left_back) &&
         near(a.left_ahead, b.left_ahead) && near(a.right_back, b.right_back) &&
         near(a.right_ahead, b.right_ahead);
}

struct Difference {
  std::vector<std::string> with, without;
  std::size_t size() const { return with.size() + without.size(); }
};

Difference difference(const PanelShape& own, const PanelShape& other) {
  const auto mine = counts(own), theirs = counts(other);
  Difference d;
  for (int k = 0; k <= static_cast<int>(FeatureKind::tag); ++k) {
    const auto kind = static_cast<FeatureKind>(k);
    const auto of = [kind](const auto& m) { return m.contains(kind) ? m.at(kind) : 0; };
    const int a = of(mine), b = of(theirs);
    if (a > b) d.with.push_back(b == 0 ? counted(a, kind) : counted(a - b, kind) + " more");
    if (a < b) d.without.push_back(a == 0 ? counted(b, kind) : counted(b - a, kind));
  }
  if (own.surface != other.surface) d.with.push_back("another wearing surface");
  if (own.back != other.back) d.with.push_back(std::string(end_name(own.back)) + " at the back");
  if (own.ahead != other.ahead) d.with.push_back(std::string(end_name(own.ahead)) + " ahead");
  return d;
}

std::string likeness(const std::string& name, const Difference& d) {
  std::string out = "as " + name;
  if (!d.with.empty()) out += ", with " + join(d.with, ", ");
  if (!d.without.empty()) out += ", without " + join(d.without, ", ");
  if (d.size() == 0) out += ", features placed otherwise";
  return out;
}

/// "as DP01, with 1 hatch", from the earlier mark that differs least; empty when none is near.
std::string nearest_likeness(const PanelJob& job) {
  const auto& marks = job.input.deck.marks;
  std::string best;
  std::size_t least = 4;
  for (int i = 0; i < job.index(); ++i) {
    const Mark& other = marks[static_cast<std::size_t>(i)];
    if (!same_outline(job.shape(), other.shape)) continue;
    const Difference d = difference(job.shape(), other.shape);
    if (d.size() >= least) continue;
    least = d.size();
    best = likeness(other.name, d);
  }
  return best;
}

std::string hole_letter(const Hole& h) {
  const std::size_t n = h.label.find_first_of("0123456789");
  return n == std::string::npos ? h.label : h.label.substr(0, n);
}

std::string item_size(const PanelJob& job, const Feature& f) {
  if (f.round) return "dia " + job.print(f.length);
  std::string out = job.print(f.length) + " x " + job.print(f.width);
  if (std::abs(f.angle) > 1e-4)
    out += fmt::format(", turned {}\u00b0", decimal(f.angle * 180 / pi, 1));
  return out;
}

std::string face_of(FeatureKind kind) {
  if (goes_through(kind)) return "through";
  switch (kind) {
    case FeatureKind::recess:
    case FeatureKind::hold_down:
    case FeatureKind::pad:
    case FeatureKind::tag:
      return "soffit";
    case FeatureKind::post_plate:
      return "curb";
    default:
      return "top";
  }
}

/// Features of one item that lie on one line along the panel: y and the x of each.
struct Line {
  double y = 0, angle = 0;
  std::vector<double> xs;
};

std::vector<Line> lines_of(const PanelJob& job, const PanelItem& item) {
  std::vector<Line> out;
  for (std::size_t i : item.features) {
    const Feature& f = job.shape().features[i];
    const auto at = std::find_if(out.begin(), out.end(), [&](const Line& l) {
      return std::abs(l.y - f.at.y) < 0.05 && std::abs(l.angle - f.angle) < 1e-4;
    });
    if (at == out.end())
      out.push_back({f.at.y, f.angle, {f.at.x}});
    else
      at->xs.push_back(f.at.x);
  }
  std::sort(out.begin(), out.end(), [](const Line& a, const Line& b) { return a.y < b.y; });
  for (Line& l : out) std::sort(l.xs.begin(), l.xs.end());
  return out;
}

void add_item_rows(const PanelJob& job, const PanelItem& item, TableData& t) {
  Feature f = job.shape().features[item.features.front()];
  const auto detail = detail_of(f.kind);
  const std::string ref = detail ? job.reference(*detail) : "";
  bool first = true;
  for (const Line& l : lines_of(job, item)) {
    f.angle = l.angle;
    std::vector<std::string> xs;
    for (double x : l.xs) xs.push_back(job.print(job.along(x)));
    const bool deep = f.depth > 0;
    t.rows.push_back({first ? std::to_string(item.number) : "",
                      first ? std::to_string(item.features.size()) : "",
                      first ? std::string(feature_name(f.kind)) + ", " + face_of(f.kind) : "",
                      first || std::abs(f.angle) > 1e-4 ? item_size(job, f) : "",
                      first && deep ? job.print(f.depth) : "", job.print(job.aside(l.y)),
                      join(xs, "; "), first ? ref : ""});
    const DetailRef* d = detail ? job.plan.find(*detail) : nullptr;
    t.targets.push_back(d ? d->sheet : "");
    first = false;
  }
}

std::string tolerance_sentence(const PanelJob& job) {
  const auto& list = job.input.project.conditions.tolerances;
  if (list.empty()) return "Tolerances: not stated in the project; agree them before making.";
  std::vector<std::string> parts;
  for (const ToleranceData& t : list)
    parts.push_back(t.of + " \u00b1" + print_length(t.value, job.units()));
  return "Tolerances: " + join(parts, ", ") + ".";
}

/// Where the shop's tape begins.
std::string datum_sentence(const PanelJob& job) {
  const std::string plans =
      "the soffit is drawn seen through from above, so both plans read alike. Figures in brackets "
      "are checks.";
  if (job.shape().square())
    return "x runs ahead from the back end, y to the left from the back right corner; " + plans;
  const bool left = datum_on_left(job.shape());
  return fmt::format(
      "0,0 is the back {} corner. x runs ahead from the line through it square to the chord, y to "
      "the {} from the line through it along the chord; the table of the outline sets both out; {}",
      left ? "left" : "right", left ? "right" : "left", plans);
}

std::string lifting_sentence(const PanelJob& job) {
  const LiftingData& l = job.deck.lifting;
  int n = 0;
  for (const Feature& f : job.shape().features) n += f.kind == FeatureKind::lifting_insert;
  if (n == 0)
    return "CAUTION, LIFTING: no lifting insert is drawn; a qualified person says how this panel "
           "is "
           "lifted.";
  const std::string capacity =
      l.capacity_kn > 0
          ? fmt::format("stated capacity {} kN each ({})", shortest_decimal(l.capacity_kn, 2),
                        l.source.empty() ? "source not stated" : l.source)
          : "capacity not stated";
  const auto& all = job.input.scope.calculations.list;
  const bool calculated = std::any_of(
      all.begin(), all.end(), [](const Calculation& c) { return c.topic == Topic::lifting; });
  return fmt::format(
      "CAUTION, LIFTING: lift by all {} inserts {} only, {}. Sling angles, spreader and lifting "
      "plan are for a qualified person to set under local rules; {}.",
      n, l.thread, capacity,
      calculated ? "the calculation of the lift is no such plan" : "the lift was not checked here");
}

}  // namespace

std::string panel_purpose(const PanelJob& job) {
  const Mark& m = job.mark;
  if (m.opposite_of >= 0)
    return fmt::format("{}: opposite hand of {}, mirrored about the alignment.", m.name,
                       job.input.deck.marks[static_cast<std::size_t>(m.opposite_of)].name);
  const std::string like = nearest_likeness(job);
  if (!like.empty()) return m.name + ": " + like + ".";
  const std::string form = form_words(job), what = m.remark.empty() ? "plain panel" : m.remark;
  return m.name + ": " + (form.empty() ? "" : form + "; ") + what + ".";
}

TableData feature_table(const PanelJob& job) {
  TableData t;
  t.title = "FEATURES, FROM DATUM CORNER 0,0";
  t.columns = {{"No.", "", Align::right, 0},       {"Qty", "", Align::right, 0},
               {"What, face", "", Align::left, 0}, {"Size", "", Align::left, 0},
               {"Depth", "", Align::right, 0},     {"y", "", Align::right, 0},
               {"x", "", Align::left, 0},          {"Detail", "", Align::left, 0}};
  for (const PanelItem& item : job.items) add_item_rows(job, item, t);
  return t;
}

TableData hole_kinds(const PanelJob& job) {
  TableData t;
  t.title = "KINDS OF HOLES";
  t.columns = {{"Kind", "", Align::left, 0},   {"Qty", "", Align::right, 0},
               {"What", "", Align::left, 0},   {"Size", "", Align::left, 0},
               {"Depth", "", Align::right, 0}, {"From", "", Align::left, 0}};
  for (const Hole& h : job.mark.holes) {
    const std::vector<std::string> row{
        hole_letter(h),
        "1",
        h.what +
            (h.what.find(hole_name(h.kind)) == std::string::npos ? ", " + hole_name(h.kind) : ""),
        h.thread.empty() ? "dia " + job.print(h.diameter) : h.thread,
        h.depth ? job.print(*h.depth) : "through",
        h.from_top ? "top" : "soffit"};
    const auto same = std::find_if(t.rows.begin(), t.rows.end(), [&](const auto& r) {
      return r[0] == row[0] && std::equal(r.begin() + 2, r.end(), row.begin() + 2);
    });
    if (same == t.rows.end())
      t.rows.push_back(row);
    else
      (*same)[1] = std::to_string(std::stoi((*same)[1]) + 1);
  }
  t.total = {"", std::to_string(job.mark.holes.size()), "holes and inserts in all", "", "", ""};
  return t;
}

TableData hole_places(const PanelJob& job, int groups) {
  TableData t;
  t.title = "HOLES, FROM DATUM CORNER 0,0";
  const std::size_t n = job.mark.holes.size(), columns = static_cast<std::size_t>(groups);
  const std::size_t rows = (n + columns - 1) / columns;
  for (int g = 0; g < groups; ++g) {
    t.columns.push_back({"Hole", "", Align::left, 0});
    t.columns.push_back({"x", "", Align::right, 0});
    t.columns.push_back({"y", "", Align::right, 0});
  }
  for (std::size_t r = 0; r < rows; ++r) {
    std::vector<std::string> row;
    for (std::size_t g = 0; g < columns; ++g) {
      const std::size_t i = g * rows + r;
      if (i >= n) {
        row.insert(row.end(), 3, "");
        continue;
      }
      const Hole& h = job.mark.holes[i];
      row.insert(row.end(), {h.label, job.print(job.along(h.at.x)), job.print(job.aside(h.at.y))});
    }
    t.rows.push_back(std::move(row));
  }
  return t;
}

std::vector<std::string> panel_notes(const PanelJob& job) {
  int tag = 0;
  for (const PanelItem& item : job.items)
    if (job.shape().features[item.features.front()].kind == FeatureKind::tag) tag = item.number;
  std::vector<std::string> out{
      lifting_sentence(job),
      fmt::format(
          "Dimensions are in {}, of the finished panel, without camber or twist; printed figures "
          "govern, nobody scales.",
          job.units() == UnitSystem::metric ? "millimetres" : "feet and inches"),
      datum_sentence(job),
      tolerance_sentence(job),
      "The shop seals every cut edge and hole with resin before the panel is shipped. Nothing is "
      "drilled, cut or trimmed in the field; no edge is for field trimming.",
      fmt::format(
          "On the day it is made a panel gets its tag{}: job {}, serial, mark, mass, maker, date, "
          "{} "
          "and revision; AHEAD with its arrow is painted on the top face and the ahead end.",
          tag > 0 ? fmt::format(" (no. {}, soffit)", tag) : "", job.input.project.number,
          job.plan.panel_sheet(job.own.subject)),
      "Lay-up, direction of fibres, coatings, certificates, test pieces are not stated: see the "
      "fabricator's lay-up sheet.",
      "The inspector records and signs length, widths, diagonals, edge depths and hole places of "
      "every serial before shipping."};
  return out;
}

}  // namespace deckquire::sheets
