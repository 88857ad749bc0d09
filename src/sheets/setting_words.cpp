// What stands beside the small plans of the setting: words, signs, gaps, torques, cranes, cautions.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "schedules/setting_order.h"
#include "sheets/setting_plan.h"
#include "workings/cautions.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;

constexpr std::size_t gap_kinds_a_table = 4;
constexpr std::size_t reasons_named = 12;

// ---- order

std::vector<std::string> order_words(const SetInput& in, const SettingPlan& s) {
  std::vector<std::string> out;
  out.push_back(fmt::format("The contractor sets {} panels {}. Start panel, step 1: {}. Closing panel, step {}: {}.",
                            s.order.size(), setting_way(in.project, in.bridge), panel_words(in, s.order.front()),
                            s.order.size(), panel_words(in, s.order.back())));
  out.push_back(fmt::format("Stages are formed {}. Before the closing panel is made fast, its room is measured; a "
                            "panel is never forced in.", s.by));
  std::size_t named = 0, more = 0;
  for (int i : s.order) {
    const std::string& why = s.reasons[static_cast<std::size_t>(i)];
    if (why.empty()) continue;
    if (named++ < reasons_named)
      out.push_back(fmt::format("Step {}, {}: {}.", s.step[static_cast<std::size_t>(i)], panel_words(in, i), why));
    else
      ++more;
  }
  if (more > 0) out.push_back(fmt::format("And {} more that wait or are blocked: see the table of the order.", more));
  return out;
}

// ---- signs

enum class StageSign { now, before, later, crane, way };

