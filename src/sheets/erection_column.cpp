// The words and tables of an erection sheet: order, picks, hardware, notes, legend, scale bars.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include <fmt/format.h>

#include "deck/site.h"
#include "schedules/schedules.h"
#include "schedules/setting_order.h"
#include "sheets/bay_scene.h"
#include "sheets/erection_parts.h"
#include "sheets/setting_plan.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

const Panel& panel_at(const SetInput& input, int i) {
  return input.deck.panels[static_cast<std::size_t>(i)];
}

const Masses& masses_of(const SetInput& input, const Panel& p) {
  return input.deck.marks[static_cast<std::size_t>(p.mark)].masses;
}

std::string mass_text(const SetInput& input, Mass m) {
  const bool metric = input.project.units == UnitSystem::metric;
  return print_mass(m, input.project.units) + (metric ? " kg" : " lb");
}

std::string support_at(const SetInput& input, bool last) {
  const auto& supports = input.bridge.supports;
  if (supports.empty()) return last ? "the end" : "the start";
  return last ? supports.back().name : supports.front().name;
}

const Panel& heaviest(const SetInput& input, PanelRange range) {
  const Panel* best = &panel_at(input, range.first);
  for (int i = range.first; i < range.first + range.count; ++i)
    if (masses_of(input, panel_at(input, i)).total > masses_of(input, *best).total)
      best = &panel_at(input, i);
  return *best;
}

std::string detail_reference(const SetPlan& plan, Detail detail) {
  const DetailRef* ref = plan.find(detail);
  return ref == nullptr ? "" : fmt::format(", detail {} on {}", ref->letter, ref->sheet);
}

/// Positions keep their numbers when panels come between them, and then do not rise any more.
bool positions_rise(const Deck& deck) {
  return std::is_sorted(deck.panels.begin(), deck.panels.end(), [](const Panel& a, const Panel& b) {
    return a.position < b.position;
  });
}

bool as_they_stand(const SetPlan& plan) { return !plan.setting || plan.setting->as_they_stand; }

std::string see_setting(const SetPlan& plan) {
  const std::string sheet = plan.setting_sheet();
  return sheet.empty() ? "" : " Steps, gaps and torques: " + sheet + ".";
}

/// The order where it is not that of the panels: the first and the last step of a sheet.
std::string stepped_order(const SetInput& input, const SettingPlan& setting, PanelRange range) {
  int first = range.first, last = range.first;
  const auto step = [&](int i) { return setting.step[static_cast<std::size_t>(i)]; };
  for (int i = range.first; i < range.first + range.count; ++i) {
    if (step(i) < step(first)) first = i;
    if (step(i) > step(last)) last = i;
  }
  return fmt::format("The contractor erects {}: on this sheet step {}, {}, first, step {}, {}, last: {} panels.",
                     setting_way(input.project, input.bridge), step(first), panel_words(input, first),
                     step(last), panel_words(input, last), range.count);
}

std::vector<std::string> order_sentences(const SetInput& input, const SetPlan& plan,
                                         PanelRange range) {
  const Panel& first = panel_at(input, range.first);
  const Panel& last = panel_at(input, range.first + range.count - 1);
  const Panel& heavy = heaviest(input, range);
  const UnitSystem units = input.project.units;
  std::vector<std::string> out;
  if (as_they_stand(plan))
    out.push_back(fmt::format(
        "The contractor erects {}, from {} towards {}; on this "
        "sheet position {} (serial {}) first, position {} (serial {}) last: {} panels.{}",
        positions_rise(input.deck) ? "in the order of the position numbers"
                                   : "panel by panel as they stand, whatever their numbers",
        support_at(input, false), support_at(input, true), first.position, first.serial,
        last.position, last.serial, range.count, see_setting(plan)));
  else
    out.push_back(stepped_order(input, *plan.setting, range) + see_setting(plan));
  if (range.first == 0)
    out.push_back(
        fmt::format("Work point: the line of {} on the alignment, {}. The back face of "
                    "position {} is set {} from it.",
                    support_at(input, false), print_station(input.deck.spans.front().from, units),
                    first.position,
                    print_length(first.start - input.deck.spans.front().from, units)));
  out.push_back(
      "Every joint is set to its own station, surveyed from the work lines, so that "
      "errors of length do not add up.");
  out.push_back(
      fmt::format("Heaviest pick here: position {}, serial {}, {}. Panels hang level from "
                  "all their {} inserts{}.",
                  heavy.position, heavy.serial, mass_text(input, masses_of(input, heavy).total),
                  input.project.deck.lifting.thread, detail_reference(plan, Detail::lifting)));
  return out;
}

