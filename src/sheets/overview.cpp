// The whole bridge on the cover: plan with sheet borders, and profile.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bridge/crossings.h"
#include "paper/dimension.h"
#include "paper/view.h"
#include "sheets/cover.h"
#include "sheets/deck_lines.h"
#include "sheets/overview.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

Overview set_up(const PaperBox& box, const SetInput& input, const SetPlan& plan) {
  const auto& a = input.bridge.alignment;
  const double length = (a.to() - a.from()).in_mm();
  Overview o{input, plan, box, 0, {}, deck_reach(input.bridge)};
  const double margin = 24;  // for the north arrow and the names at the ends
  o.ratio = input.style.scales.back();
  const PaperPoint shape = a.straight() ? PaperPoint{length, 0} : bent_size(input);
  for (auto s = input.style.scales.rbegin(); s != input.style.scales.rend(); ++s)
    if (length / *s <= box.width() - 2 * margin && (o.reach.left + o.reach.right) / *s <= 40 &&
        shape.x / *s <= box.width() - 2 * margin && shape.y / *s <= 0.25 * input.style.height)
      o.ratio = *s;
  o.frame.along = o.frame.across = 1.0 / o.ratio;
  o.frame.from = a.from().in_mm();
  o.frame.x = box.centre().x - length / o.ratio / 2;
  return o;
}

// ---- plan

void draw_panels(Board& board, const Overview& o) {
  const Bridge& bridge = o.input.bridge;
  for (const Joint* j : shown_joints(o))
    board.line(j->end ? PenUse::outline : PenUse::thin, o.frame(joint_end(bridge, *j, Side::left)),
               o.frame(joint_end(bridge, *j, Side::right)));
  for (const RowJoint& r : o.input.deck.row_joints)
    board.line(PenUse::thin, o.frame({r.from.in_mm(), r.offset.in_mm()}),
               o.frame({r.to.in_mm(), r.offset.in_mm()}));
  Path outline;
  outline.polygon(o.frame(whole_outline(o.input)));
  board.stroke(PenUse::outline, outline);
  for (const Obstruction& ob : bridge.obstructions) {
    Path ring;
    ring.polygon(o.frame(ob.outline));
    board.stroke(PenUse::steel, ring);
  }
}

void draw_alignment(Board& board, const Overview& o) {
  const auto& a = o.input.bridge.alignment;
  const double y = o.frame.y;
  board.line(PenUse::centre, {o.x(a.from()) - 8, y}, {o.x(a.to()) + 8, y});
  for (const Girder& g : o.input.bridge.girders)
    board.line(PenUse::steel_hidden, o.frame({g.from.in_mm(), g.offset.in_mm()}),
               o.frame({g.to.in_mm(), g.offset.in_mm()}));
}

void draw_support_lines(Board& board, const Overview& o, double top, double bottom) {
  for (const Support& s : o.input.bridge.supports)
    board.line(PenUse::centre, {o.x(s.station), top}, {o.x(s.station), bottom});
}

// Borders of the erection sheets: match lines between strips, the sheet's number over each.
double draw_borders(Board& board, const Overview& o, double top) {
  const double h = board.text_height(LetterUse::note);
  const double bar = top - h - 2;
  const double foot = o.frame.y + o.reach.left * o.frame.across;
  const std::vector<SheetPart> parts = sheet_parts(board, o);
  double used = -1e9;
  for (const SheetPart& s : parts) {
    const double a = o.x(s.from), b = o.x(s.to);
    std::string name = "sheet " + s.sheet;
    if (board.text_width(LetterUse::note, name) > b - a) name = s.sheet;
    const double half = board.text_width(LetterUse::note, name) / 2;
    if ((a + b) / 2 - half > used) {
      paper::Group link(board, "", "reference", "", s.sheet);
      board.text(LetterUse::note, {(a + b) / 2, top}, name, Align::centre, Stand::top);
      used = (a + b) / 2 + half + 1;
    }
    board.line(PenUse::dimension, {a + 0.6, bar}, {b - 0.6, bar});
    board.line(PenUse::dimension, {a + 0.6, bar}, {a + 0.6, bar - 2});
    board.line(PenUse::dimension, {b - 0.6, bar}, {b - 0.6, bar - 2});
    const double low = foot - (o.reach.left + o.reach.right) * o.frame.across - 2;
    if (&s == &parts.front()) continue;
    if (s.back->skew == 0) {
      board.line(PenUse::match, {a, bar + 1}, {a, low});
      continue;
    }
    const PaperPoint left = o.frame(joint_end(o.input.bridge, *s.back, Side::left));
    const PaperPoint right = o.frame(joint_end(o.input.bridge, *s.back, Side::right));
    Path path;
    path.move({left.x, bar + 1});
    for (PaperPoint p : {left, right, PaperPoint{right.x, low}}) path.line(p);
    board.stroke(PenUse::match, path);
  }
  return bar - 3;
}

