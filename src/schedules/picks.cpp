#include "schedules/picks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/datum.h"
#include "schedules/setting_order.h"
#include "workings/lifting.h"
#include "workings/reckoner.h"

namespace deckquire {
namespace {

const Mark& mark_of(const Deck& deck, const Panel& p) { return deck.marks[static_cast<std::size_t>(p.mark)]; }

/// How one mark hangs.
struct Hanging {
  int inserts = 0;
  double leg = 0, hook = 0;
  std::optional<double> force;
  std::string unchecked;
};

workings::Given value_of(double si) { return {si, "", {workings::Origin::From::computed, "", {}}}; }
workings::Given list_of(std::string text) {
  return {0, std::move(text), {workings::Origin::From::computed, "", {}}};
}

Hanging hanging_of(const Project& project, const Mark& mark) {
  const LiftingData& data = project.deck.lifting;
  Hanging h;
  std::string points;
  PanelPoint far;  // from the hook to the insert of the longest leg
  for (const Feature& f : mark.shape.features) {
    if (f.kind != FeatureKind::lifting_insert) continue;
    const PanelPoint d{f.at.x - mark.masses.x, f.at.y - mark.masses.y};
    if (h.inserts++ == 0 || std::hypot(d.x, d.y) > std::hypot(far.x, far.y)) far = d;
    points += fmt::format("{}{:.6f}, {:.6f} mm", points.empty() ? "" : "; ", f.at.x, f.at.y);
  }
  if (!data.handling) h.unchecked = "needs a factor for handling (lifting handling=)";
  if (h.inserts < 3) h.unchecked = "needs three inserts or more";
  if (h.inserts == 0) return h;
  h.hook = std::hypot(far.x, far.y) * std::tan(data.angle.in_si());
  const double weight = mark.masses.total.in_si() * workings::standard_gravity;
  const double phi = data.handling.value_or(1);
  try {
    const workings::Working sling = workings::reckon(
        *workings::find_working("sling"),
        {{"W", value_of(weight)}, {"phi", value_of(phi)}, {"n", value_of(h.inserts)},
         {"n_e", value_of(data.carrying)}, {"l_x", value_of(2 * std::abs(far.x) / 1e3)},
         {"l_y", value_of(2 * std::abs(far.y) / 1e3)}, {"h", value_of(h.hook / 1e3)}});
    h.leg = sling.result("l_l") * 1e3;
    if (!h.unchecked.empty()) return h;
    const workings::Working points_alike = workings::reckon(
        *workings::find_working("pick-points"),
        {{"W", value_of(weight)}, {"phi", value_of(phi)}, {"points", list_of(points)},
         {"x_g", value_of(mark.masses.x / 1e3)}, {"y_g", value_of(mark.masses.y / 1e3)}});
    h.force = std::max(sling.result("T"), points_alike.result("F"));
  } catch (const workings::WorkingError& e) {
    h.unchecked = std::string("needs values that make sense: ") + e.what();
  }
  return h;
}

/// What a chart states for the next larger radius: never between two of its lines.
std::optional<Mass> chart_at(const CraneData& crane, double radius) {
  for (const ReachData& r : crane.chart)
    if (radius <= r.radius.in_mm() + 1e-6) return r.mass;
  return std::nullopt;
}

std::optional<CraneReach> chosen(const std::vector<CraneReach>& reaches) {
  if (reaches.empty()) return std::nullopt;
  for (const CraneReach& r : reaches)
    if (r.holds()) return r;
  const auto over = [](const CraneReach& r) { return r.takes ? r.lifted / r.takes->in_si() : 1e9; };
  return *std::min_element(reaches.begin(), reaches.end(),
                           [&](const CraneReach& a, const CraneReach& b) { return over(a) < over(b); });
}

}  // namespace

GroundPoint crane_axis(const Bridge& bridge, const CraneData& crane) {
  const Alignment& line = bridge.alignment;
  const double at = crane.station.in_mm(), offset = crane.offset.in_mm();
  const double end = std::clamp(at, line.from().in_mm(), line.to().in_mm());
  if (at == end) return line.ground(at, offset);
  const double heading = line.heading(end), c = std::cos(heading), s = std::sin(heading);
  const GroundPoint foot = line.ground(end, 0);
  return {foot.x + (at - end) * c - offset * s, foot.y + (at - end) * s + offset * c};
}

PanelPoint centre_in_place(const Deck& deck, const Panel& panel) {
  const Mark& mark = mark_of(deck, panel);
  // Marks are alike from the lowest corner of the boxes around their outlines (same_type()).
  const Box<PanelFrame> drawn = bounds(mark.shape.outline), here = bounds(panel.shape.outline);
  const PanelPoint g{mark.masses.x, mark.masses.y};
  return here.low + (panel.turned ? drawn.high - g : g - drawn.low);
}

std::vector<CraneReach> crane_reaches(const Project& project, const Bridge& bridge, const Deck& deck,
                                      int panel) {
  const Panel& p = deck.panels[static_cast<std::size_t>(panel)];
  const GroundPoint g = p.frame.ground(centre_in_place(deck, p));
  const auto& cranes = project.conditions.erection.cranes;
  std::vector<CraneReach> out;
  for (std::size_t i = 0; i < cranes.size(); ++i) {
    if (cranes[i].chart.empty()) continue;
    const GroundPoint d = g - crane_axis(bridge, cranes[i]);
    const double radius = std::hypot(d.x, d.y);
    out.push_back({static_cast<int>(i), radius,
                   mark_of(deck, p).masses.total.in_si() + cranes[i].tackle.in_si(),
                   chart_at(cranes[i], radius)});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const CraneReach& a, const CraneReach& b) { return a.radius < b.radius; });
  return out;
}