void draw_sign(Board& board, StageSign sign, PaperPoint c) {
  const PaperBox box{{c.x - 6, c.y - 1.6}, {c.x + 6, c.y + 1.6}};
  const std::vector<PaperPoint> ring{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
  paper::Path path;
  if (sign == StageSign::now) {
    path.polygon(ring);
    board.fill(Ink::black, std::move(path));
  } else if (sign == StageSign::before) {
    hatch_lightly(path, ring);
    board.stroke(PenUse::hatch, std::move(path));
  } else if (sign == StageSign::crane) {
    path.circle(c, 1.8);
    path.segment(c - PaperPoint{1.8, 0}, c + PaperPoint{1.8, 0});
    path.segment(c - PaperPoint{0, 1.8}, c + PaperPoint{0, 1.8});
    board.stroke(PenUse::mark, std::move(path));
  } else if (sign == StageSign::way) {
    paper::arrow(board, PenUse::mark, {c.x - 6, c.y}, {c.x + 6, c.y}, 3.5);
  }
  if (sign < StageSign::crane) board.box(PenUse::thin, box);
}

Blocks sign_words(const SettingPlan& s) {
  std::vector<std::pair<StageSign, std::string>> list{
      {StageSign::now, "set in this stage, with the numbers of its steps"},
      {StageSign::before, "stands already"},
      {StageSign::later, "not yet"},
      {StageSign::way, "direction of setting"}};
  if (std::any_of(s.picks.begin(), s.picks.end(), [](const Pick& p) { return p.crane.has_value(); }))
    list.push_back({StageSign::crane, "crane, with the largest radius used in the stage; place not to scale"});
  Blocks out;
  add_heading(out, "SMALL PLANS, NOT TO SCALE");
  for (const auto& [sign, words] : list)
    out.push_back({[sign = sign, words = words](Board& board, const PaperBox& space, double top) {
      draw_sign(board, sign, {space.low.x + 7, top - board.text_height(LetterUse::note) / 2 - 0.4});
      return board.paragraph(LetterUse::note, {space.low.x + 17, top}, space.width() - 17, words) - 0.8;
    }});
  add_space(out);
  return out;
}

// ---- gaps

std::string joint_list(const SetInput& in, const std::vector<int>& joints) {
  std::vector<std::string> parts;
  const auto name = [&](int j) { return in.deck.joints[static_cast<std::size_t>(j)].name; };
  for (std::size_t i = 0; i < joints.size();) {
    std::size_t last = i;
    while (last + 1 < joints.size() && joints[last + 1] == joints[last] + 1) ++last;
    parts.push_back(last > i + 1 ? name(joints[i]) + " to " + name(joints[last]) : name(joints[i]));
    i = last > i + 1 ? last + 1 : i + 1;
  }
  return join(parts, ", ");
}

/// Joints that are set to the same printed gaps.
struct GapKind {
  std::vector<std::string> temperatures, gaps;
  std::string temperature_unit, gap_unit;
  std::vector<int> joints;
};

std::vector<GapKind> gap_kinds(const SetInput& in) {
  std::vector<GapKind> kinds;
  for (const Calculation& c : in.scope.calculations.list) {
    const workings::Working& w = c.working;
    if (c.topic != Topic::movement || w.table.rows.empty() || c.joints.empty()) continue;
    GapKind kind;
    kind.joints = c.joints;
    for (const auto& row : w.table.rows)
      for (const workings::Result& r : w.results) {
        if (r.symbol == row.front()) {
          kind.temperatures.push_back(shortest_decimal(std::stod(workings::print_in(r.si, r.unit)), 1));
          kind.temperature_unit = r.unit.label;
        } else if (r.symbol == row.back()) {
          const bool inches = r.unit.label == "in";
          kind.gaps.push_back(decimal(r.si * 1e3 / (inches ? 25.4 : 1), inches ? 2 : 1));
          kind.gap_unit = r.unit.label;
        }
      }
    const auto same = std::find_if(kinds.begin(), kinds.end(), [&](const GapKind& k) { return k.gaps == kind.gaps; });
    if (same == kinds.end()) kinds.push_back(std::move(kind));
    else same->joints.insert(same->joints.end(), kind.joints.begin(), kind.joints.end());
  }
  for (GapKind& k : kinds) std::sort(k.joints.begin(), k.joints.end());
  std::sort(kinds.begin(), kinds.end(), [](const GapKind& a, const GapKind& b) { return a.joints < b.joints; });
  return kinds;
}

paper::TableData gap_table(const std::vector<GapKind>& kinds, std::size_t first, std::size_t count) {
  paper::TableData t;
  t.title = first == 0 ? "GAPS TO SET, BY TEMPERATURE" : "GAPS TO SET, FURTHER JOINTS";
  t.columns = {{"Steel and panels at", kinds.front().temperature_unit, Align::right, 0}};
  for (std::size_t k = first; k < first + count; ++k)
    t.columns.push_back({"Kind " + std::to_string(k + 1), kinds[k].gap_unit, Align::right, 0});
  for (std::size_t row = 0; row < kinds.front().temperatures.size(); ++row) {
    t.rows.push_back({kinds.front().temperatures[row]});
    for (std::size_t k = first; k < first + count; ++k) t.rows.back().push_back(kinds[k].gaps[row]);
  }
  return t;
}

Blocks gap_words(const SetInput& in) {
  Blocks out;
  const std::vector<GapKind> kinds = gap_kinds(in);
  std::vector<std::string> words;
  for (std::size_t first = 0; first < kinds.size(); first += gap_kinds_a_table)
    add_table(out, gap_table(kinds, first, std::min(gap_kinds_a_table, kinds.size() - first)));
  for (std::size_t k = 0; k < kinds.size(); ++k)
    words.push_back(fmt::format("Kind {}: {}.", k + 1, joint_list(in, kinds[k].joints)));
  if (!kinds.empty())
    words.push_back("The steel is measured, not the air; both it and the panels have that temperature. Computed to "
                    "the last figure shown, which nobody sets to: tolerances of the gap are on G01.");
  std::vector<char> covered(in.deck.joints.size(), 0);
  for (const GapKind& k : kinds)
    for (int j : k.joints) covered[static_cast<std::size_t>(j)] = 1;
  std::vector<int> rest;
  for (std::size_t j = 0; j < covered.size(); ++j)
    if (!covered[j]) rest.push_back(static_cast<int>(j));
  if (!rest.empty())
    words.push_back(fmt::format("NOT CHECKED by temperature: {}; ask the engineer.", joint_list(in, rest)));
  for (const NotChecked& n : in.scope.calculations.not_checked)
    if (n.topic == Topic::movement && !rest.empty())
      words.push_back(fmt::format("NOT CHECKED: {}; needs {}.", n.what, n.needs));
  add_notes(out, kinds.empty() ? "GAPS TO SET, BY TEMPERATURE" : "JOINTS OF EACH KIND", words);
  return out;
}

// ---- tightening

bool has_feature(const SetInput& in, FeatureKind kind) {
  return std::any_of(in.deck.marks.begin(), in.deck.marks.end(), [&](const Mark& m) {
    return std::any_of(m.shape.features.begin(), m.shape.features.end(),
                       [&](const Feature& f) { return f.kind == kind; });
  });
}

Blocks tightening(const SetInput& in) {
  const DeckData& deck = in.project.deck;
  paper::TableData t;
  t.title = "TIGHTENING, TO THE ENGINEER'S VALUE";
  t.columns = {{"Bolts", "", Align::left, 0}, {"Torque", "", Align::left, 0}, {"Source", "", Align::left, 0}};
  const auto add = [&](Fastener of, FeatureKind kind, const std::string& bolts) {
    if (!has_feature(in, kind)) return;
    for (const TorqueData& q : in.project.conditions.torques)
      if (q.of == of) {
        t.rows.push_back({bolts, torque_words(q, in.project.units), q.source});
        return;
      }
    t.rows.push_back({bolts, "not stated", "torque not stated: ask the engineer"});
  };
  if (deck.hold_downs) add(Fastener::hold_down, FeatureKind::hold_down, "hold-downs " + deck.hold_downs->bolt);
  if (deck.scuppers) add(Fastener::grate, FeatureKind::scupper, "grates " + deck.scuppers->bolt);
  if (!deck.hatches.empty()) add(Fastener::hatch_cover, FeatureKind::hatch, "hatch covers " + deck.hatches.front().bolt);
  if (deck.posts) add(Fastener::rail_post, FeatureKind::post_plate, "rail posts " + deck.posts->plate.thread);
  Blocks out;
  if (!t.rows.empty()) add_table(out, t);
  return out;
}

// ---- cranes

Blocks crane_words(const SetInput& in, const SettingPlan& s) {
  const auto& cranes = in.project.conditions.erection.cranes;
  Blocks out;
  if (cranes.empty()) {
    add_notes(out, "CRANES", {"Cranes are not stated: no pick is checked against a chart."});
    return out;
  }
  const UnitSystem u = in.project.units;
  const std::string reach = column_unit(Measure::reach, u);
  paper::TableData t;
  t.title = "CRANES";
  t.columns = {{"Name", "", Align::left, 0},          {"Station", "", Align::right, 0},
               {"Offset", column_unit(Measure::length, u), Align::right, 0}, {"Picks", "", Align::right, 0},
               {"Largest\nradius", reach, Align::right, 0}, {"Greatest\nratio", "", Align::right, 0}};
  std::vector<std::pair<std::string, std::string>> charts;  // whose, and of which cranes
  for (std::size_t i = 0; i < cranes.size(); ++i) {
    int picks = 0;
    double radius = 0, ratio = 0;
    for (const Pick& p : s.picks) {
      if (!p.crane || p.crane->crane != static_cast<int>(i)) continue;
      ++picks;
      radius = std::max(radius, p.crane->radius / 1e3);
      ratio = std::max(ratio, p.crane->takes ? p.crane->lifted / p.crane->takes->in_si() : 1e9);
    }
    const CraneData& c = cranes[i];
    const auto used = [&](const std::string& figure) { return picks > 0 ? figure : "-"; };
    t.rows.push_back({c.name, print_station(c.station, u), print_length(c.offset, u), std::to_string(picks),
                      used(print_cell(radius, Measure::reach, u)),
                      used(ratio > 1e6 ? "beyond" : decimal(ratio, 2) + (ratio > 1 ? " FAILS" : ""))});
    const std::string chart = (c.source.empty() || c.source == "not stated" ? "source of the chart not stated" : c.source) +
                              (c.chart.empty() ? "; no chart: NOT CHECKED" : "");
    const auto same = std::find_if(charts.begin(), charts.end(), [&](const auto& k) { return k.first == chart; });
    if (same == charts.end()) charts.push_back({chart, c.name});
    else same->second += ", " + c.name;
  }
  add_table(out, t);
  std::vector<std::string> words;
  for (const auto& [chart, names] : charts) words.push_back(names + ": " + chart + ".");
  words.push_back("Ratio: panel and tackle over what the chart states for the next larger radius. NOT CHECKED: ground, "
                  "outriggers, wind, and picks from the truck, whose place is not known.");
  add_notes(out, "CHARTS", words);
  return out;
}

// ---- cautions

std::vector<std::string> caution_words(const SetInput& in) {
  namespace cautions = workings::cautions;
  std::vector<std::string> out;
  if (in.project.deck.hold_downs)
    out.push_back("A panel is set free from the hook only when it bears on all its pads and its hold-downs are in; "
                  "nobody walks on it, and no panel is set against it, before they are tight. Where work stops, "
                  "no panel is left loose: it is tied down against wind and shifting by the method statement.");
  else
    out.push_back("NOT CHECKED: the project states no hold-downs. No panel is left loose: it is tied down against "
                  "wind and shifting by the method statement.");
  out.push_back(cautions::uplift);
  out.push_back(cautions::lifting);
  out.push_back(cautions::weight);
  out.push_back("Open ends and edges are guarded at every stage. Local rules, the lift supervisor and the engineer "
                "in charge govern; this sheet is an aid to them.");
  return out;
}

}  // namespace