/// Runs of equal spans would not fit beside each other.
bool many_lengths(const std::vector<SpanRun>& spans) {
  int changes = 0;
  for (std::size_t i = 1; i < spans.size(); ++i)
    changes += spans[i].to - spans[i].from != spans[i - 1].to - spans[i - 1].from ? 1 : 0;
  return changes > 6;
}

std::string spans_in_all(const Overview& o) {
  return fmt::format("{} spans, {} panels", o.input.deck.spans.size(), o.input.deck.panels.size());
}

double draw_spans(Board& board, const Overview& o, double y) {
  std::vector<paper::ChainPoint> points;
  const auto& spans = o.input.deck.spans;
  if (spans.empty()) return y;
  const double foot = o.frame.y - o.reach.right * o.frame.across;
  const Length datum = spans.front().from;
  points.push_back({o.x(datum), Length(), foot});
  for (const SpanRun& s : spans) points.push_back({o.x(s.to), s.to - datum, foot});
  paper::ChainLine line;
  line.across = y;
  line.units = o.input.project.units;
  const auto room = [&](const SpanRun& s) {
    return o.x(s.to) - o.x(s.from) -
           board.text_width(LetterUse::dimension, print_length(s.to - s.from, line.units));
  };
  const bool many = spans.size() > 6 && std::any_of(spans.begin(), spans.end(),
                                                    [&](const auto& s) { return room(s) < 2; });
  line.merge = many;
  if (many) {
    const double middle = (o.x(spans.front().from) + o.x(spans.back().to)) / 2;
    if (many_lengths(spans))
      paper::dimension(board, line, points.front(), points.back());
    else
      chain(board, line, points);
    board.text(LetterUse::note, {middle, y - 1.5}, spans_in_all(o), Align::centre, Stand::top);
    return y - 2 - board.pitch(LetterUse::note);
  }
  chain(board, line, points);
  for (const SpanRun& s : spans)
    board.text(LetterUse::note, {(o.x(s.from) + o.x(s.to)) / 2, y - 1.5},
               fmt::format("span {}, {} panels", s.name, s.count), Align::centre, Stand::top);
  return y - 2 - board.pitch(LetterUse::note);
}

double draw_support_names(Board& board, const Overview& o, double y) {
  std::vector<PlacedName> names, stations;
  for (const Support& s : o.input.bridge.supports) {
    names.push_back({o.x(s.station), (s.abutment ? "abutment " : "pier ") + s.name});
    stations.push_back({o.x(s.station), print_station(s.station, o.input.project.units)});
  }
  y = names_below(board, LetterUse::note, y, names, o.box);
  return names_below(board, LetterUse::note, y, stations, o.box);
}

// Height of the plan's own parts, above and below the alignment.
double above(const Board& board, const Overview& o) {
  return board.text_height(LetterUse::note) + 8 + o.reach.left * o.frame.across;
}

double draw_plan(Board& board, Overview& o, double top) {
  paper::Group group(board, "key-plan", "view");
  if (!o.input.bridge.alignment.straight()) return draw_bent_plan(board, o, top);
  o.frame.y = top - above(board, o);
  draw_borders(board, o, top);
  draw_alignment(board, o);
  draw_panels(board, o);
  const double foot = o.frame.y - o.reach.right * o.frame.across;
  draw_support_lines(board, o, o.frame.y + o.reach.left * o.frame.across + 1, foot - 2);
  double y = draw_spans(board, o, foot - board.style().first_dimension);
  y = draw_support_names(board, o, y - 1);
  const auto& a = o.input.bridge.alignment;
  paper::arrow(board, PenUse::dimension, {o.x(a.to()) + 9, o.frame.y},
               {o.x(a.to()) + 20, o.frame.y});
  north_arrow(board, {o.box.low.x + 7, o.frame.y}, 6.5, north_on_paper(o.input.bridge));
  view_title(board, {o.box.low.x, y - board.text_height(LetterUse::view_title) - 2},
             "KEY PLAN, SHEETS AND STATIONS", o.ratio);
  overview_bar(board, o, y - board.text_height(LetterUse::view_title) - 2);
  return y - board.text_height(LetterUse::view_title) - 8;
}

// ---- profile