std::string setting_temperature(const SetInput& input) {
  const auto& t = input.project.conditions.temperature.setting;
  return t ? "at " + print_temperature(*t, input.project.units)
           : "at the setting temperature, which the designer states";
}

std::string gap_tolerance(const SetInput& input) {
  for (const ToleranceData& t : input.project.conditions.tolerances)
    if (t.of == "gap") return "within " + print_length(t.value, input.project.units);
  return "tolerance not stated";
}

/// Details that the erector needs, also where the plan has no room to point at them.
std::string detail_list(const SetPlan& plan) {
  const std::pair<Detail, const char*> wanted[] = {
      {Detail::curb, "curb"},           {Detail::post_plate, "post plate"},
      {Detail::joint, "joint"},         {Detail::row_joint, "joint between rows"},
      {Detail::end_joint, "end joint"}, {Detail::recess, "recess"},
      {Detail::scupper, "scupper"},     {Detail::hatch, "hatch"},
      {Detail::sleeve, "sleeve"}};
  std::vector<std::string> parts;
  for (const auto& [detail, word] : wanted)
    if (const DetailRef* ref = plan.find(detail))
      parts.push_back(fmt::format("{} {} on {}", word, ref->letter, ref->sheet));
  return join(parts, ", ");
}

std::vector<std::string> setting_notes(const SetInput& input, const SetPlan& plan) {
  const UnitSystem units = input.project.units;
  const DeckData& deck = input.project.deck;
  const bool sealed = deck.joints.kind == JointKind::sealed;
  std::vector<std::string> out;
  out.push_back(units == UnitSystem::metric
                    ? "Dimensions in mm, stations and levels in m. Lengths are horizontal."
                    : "Dimensions in feet and inches, stations and levels in ft. Lengths are "
                      "horizontal.");
  if (!input.bridge.alignment.straight())
    out.push_back(
        "Strips are unrolled along the alignment: lengths on it are true, edges are developed. The "
        "key plan shows the true shape.");
  if (skew_reach(input) > 0)
    out.push_back(
        "Gaps are stated square to the joint line. The chain of panels gives them along the "
        "alignment, where those of skewed joints are longer.");
  out.push_back(
      "The contractor checks girder top levels and splice places before panels leave the "
      "shop, and tells the designer of differences.");
  if (deck.pads) out.push_back("The contractor lays the pads on the girders before setting.");
  out.push_back(fmt::format(
      "Gaps of {} ({}) hold {}. Panels are set within {} of their place; other tolerances are on "
      "G01.",
      print_length(deck.joints.gap, units), gap_tolerance(input), setting_temperature(input),
      print_length(mm(setting_tolerance(input.project)), units)));
  if (deck.hold_downs)
    out.push_back("Nobody walks on a panel before all its hold-downs are tight" +
                  detail_reference(plan, Detail::hold_down) +
                  (sealed ? "; joints are sealed after that." : "."));
  if (const std::string list = detail_list(plan); !list.empty())
    out.push_back("Details: " + list + ".");
  out.push_back(
      "Edges and open ends are guarded until the rails are fixed; openings stay covered. "
      "Local rules and the contractor's method statement govern.");
  out.push_back(
      "Site work: hold-downs, joints, covers, outlets, rails. Nobody drills or cuts a "
      "panel on site.");
  return out;
}

// ---- hardware

/// What the joints of a range take. The joint ahead of a panel goes with it, the first one too.
struct JointTotals {
  int end_joints = 0;
  Length ends;                     // lengths along the joints
  std::map<Length, Length> plain;  // by gap
};