std::vector<Pick> picks_of(const Project& project, const Bridge& bridge, const Deck& deck,
                           const std::vector<int>& order) {
  std::vector<Hanging> hangings;
  for (const Mark& m : deck.marks) hangings.push_back(hanging_of(project, m));
  std::vector<Pick> out;
  for (int i : order) {
    const Panel& p = deck.panels[static_cast<std::size_t>(i)];
    const Mark& m = mark_of(deck, p);
    const Hanging& h = hangings[static_cast<std::size_t>(p.mark)];
    Pick pick;
    pick.panel = i;
    pick.step = static_cast<int>(out.size()) + 1;
    pick.centre = from_datum(m.shape, {m.masses.x, m.masses.y});
    pick.inserts = h.inserts, pick.leg = h.leg, pick.hook = h.hook;
    pick.force = h.force, pick.unchecked = h.unchecked;
    pick.crane = chosen(crane_reaches(project, bridge, deck, i));
    out.push_back(std::move(pick));
  }
  return out;
}

Table picks_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"picks",
          "PICKS",
          "Legs from one hook over the centre of gravity (x and y from the corner that the panel's sheet "
          "measures from). The hook's height is above the deck with the panel in its place; over rails and "
          "curbs it swings higher. Force: in the insert that governs, handling factor included. The chart is "
          "that of the next larger radius it states; crane and tackle are the lift supervisor's to confirm. Not "
          "checked: the pick from the truck, whose place is not known. Weigh a panel before the first lift.",
          {{"step", "Step", Measure::count}, {"serial", "Serial", Measure::text},
           {"mark", "Mark", Measure::text}, {"mass_kg", "Mass", Measure::mass},
           {"centre_x_mm", "Centre x", Measure::length}, {"centre_y_mm", "Centre y", Measure::length},
           {"inserts", "Inserts", Measure::count}, {"insert_force_n", "Insert force", Measure::force},
           {"leg_m", "Leg length", Measure::reach}, {"leg_angle_deg", "Leg angle °", Measure::count},
           {"hook_m", "Hook above deck", Measure::reach}, {"crane", "Crane", Measure::text},
           {"radius_m", "Radius", Measure::reach}, {"lifted_kg", "With tackle", Measure::mass},
           {"chart_kg", "Chart takes", Measure::mass}, {"ratio", "Ratio", Measure::text}},
          {},
          {}};
  const std::string none = "not stated";
  Findings said_by_check;
  for (const Pick& k : picks_of(project, bridge, deck, setting_order(project, deck, said_by_check))) {
    const Panel& p = deck.panels[static_cast<std::size_t>(k.panel)];
    const bool hangs = k.leg > 0;
    std::vector<Cell> row{
        std::int64_t{k.step}, p.serial, mark_of(deck, p).name, mark_of(deck, p).masses.total.in_si(),
        k.centre.x, k.centre.y, std::int64_t{k.inserts},
        k.force ? Cell(*k.force) : Cell(std::string("not checked")), hangs ? Cell(k.leg / 1e3) : Cell(none),
        project.deck.lifting.angle.in_si() * 180 / pi, hangs ? Cell(k.hook / 1e3) : Cell(none)};
    if (k.crane) {
      const CraneReach& c = *k.crane;
      const std::string& name = project.conditions.erection.cranes[static_cast<std::size_t>(c.crane)].name;
      row.insert(row.end(), {c.holds() ? name : "NONE; " + name, c.radius / 1e3, c.lifted,
                             c.takes ? Cell(c.takes->in_si()) : Cell(std::string("beyond")),
                             c.takes ? decimal(c.lifted / c.takes->in_si(), 2) : std::string("-")});
    } else {
      row.insert(row.end(), {none, none, none, none, none});
    }
    t.rows.push_back(std::move(row));
  }
  return t;
}

}  // namespace deckquire