struct Profile {
  double level0 = 0;  // mm, at y0
  double y0 = 0;      // paper
  double scale = 0;   // paper mm by mm of level
  double y(Length level) const { return y0 + (level.in_mm() - level0) * scale; }
};

std::vector<Length> profile_stations(const Overview& o) {
  const auto& a = o.input.bridge.alignment;
  std::vector<Length> out{a.from()};
  for (Length s : a.level_breaks(a.from(), a.to())) out.push_back(s);
  for (const Support& s : o.input.bridge.supports) out.push_back(s.station);
  out.push_back(a.to());
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

// Levels drawn larger than lengths by a whole factor, so that the grades are seen.
int exaggeration(const Overview& o, double low, double high, double room) {
  const double rise = std::max(1.0, (high - low) / o.ratio);
  for (int k : {20, 10, 5, 2})
    if (rise * k <= std::min(room, o.box.width() / 22)) return k;
  return 1;
}

Profile profile_frame(const Overview& o, double top, double bottom, int& factor) {
  double low = 1e18, high = -1e18;
  for (Length s : profile_stations(o)) {
    low = std::min(low, o.input.bridge.alignment.level(s).in_mm());
    high = std::max(high, o.input.bridge.alignment.level(s).in_mm());
  }
  factor = exaggeration(o, low, high, (top - bottom) * 0.6);
  const double scale = static_cast<double>(factor) / o.ratio;
  return {low, bottom + std::max(6.0, (top - bottom - (high - low) * scale) * 0.55), scale};
}

void draw_deck_line(Board& board, const Overview& o, const Profile& p) {
  const auto& a = o.input.bridge.alignment;
  Path line, soffit;
  bool first = true;
  for (Length s : profile_stations(o)) {
    const PaperPoint q{o.x(s), p.y(a.level(s))};
    if (first)
      line.move(q), soffit.move({q.x, q.y - 1.6});
    else
      line.line(q), soffit.line({q.x, q.y - 1.6});
    first = false;
  }
  board.stroke(PenUse::outline, line);
  board.stroke(PenUse::steel, soffit);
}

std::vector<PlacedName> stations_of(const Overview& o) {
  std::vector<PlacedName> out;
  for (const Support& s : o.input.bridge.supports)
    out.push_back(
        {o.x(s.station), s.name + "  " + print_station(s.station, o.input.project.units)});
  return out;
}

void draw_levels(Board& board, const Overview& o, const Profile& p, double bottom) {
  const auto& a = o.input.bridge.alignment;
  std::vector<PlacedName> levels;
  for (const Support& s : o.input.bridge.supports) {
    const double x = o.x(s.station), y = p.y(a.level(s.station)) - 1.6;
    const double half = s.abutment ? 2.5 : 1.2;
    board.line(PenUse::ground, {x - half, y}, {x - half, bottom + 1});
    board.line(PenUse::ground, {x + half, y}, {x + half, bottom + 1});
    levels.push_back({x, "level " + print_level(a.level(s.station), o.input.project.units)});
  }
  board.line(PenUse::ground, {o.x(a.from()) - 10, bottom + 1}, {o.x(a.to()) + 10, bottom + 1});
  const bool bent = !a.straight();  // then the stations stand here
  const double y = names_below(board, LetterUse::note, bottom, levels, o.box, 1);
  if (bent) names_below(board, LetterUse::note, y, stations_of(o), o.box, 1);
}

// Of the straight grade ahead of a station, of which parabolas may leave little.
double line_grade(const Alignment& a, Length from) {
  const auto& g = a.grades();
  std::size_t i = 0;
  while (i + 2 < g.size() && g[i + 1].station <= from) ++i;
  if (i + 1 >= g.size()) return 0;
  return (g[i + 1].level - g[i].level) / (g[i + 1].station - g[i].station);
}

void draw_grades(Board& board, const Overview& o, const Profile& p) {
  const auto& a = o.input.bridge.alignment;
  std::vector<Length> ends{a.from()};
  for (const auto& g : a.grades())
    if (a.from() < g.station && g.station < a.to()) ends.push_back(g.station);
  ends.push_back(a.to());
  double used = -1e9;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const Length middle = (ends[i] + ends[i + 1]) / 2;
    const double y = p.y(a.level(middle)) + 4;
    const std::string text =
        fmt::format("grade {} %", shortest_decimal(100 * line_grade(a, ends[i]), 3));
    // Of a long bridge on small paper only the grades that have room; the E sheets show all.
    const double half = board.text_width(LetterUse::note, text) / 2 + 1;
    if (o.x(middle) - half < used) continue;
    used = o.x(middle) + half;
    board.masked_text(LetterUse::note, {o.x(middle), y + 2}, text);
  }
}