JointTotals joint_totals(const SetInput& input, PanelRange range) {
  JointTotals t;
  const int back = panel_at(input, range.first).joint_back;
  const int ahead = panel_at(input, range.first + range.count - 1).joint_ahead;
  for (int j = range.first == 0 ? back : back + 1; j <= ahead; ++j) {
    const Joint& joint = input.deck.joints[static_cast<std::size_t>(j)];
    t.end_joints += joint.end ? 1 : 0;
    (joint.end ? t.ends : t.plain[joint.gap]) += joint_length(input.bridge, input.deck, joint);
  }
  for (const RowJoint& r : input.deck.row_joints)
    if (const Length l = joint_length(input.bridge, input.deck, r, back, ahead); l > Length())
      t.plain[r.gap] += l;
  return t;
}

int count_features(const SetInput& input, PanelRange range, FeatureKind kind) {
  int n = 0;
  for (int i = range.first; i < range.first + range.count; ++i)
    for (const Feature& f : panel_at(input, i).shape.features) n += f.kind == kind ? 1 : 0;
  return n;
}

int cover_bolts(const SetInput& input, PanelRange range) {
  int n = 0;
  for (int i = range.first; i < range.first + range.count; ++i)
    for (const Feature& f : panel_at(input, i).shape.features)
      if (f.kind == FeatureKind::hatch)
        n += input.project.deck.hatches[static_cast<std::size_t>(f.variant)].bolts;
  return n;
}

std::string run_text(const SetInput& input, Length v) {
  return input.project.units == UnitSystem::metric ? decimal(v.in_m(), 1) + " m"
                                                   : decimal(v.in_feet(), 1) + " ft";
}

// ---- legend

struct Sign {
  std::string text;
  std::function<void(paper::Board&, PaperPoint)> draw;  // centred on the point, 12 x 4 mm
};

std::function<void(paper::Board&, PaperPoint)> stroke_of(PenUse pen) {
  return [pen](paper::Board& board, PaperPoint c) {
    board.line(pen, {c.x - 7, c.y}, {c.x + 7, c.y});
  };
}

std::function<void(paper::Board&, PaperPoint)> ahead(PenUse pen, double way, double head) {
  return [=](paper::Board& board, PaperPoint c) {
    paper::arrow(board, pen, {c.x - way, c.y}, {c.x + way, c.y}, head);
  };
}

void position_sign(paper::Board& board, PaperPoint c) {
  const double h = board.text_height(LetterUse::note) / 2 + 0.7;
  board.box(PenUse::dimension, {{c.x - h, c.y - h}, {c.x + h, c.y + h}});
  board.text(LetterUse::note, c, "7", Align::centre, Stand::middle);
}

void datum_sign(paper::Board& board, PaperPoint c) {
  paper::Path p;
  p.box({{c.x - 0.8, c.y - 0.8}, {c.x + 0.8, c.y + 0.8}});
  board.fill(paper::Ink::accent, std::move(p));
}

std::vector<Sign> signs(const SetInput& input, const SetPlan& plan, PanelRange range) {
  std::vector<Sign> out{
      {positions_rise(input.deck) && as_they_stand(plan) ? "position in the order of erection"
                                                         : "number of the position",
     position_sign},
      {"panel as drawn on its shop sheet, pointing ahead", ahead(PenUse::mark, 4.5, 4)}};
  bool turned = false;
  for (int i = range.first; i < range.first + range.count; ++i) turned |= panel_at(input, i).turned;
  if (turned) out.push_back({"panel lies turned end for end", ahead(PenUse::mark, -4.5, 4)});
  out.push_back({"datum corner of the panel", datum_sign});
  out.push_back({"girder flange, splice, support by others", stroke_of(PenUse::steel_hidden)});
  if (count_features(input, range, FeatureKind::recess) > 0)
    out.push_back({"recess or hold-down in the soffit", stroke_of(PenUse::hidden)});
  out.push_back({"alignment, high line, axes", stroke_of(PenUse::centre)});
  out.push_back({"water runs this way, fall", ahead(PenUse::water, 4.5, 2.5)});
  const bool cut = plan.strips.size() > 1;
  if (cut) out.push_back({"match line", stroke_of(PenUse::match)});
  if (cut) out.push_back({"neighbouring panel, repeated", stroke_of(PenUse::neighbour)});
  return out;
}

