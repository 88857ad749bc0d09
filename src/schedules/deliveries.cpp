#include "schedules/deliveries.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "schedules/setting_order.h"

namespace deckquire {
namespace {

double in_kg(const std::optional<Mass>& m) { return m ? m->in_si() : 0; }
double in_mm(const std::optional<Length>& l) { return l ? l->in_mm() : 0; }

TruckLimits limits_of(const TruckData& t) {
  TruckLimits l;
  l.bed_length = t.length.in_mm(), l.bed_width = t.width.in_mm();
  l.height = in_mm(t.height), l.payload = in_kg(t.payload);
  l.panels = t.panels.value_or(0);
  l.dunnage = t.dunnage.in_mm(), l.between = t.between.in_mm(), l.overhang = t.overhang.in_mm();
  return l;
}

TruckAxles axles_of(const AxlesData& a) {
  TruckAxles x;
  x.steer_tare = a.steer.in_si(), x.drive_tare = a.drive.in_si(), x.trailer_tare = a.trailer.in_si();
  x.wheelbase = a.wheelbase.in_mm(), x.fifth_wheel = a.fifth_wheel.in_mm();
  x.kingpin_to_axles = a.kingpin.in_mm(), x.bed_ahead = a.bed_ahead.in_mm();
  x.steer_limit = in_kg(a.steer_limit), x.drive_limit = in_kg(a.drive_limit);
  x.trailer_limit = in_kg(a.trailer_limit), x.gross_limit = in_kg(a.gross_limit);
  return x;
}

const Panel& panel_at(const Deck& deck, int i) { return deck.panels[static_cast<std::size_t>(i)]; }

/// Lashings together must take this part of the cargo's weight (49 CFR 393.106(d), from memory:
/// aggregate working load limit at least half the weight of what they hold).
constexpr double lashed_part = 0.5;

Column text(const char* name, const char* head) { return {name, head, Measure::text}; }
Column count(const char* name, const char* head) { return {name, head, Measure::count}; }

}  // namespace

Cargo cargo_of(const Project& project, const Mark& mark) {
  const PanelShape& s = mark.shape;
  const Box<PanelFrame> box = bounds(s.outline);
  const double bed_width = project.conditions.truck ? project.conditions.truck->width.in_mm() : 0;
  const double longer = std::max(box.width(), box.height()), shorter = std::min(box.width(), box.height());
  const bool crosswise = shorter > bed_width + 1e-6 && longer <= bed_width;
  Cargo c;
  c.length = crosswise ? shorter : longer;
  c.width = crosswise ? longer : shorter;
  c.mass = mark.masses.total.in_si();
  const bool along_x = (c.length == longer) == (box.width() >= box.height());
  c.centre = along_x ? mark.masses.x - box.low.x : mark.masses.y - box.low.y;
  for (const PanelPoint& p : s.outline) c.height = std::max(c.height, s.top(p.y));
  c.height = std::max({c.height, s.depth, s.top(s.high_line)});
  if (s.surface >= 0)
    c.height += project.deck.surfaces[static_cast<std::size_t>(s.surface)].thickness.in_mm();
  c.flat_top = s.curbs.empty();
  c.stands_up = c.flat_top ? 0 : project.deck.section.curb.height.in_mm();
  return c;
}

std::optional<Deliveries> plan_deliveries(const Project& project, const Deck& deck, Findings& findings) {
  if (!project.conditions.truck) return std::nullopt;
  const TruckData& truck = *project.conditions.truck;
  Deliveries d;
  d.order = setting_order(project, deck, findings);
  std::vector<Cargo> marks;
  for (const Mark& m : deck.marks) marks.push_back(cargo_of(project, m));
  for (const Panel& p : deck.panels) d.cargo.push_back(marks[static_cast<std::size_t>(p.mark)]);
  d.limits = limits_of(truck);
  if (truck.axles) d.axles = axles_of(*truck.axles);
  d.plan = plan_loads(d.cargo, d.order, d.limits, d.axles ? &*d.axles : nullptr);
  for (int p : d.order)
    if (std::find(d.plan.unfit.begin(), d.plan.unfit.end(), p) == d.plan.unfit.end()) d.carried.push_back(p);
  return d;
}

Table loads_table(const Deck& deck, const Deliveries& d) {
  Table t{"loads",
          "LOADS",
          "Load 1 leaves first. Layer 1 lies on the bed and is loaded first; what is set first lies highest.",
          {count("load", "Load"), count("set", "Set as"), text("serial", "Serial"), text("mark", "Mark"),
           count("position", "Position"), count("stack", "Stack"), count("layer", "Layer"),
           {"mass_kg", "Mass", Measure::mass}, {"stack_front_mm", "Stack front from bed front", Measure::length}},
          {},
          {}};
  std::map<int, std::int64_t> set_as;
  for (std::size_t i = 0; i < d.order.size(); ++i) set_as[d.order[i]] = static_cast<std::int64_t>(i + 1);
  double sum = 0;
  for (std::size_t l = 0; l < d.plan.loads.size(); ++l) {
    const Load& load = d.plan.loads[l];
    for (std::size_t s = 0; s < load.stacks.size(); ++s)
      for (std::size_t i = load.stacks[s].panels.size(); i-- > 0;) {
        const int p = load.stacks[s].panels[i];
        const Panel& panel = panel_at(deck, p);
        const double mass = d.cargo[static_cast<std::size_t>(p)].mass;
        sum += mass;
        t.rows.push_back({static_cast<std::int64_t>(l + 1), set_as[p], panel.serial,
                          deck.marks[static_cast<std::size_t>(panel.mark)].name,
                          std::int64_t{panel.position}, static_cast<std::int64_t>(s + 1),
                          static_cast<std::int64_t>(i + 1), mass, load.stacks[s].front});
      }
  }
  t.total = {std::string("sum"), {}, {}, {}, {}, {}, {}, sum, {}};
  return t;
}

Table trucks_table(const Deliveries& d) {
  Table t{"trucks",
          "TRUCKS",
          fmt::format("{} trucks in the order of setting; in no order could there be fewer than {}.",
                      d.plan.loads.size(), d.plan.free_bound),
          {count("load", "Load"), count("panels", "Panels"), {"mass_kg", "Mass", Measure::mass},
           count("stacks", "Stacks"), {"height_mm", "Height above bed", Measure::length},
           {"centre_mm", "Centre from bed front", Measure::length},
           {"steer_kg", "Steer axle", Measure::mass}, {"drive_kg", "Drive axles", Measure::mass},
           {"trailer_kg", "Trailer axles", Measure::mass}, {"gross_kg", "Gross", Measure::mass},
           {"lashings_kg", "Lashings to hold", Measure::mass}},
          {},
          {}};
  const auto axle = [](const Load& l, double AxleLoads::*member) {
    return l.axles ? Cell{(*l.axles).*member} : Cell{};
  };
  for (std::size_t l = 0; l < d.plan.loads.size(); ++l) {
    const Load& load = d.plan.loads[l];
    double height = 0;
    for (const Stack& s : load.stacks) height = std::max(height, s.height);
    t.rows.push_back({static_cast<std::int64_t>(l + 1), std::int64_t{load.count}, load.mass,
                      static_cast<std::int64_t>(load.stacks.size()), height, load.centre,
                      axle(load, &AxleLoads::steer), axle(load, &AxleLoads::drive),
                      axle(load, &AxleLoads::trailer),
                      load.axles ? Cell{load.axles->gross()} : Cell{}, load.mass * lashed_part});
  }
  return t;
}

}  // namespace deckquire