std::string torque_words(const TorqueData& torque, UnitSystem units) {
  constexpr double pound_foot = 1.3558179483314004;  // N m; NIST SP 811 (2008), B.8
  return units == UnitSystem::metric ? shortest_decimal(torque.newton_metres, 1) + " N m"
                                     : shortest_decimal(torque.newton_metres / pound_foot, 0) + " lbf ft";
}

std::vector<Blocks> setting_words(const SetInput& input, const SettingPlan& setting) {
  std::vector<Blocks> out(3);
  add_notes(out[0], "CAUTIONS", caution_words(input));
  add_notes(out[1], "ORDER OF SETTING", order_words(input, setting));
  out[2] = sign_words(setting);
  out.push_back(gap_words(input));
  if (Blocks t = tightening(input); !t.empty()) out.push_back(std::move(t));
  out.push_back(crane_words(input, setting));
  return out;
}


Blocks setting_picks(const SetInput& in, const SettingPlan& s) {
  const UnitSystem u = in.project.units;
  const std::string reach = column_unit(Measure::reach, u);
  const bool cranes = std::any_of(s.picks.begin(), s.picks.end(), [](const Pick& p) { return p.crane.has_value(); });
  paper::TableData t;
  t.title = "PICKS BY STEP";  // no marks: those on E sheets are counted
  t.columns = {{"Step", "", Align::right, 0}, {"Serial", "", Align::left, 0},
               {"Mass", column_unit(Measure::mass, u), Align::right, 0}, {"Leg", reach, Align::right, 0},
               {"Hook", reach, Align::right, 0}};
  if (cranes) {
    t.columns.push_back({"Crane", "", Align::left, 0});
    t.columns.push_back({"Radius", reach, Align::right, 0});
  }
  for (const Pick& k : s.picks) {
    const Panel& p = in.deck.panels[static_cast<std::size_t>(k.panel)];
    const Mark& m = in.deck.marks[static_cast<std::size_t>(p.mark)];
    t.rows.push_back({std::to_string(k.step), p.serial, print_mass(m.masses.total, u),
                      k.leg > 0 ? print_cell(k.leg / 1e3, Measure::reach, u) : "-",
                      k.leg > 0 ? print_cell(k.hook / 1e3, Measure::reach, u) : "-"});
    if (!cranes) continue;
    const std::string& name =
        k.crane ? in.project.conditions.erection.cranes[static_cast<std::size_t>(k.crane->crane)].name : "-";
    t.rows.back().push_back(k.crane && !k.crane->holds() ? "NONE; " + name : name);
    t.rows.back().push_back(k.crane ? print_cell(k.crane->radius / 1e3, Measure::reach, u) : "-");
  }
  Blocks out;
  add_table(out, t, 13);
  return out;
}

}  // namespace deckquire::sheets