void add_legend(Blocks& blocks, const std::string& heading, const std::vector<Sign>& list) {
  add_heading(blocks, heading);
  for (const Sign& sign : list)
    blocks.push_back({[sign](paper::Board& board, const PaperBox& space, double top) {
      const double row = board.text_height(LetterUse::note) + 2.2;
      sign.draw(board, {space.low.x + 8, top - row / 2});
      for (const std::string& line : board.broken(LetterUse::note, space.width() - 18, sign.text)) {
        board.text(LetterUse::note, {space.low.x + 18, top - row / 2}, line, Align::left,
                   Stand::middle);
        top -= row;
      }
      return top;
    }});
  add_space(blocks);
}

double scales_block(paper::Board& board, const PaperBox& space, double top, const SetInput& input,
                    const std::vector<int>& ratios) {
  double y = top - board.text_height(LetterUse::caption) - 3;
  for (int ratio : ratios) {
    paper::scale_bar(board, {space.low.x + 3, y}, ratio, std::min(50.0, space.width() / 2.4),
                     input.project.units);
    y -= board.text_height(LetterUse::caption) + 6;
  }
  return board.paragraph(LetterUse::caption,
                         {space.low.x, y + 1.5 + board.text_height(LetterUse::caption)},
                         space.width(), "Check the bars before use; figures govern.");
}

}  // namespace

PanelRange panels_on(const SetPlan& plan, int sheet) {
  PanelRange r;
  bool any = false;
  for (const Strip& s : plan.strips) {
    if (sheet >= 0 && s.sheet != sheet) continue;
    if (!any) r.first = s.first;
    any = true;
    r.count = s.first + s.count - r.first;
  }
  return r;
}

paper::TableData hardware(const SetInput& input, PanelRange range) {
  const DeckData& deck = input.project.deck;
  const JointTotals joints = joint_totals(input, range);
  paper::TableData t;
  t.title = "HARDWARE ON THIS SHEET";
  t.columns = {{"Item", "", Align::left, 0}, {"Quantity", "", Align::right, 0}};
  const auto add = [&](const std::string& item, const std::string& n) {
    t.rows.push_back({item, n});
  };
  add("Panels", std::to_string(range.count));
  const int clips = count_features(input, range, FeatureKind::hold_down);
  if (clips > 0 && deck.hold_downs) {
    add("Hold-down clips", std::to_string(clips));
    add("Hold-down bolts " + deck.hold_downs->bolt, std::to_string(clips));
  }
  const UnitSystem units = input.project.units;
  if (deck.joints.kind == JointKind::sealed) {
    Length all;
    for (const auto& [gap, run] : joints.plain) all += run;
    add("Backer rod " + print_length(deck.joints.rod, units), run_text(input, all));
    for (const auto& [gap, run] : joints.plain)
      add(fmt::format("Sealant {} x {}", print_length(gap, units),
                      print_length(deck.joints.seal, units)),
          run_text(input, run));
  }
  if (joints.end_joints > 0)
    add(fmt::format("Cover plates {} x {} of end joints",
                    print_length(deck.joints.cover_width, units),
                    print_length(deck.joints.cover_thickness, units)),
        fmt::format("{}: {}", joints.end_joints, run_text(input, joints.ends)));
  if (const int n = count_features(input, range, FeatureKind::scupper); n > 0 && deck.scuppers) {
    add("Scupper grates", std::to_string(n));
    add("Grate bolts " + deck.scuppers->bolt, std::to_string(n * deck.scuppers->bolts));
  }
  if (const int n = count_features(input, range, FeatureKind::hatch); n > 0) {
    add("Hatch covers", std::to_string(n));
    add("Cover bolts", std::to_string(cover_bolts(input, range)));
  }
  if (const int n = count_features(input, range, FeatureKind::lifting_insert); n > 0)
    add("Caps of lifting inserts " + deck.lifting.thread, std::to_string(n));
  if (deck.pads) {
    Length run;
    for (int i = range.first; i < range.first + range.count; ++i)
      for (const Feature& f : panel_at(input, i).shape.features)
        if (f.kind == FeatureKind::pad) run += mm(f.length);
    add(fmt::format("Bearing pad {} x {}", print_length(deck.pads->width, units),
                    print_length(deck.pads->thickness, units)),
        run_text(input, run));
  }
  return t;
}