/// What passes below: a bar over the ground from border to border, and its name.
void draw_crossings(Board& board, const Overview& o, double ground) {
  double used = -1e9;
  const double bar = ground + 2.2;
  for (const CrossingData& c : o.input.project.bridge.crossings) {
    const auto& a = o.input.bridge.alignment;
    const double from = o.x(std::max(c.from, a.from())), to = o.x(std::min(c.to, a.to()));
    if (to <= from) continue;
    const paper::Group group(board, "crossing-" + c.name, "crossing",
                             fmt::format("{} {}", crossing_word(c.kind), c.name));
    board.line(PenUse::dimension, {from, bar}, {to, bar});
    for (double x : {from, to}) board.line(PenUse::dimension, {x, ground}, {x, bar + 1});
    const std::string name = fmt::format("{} {} below", crossing_word(c.kind), c.name);
    const double half = board.text_width(LetterUse::note, name) / 2 + 1;
    if ((from + to) / 2 - half < used) continue;
    used = (from + to) / 2 + half;
    board.masked_text(LetterUse::note, {(from + to) / 2, bar + 1.2}, name, Align::centre, Stand::base);
  }
}

void draw_profile(Board& board, const Overview& o, double top, double bottom) {
  paper::Group group(board, "profile", "view");
  const double title = board.text_height(LetterUse::view_title) + 4;
  const int rows = o.input.bridge.alignment.straight() ? 1 : 2;
  const double ground = bottom + title + rows * board.pitch(LetterUse::note) + 2;
  int factor = 1;
  const Profile p = profile_frame(o, top - 6, ground + 2, factor);
  draw_deck_line(board, o, p);
  draw_grades(board, o, p);
  draw_levels(board, o, p, ground);
  draw_crossings(board, o, ground + 1);
  const std::string name = factor == 1
                               ? "PROFILE OF THE DECK"
                               : fmt::format("PROFILE OF THE DECK, LEVELS {} TIMES", factor);
  view_title(board, {o.box.low.x, bottom + 2.5}, name, o.ratio);
}

}  // namespace

void overview_bar(Board& board, const Overview& o, double y) {
  constexpr double room = 60;
  paper::scale_bar(board, {o.box.high.x - room - 30, y + 2}, o.ratio, room, o.input.project.units);
}

std::vector<const Joint*> shown_joints(const Overview& o) {
  double nearest = 1e9;
  const auto& joints = o.input.deck.joints;
  for (std::size_t i = 1; i < joints.size(); ++i)
    nearest = std::min(nearest, (joints[i].station - joints[i - 1].station).in_mm() / o.ratio);
  std::vector<const Joint*> out;
  for (const Joint& j : joints)
    if (j.end || nearest >= 1.2) out.push_back(&j);
  return out;
}

std::vector<SheetPart> sheet_parts(const Board& board, const Overview& o) {
  std::vector<SheetPart> out;
  bool fits = true;
  for (const Strip& s : o.plan.strips) {
    const Panel& first = o.input.deck.panels[static_cast<std::size_t>(s.first)];
    out.push_back({s.from, s.to, o.plan.erection_sheet(s.first),
                   &o.input.deck.joints[static_cast<std::size_t>(first.joint_back)]});
    const double name = board.text_width(LetterUse::note, "sheet " + out.back().sheet);
    fits = fits && name <= (s.to - s.from).in_mm() / o.ratio;
  }
  if (fits || o.plan.strips.size() < 4) return out;
  std::vector<SheetPart> whole;
  for (const SheetPart& p : out) {
    if (!whole.empty() && whole.back().sheet == p.sheet)
      whole.back().to = p.to;
    else
      whole.push_back(p);
  }
  return whole;
}

double least_overview(Board& board, const PaperBox& box, const SetInput& input,
                      const SetPlan& plan) {
  Overview o = set_up(box, input, plan);
  const double below = draw_plan(board, o, box.high.y);
  const double profile = board.text_height(LetterUse::view_title) +
                         (input.bridge.alignment.straight() ? 3 : 4) * board.pitch(LetterUse::note);
  return box.high.y - below + profile + box.width() / 16 + input.style.gap;
}

void draw_overview(Board& board, const PaperBox& box, const SetInput& input, const SetPlan& plan) {
  Overview o = set_up(box, input, plan);
  const double below = draw_plan(board, o, box.high.y);
  draw_profile(board, o, below - 2, box.low.y);
}

}  // namespace deckquire::sheets
