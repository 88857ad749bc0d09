// Panels on trucks, in the order in which they are set. Each truck carries a run of that order, so
// that no panel waits for a later truck; the last that is needed is loaded first and lies lowest.
// Source of the method: rules of thumb of the yard (common practice, no source); the split is the least
// number of trucks, proven by dynamic programming.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace deckquire {

/// A panel as cargo: mm and kg. It lies with its length along the truck.
struct Cargo {
  double length = 0, width = 0;
  double height = 0;     // of the panel itself, curbs and all
  double mass = 0;
  double centre = 0;     // of gravity, from its back end as it lies
  bool flat_top = true;  // false: what stands up from it (curbs, frames) must stay clear: dunnage over
                         // its webs is as high as they are
  double stands_up = 0;  // how far
};

/// What a truck takes; mm and kg. Zero: no limit stated.
struct TruckLimits {
  double bed_length = 0, bed_width = 0;
  double height = 0;       // of the load above the bed
  double payload = 0;
  int panels = 0;          // most of them on one truck
  double dunnage = 0;      // height of the bearers under every panel
  double between = 0;      // stacks apart along the bed
  double overhang = 0;     // by which a panel may stand out beyond the one below, at both ends together
};

/// Axles of a semitrailer, mm and kg; distances ahead are positive.
struct TruckAxles {
  double steer_tare = 0, drive_tare = 0, trailer_tare = 0;     // empty, on each axle group
  double wheelbase = 0;         // steer axle to the middle of the drive axles
  double fifth_wheel = 0;       // ahead of the middle of the drive axles
  double kingpin_to_axles = 0;  // kingpin to the middle of the trailer's axles
  double bed_ahead = 0;         // front end of the bed ahead of the kingpin
  double steer_limit = 0, drive_limit = 0, trailer_limit = 0, gross_limit = 0;  // 0: not stated
};

struct AxleLoads {
  double steer = 0, drive = 0, trailer = 0;
  double gross() const { return steer + drive + trailer; }
};

/// Payload with its centre of gravity that far behind the front end of the bed: moments about the
/// kingpin, then about the drive axles.
AxleLoads axle_loads(const TruckAxles& axles, double payload, double centre);
/// True where no stated limit is passed.
bool within(const TruckAxles& axles, const AxleLoads& loads);

/// Panels one on the other, lowest first; indices into the cargo.
struct Stack {
  std::vector<int> panels;
  double front = 0;   // of its longest panel, behind the front end of the bed
  double length = 0;  // of its longest panel
  double height = 0;  // with all dunnage
};

struct Load {
  int first = 0, count = 0;  // run of the erection order
  std::vector<Stack> stacks;  // from the front of the bed
  double mass = 0, centre = 0;  // of all, the centre behind the front end of the bed
  std::optional<AxleLoads> axles;
};

/// A run of panels in the order they are set, stacked by the rules: loaded in reverse, each on the first
/// stack that takes it (not longer than what lies under it by more than the overhang, not too high),
/// else on a new stack behind. Stacks are then moved together to the place along the bed where the axles
/// carry them, as near the middle as may be. Nothing when it does not fit.
std::optional<Load> stack_run(const std::vector<Cargo>& cargo, const std::vector<int>& order, int first,
                              int count, const TruckLimits& limits, const TruckAxles* axles);

/// Which limit a panel passes alone ("too long: 13.2 m on a bed of 12 m"); empty when it fits.
std::string unfit(const Cargo& cargo, const TruckLimits& limits, const TruckAxles* axles);

struct LoadPlan {
  std::vector<Load> loads;
  std::vector<int> unfit;  // panels that fit no truck: left out
  int free_bound = 0;      // no order of loading takes fewer trucks (by mass, panels and bed area alone)
};

/// The fewest trucks, and of those the most even in mass (least sum of squares of what stays free):
/// f(i) = min over runs i..j that fit of (1, free^2) + f(j + 1). O(n b) runs, b the most a truck takes.
LoadPlan plan_loads(const std::vector<Cargo>& cargo, const std::vector<int>& order,
                    const TruckLimits& limits, const TruckAxles* axles);

/// The same by any rule of what fits and what it weighs: lengths of the runs. Empty when a single item
/// does not fit.
std::vector<int> fewest_runs(int n, double capacity, const std::function<std::optional<double>(int, int)>& mass_if_fits);

}  // namespace deckquire