paper::TableData picks(const SetInput& input, PanelRange range) {
  paper::TableData t;
  t.title = "PICKS";
  const std::string unit = input.project.units == UnitSystem::metric ? "kg" : "lb";
  t.columns = {{"Positions", "", Align::left, 0},
               {"Serials", "", Align::left, 0},
               {"Mass each", unit, Align::right, 0}};
  const auto mass = [&](int i) {
    return print_mass(masses_of(input, panel_at(input, i)).total, input.project.units);
  };
  for (int i = range.first; i < range.first + range.count;) {
    int last = i;
    while (last + 1 < range.first + range.count && mass(last + 1) == mass(i) &&
           counts_on(panel_at(input, last), panel_at(input, last + 1)))
      ++last;
    const Panel &a = panel_at(input, i), &b = panel_at(input, last);
    const bool one = last == i;
    t.rows.push_back(
        {one ? std::to_string(a.position) : fmt::format("{} to {}", a.position, b.position),
         one ? a.serial : a.serial + " to " + b.serial, mass(i)});
    i = last + 1;
  }
  return t;
}

std::string words_name(ErectionWords words) {
  switch (words) {
    case ErectionWords::order:
      return "order";
    case ErectionWords::setting:
      return "setting";
    case ErectionWords::picks:
      return "picks";
    case ErectionWords::hardware:
      return "hardware";
    case ErectionWords::scales:
      return "scale bars";
    case ErectionWords::signs:
      return "signs";
    case ErectionWords::bay:
      return "typical bay";
  }
  return "";
}

Blocks erection_words(const SetInput& input, const SetPlan& plan, int sheet, ErectionWords words,
                      bool with_section, const std::string& of, std::size_t most) {
  const PanelRange range = panels_on(plan, sheet);
  Blocks out;
  const std::string after = of.empty() ? "" : ", " + of;
  switch (words) {
    case ErectionWords::order:
      add_notes(out, "ORDER" + after, order_sentences(input, plan, range));
      break;
    case ErectionWords::setting:
      add_notes(out, "SETTING", setting_notes(input, plan));
      break;
    case ErectionWords::picks: {
      paper::TableData t = picks(input, range);
      t.title += after;
      add_table(out, t, most);
      break;
    }
    case ErectionWords::hardware: {
      paper::TableData t = hardware(input, range);
      if (!of.empty()) t.title = "HARDWARE, " + of;
      add_table(out, t, most);
      break;
    }
    case ErectionWords::scales: {
      std::vector<int> ratios{plan.erection_ratio};
      if (const int other = section_ratio(input, 0); with_section && other != plan.erection_ratio)
        ratios.insert(ratios.begin(), other);
      out.push_back({[&input, ratios](paper::Board& b, const PaperBox& box, double top) {
        return scales_block(b, box, top, input, ratios);
      }});
      add_space(out);
      break;
    }
    case ErectionWords::signs:
      add_legend(out, of.empty() ? "ON THIS SHEET" : "SIGNS OF " + of, signs(input, plan, range));
      break;
    case ErectionWords::bay:
      if (!plan.bay || sheet + 1 != plan.strip_sheets()) break;
      out.push_back({[bay = plan.bay, small = most < 10000 && of.empty()](
                         paper::Board& b, const PaperBox& box, double top) {
                       return draw_bay(b, box, top, *bay, small);
                     },
                     false, true});
      add_space(out);
      break;
  }
  return out;
}

}  // namespace deckquire::sheets
