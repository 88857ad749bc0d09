// Erection order and trucks of a deck: panels as cargo, in the order in which they are set.
#pragma once

#include "deck/deck.h"
#include "schedules/table.h"
#include "schedules/truck_loads.h"

namespace deckquire {

/// A panel lying soffit down on bearers under its webs. It lies with the longer side of the box around
/// its outline along the truck, or the other where only so it is narrow enough.
Cargo cargo_of(const Project& project, const Mark& mark);

/// Everything about the trucks of a deck; nothing where the project states no truck.
struct Deliveries {
  std::vector<int> order;     // of setting, all panels
  std::vector<Cargo> cargo;   // by panel
  TruckLimits limits;
  std::optional<TruckAxles> axles;
  LoadPlan plan;              // loads by runs of `order` less what fits no truck
  std::vector<int> carried;   // `order` less what fits no truck: what the loads' runs are of
};
std::optional<Deliveries> plan_deliveries(const Project& project, const Deck& deck, Findings& findings);

/// One line a panel in the order of setting: load, place in it, stack, layer.
Table loads_table(const Deck& deck, const Deliveries& deliveries);
/// One line a truck: panels, mass, stacks, height, axle loads, pull that the lashings must hold.
Table trucks_table(const Deliveries& deliveries);

}  // namespace deckquire
