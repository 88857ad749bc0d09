#include "schedules/truck_loads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace deckquire {
namespace {

constexpr double hair = 1e-6;  // mm or kg: what sums in another order may differ by

bool passes(double value, double limit) { return limit > 0 && value > limit + hair; }

/// Height that a panel takes in a stack when another lies on it.
double pitch(const Cargo& c, const TruckLimits& limits) {
  return c.height + std::max(limits.dunnage, c.flat_top ? 0 : c.stands_up);
}

/// Height of a stack whose topmost panel is the last: it lies on dunnage too.
double height_of(const std::vector<Cargo>& cargo, const std::vector<int>& panels,
                 const TruckLimits& limits) {
  double sum = limits.dunnage;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const Cargo& c = cargo[static_cast<std::size_t>(panels[i])];
    sum += i + 1 < panels.size() ? pitch(c, limits) : c.height + (c.flat_top ? 0 : c.stands_up);
  }
  return sum;
}

bool takes(const std::vector<Cargo>& cargo, const Stack& stack, int panel, const TruckLimits& limits) {
  const Cargo& under = cargo[static_cast<std::size_t>(stack.panels.back())];
  if (cargo[static_cast<std::size_t>(panel)].length > under.length + limits.overhang + hair) return false;
  std::vector<int> panels = stack.panels;
  panels.push_back(panel);
  return !passes(height_of(cargo, panels, limits), limits.height);
}

/// Lengths, heights and places along the bed, from its front end.
double set_out(const std::vector<Cargo>& cargo, std::vector<Stack>& stacks, const TruckLimits& limits) {
  double at = 0;
  for (Stack& s : stacks) {
    s.length = 0;
    for (int p : s.panels) s.length = std::max(s.length, cargo[static_cast<std::size_t>(p)].length);
    s.height = height_of(cargo, s.panels, limits);
    s.front = at;
    at += s.length + limits.between;
  }
  return at - limits.between;
}

/// Mass and centre of the load; panels lie in the middle of their stack, back end to the rear.
void weigh(const std::vector<Cargo>& cargo, Load& load) {
  double moment = 0;
  load.mass = 0;
  for (const Stack& s : load.stacks)
    for (int p : s.panels) {
      const Cargo& c = cargo[static_cast<std::size_t>(p)];
      const double rear = s.front + (s.length + c.length) / 2;
      load.mass += c.mass;
      moment += c.mass * (rear - c.centre);
    }
  load.centre = load.mass > 0 ? moment / load.mass : 0;
}

struct Interval {
  double low = 0, high = 0;
};

/// Where the centre of that payload may lie behind the kingpin, as far as the axles say.
Interval allowed(const TruckAxles& a, double payload) {
  Interval in{-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  if (payload <= 0) return in;
  const double k = a.kingpin_to_axles, f = a.wheelbase > 0 ? a.fifth_wheel / a.wheelbase : 0;
  if (a.trailer_limit > 0) in.high = (a.trailer_limit - a.trailer_tare) * k / payload;
  const auto at_least = [&](double share, double room) {
    if (share > 0) in.low = std::max(in.low, k * (1 - room / (share * payload)));
  };
  if (a.drive_limit > 0) at_least(1 - f, a.drive_limit - a.drive_tare);
  if (a.steer_limit > 0) at_least(f, a.steer_limit - a.steer_tare);
  return in;
}

/// Moves the load along the bed to the place nearest the middle where the axles carry it.
bool place(Load& load, double length, const TruckLimits& limits, const TruckAxles* axles) {
  const double room = limits.bed_length > 0 ? limits.bed_length - length : 0;
  double shift = room / 2;
  if (axles) {
    const Interval in = allowed(*axles, load.mass);
    const double now = load.centre - axles->bed_ahead;
    const double low = std::max(0.0, in.low - now), high = std::min(room, in.high - now);
    if (low > high + hair) return false;
    shift = std::clamp(shift, low, std::max(low, high));
  }
  for (Stack& s : load.stacks) s.front += shift;
  load.centre += shift;
  if (!axles) return true;
  load.axles = axle_loads(*axles, load.mass, load.centre);
  return within(*axles, *load.axles);
}

/// Martello and Toth's bound L2 for bin packing (Knapsack Problems, Wiley 1990, 8.3; from memory): with
/// items larger than `capacity - least` alone, those above half one a bin, what is left spread freely.
int bound_of(const std::vector<double>& masses, double capacity) {
  int best = 0;
  for (double least : masses) {
    if (least > capacity / 2) continue;
    int alone = 0, half = 0;
    double in_half = 0, rest = 0;
    for (double m : masses) {
      if (m > capacity - least)
        ++alone;
      else if (m > capacity / 2)
        ++half, in_half += m;
      else if (m >= least)
        rest += m;
    }
    const double over = rest - (half * capacity - in_half);
    best = std::max(best, alone + half + std::max(0, static_cast<int>(std::ceil(over / capacity - hair))));
  }
  const auto large = std::count_if(masses.begin(), masses.end(), [&](double m) { return m > capacity / 2; });
  return std::max(best, static_cast<int>(large));
}

int free_bound(const std::vector<Cargo>& cargo, const std::vector<int>& order, const TruckLimits& limits) {
  std::vector<double> masses;
  for (int p : order) masses.push_back(cargo[static_cast<std::size_t>(p)].mass);
  int bound = masses.empty() ? 0 : 1;
  if (limits.payload > 0) bound = std::max(bound, bound_of(masses, limits.payload));
  if (limits.panels > 0)
    bound = std::max(bound, (static_cast<int>(order.size()) + limits.panels - 1) / limits.panels);
  return bound;
}

}  // namespace

AxleLoads axle_loads(const TruckAxles& a, double payload, double centre) {
  const double trailer = payload * (centre - a.bed_ahead) / a.kingpin_to_axles;
  const double kingpin = payload - trailer;
  const double steer = a.wheelbase > 0 ? kingpin * a.fifth_wheel / a.wheelbase : 0;
  return {a.steer_tare + steer, a.drive_tare + kingpin - steer, a.trailer_tare + trailer};
}

bool within(const TruckAxles& a, const AxleLoads& l) {
  return !passes(l.steer, a.steer_limit) && !passes(l.drive, a.drive_limit) &&
         !passes(l.trailer, a.trailer_limit) && !passes(l.gross(), a.gross_limit);
}

std::optional<Load> stack_run(const std::vector<Cargo>& cargo, const std::vector<int>& order, int first,
                              int count, const TruckLimits& limits, const TruckAxles* axles) {
  if (limits.panels > 0 && count > limits.panels) return std::nullopt;
  Load load;
  load.first = first, load.count = count;
  for (int i = first + count - 1; i >= first; --i) {
    const int panel = order[static_cast<std::size_t>(i)];
    if (passes(cargo[static_cast<std::size_t>(panel)].width, limits.bed_width)) return std::nullopt;
    const auto on = std::find_if(load.stacks.begin(), load.stacks.end(), [&](const Stack& s) {
      return takes(cargo, s, panel, limits);
    });
    if (on != load.stacks.end())
      on->panels.push_back(panel);
    else
      load.stacks.push_back({{panel}});
  }
  const double length = set_out(cargo, load.stacks, limits);
  if (passes(length, limits.bed_length)) return std::nullopt;
  for (const Stack& s : load.stacks)
    if (passes(s.height, limits.height)) return std::nullopt;
  weigh(cargo, load);
  if (passes(load.mass, limits.payload)) return std::nullopt;
  if (!place(load, length, limits, axles)) return std::nullopt;
  return load;
}

std::string unfit(const Cargo& c, const TruckLimits& limits, const TruckAxles* axles) {
  const auto words = [](const char* what, double has, double limit, const char* unit) {
    return fmt::format("too {}: {:.0f} {} where {:.0f} {} go", what, has, unit, limit, unit);
  };
  if (passes(c.length, limits.bed_length)) return words("long", c.length, limits.bed_length, "mm");
  if (passes(c.width, limits.bed_width)) return words("wide", c.width, limits.bed_width, "mm");
  if (passes(c.mass, limits.payload)) return words("heavy", c.mass, limits.payload, "kg");
  const double height = height_of({c}, {0}, limits);
  if (passes(height, limits.height)) return words("high", height, limits.height, "mm");
  return stack_run({c}, {0}, 0, 1, limits, axles) ? "" : "too heavy for the axles wherever it lies";
}

std::vector<int> fewest_runs(int n, double capacity,
                             const std::function<std::optional<double>(int, int)>& mass_if_fits) {
  struct Best {
    int runs = std::numeric_limits<int>::max(), length = 0;
    double uneven = 0;
  };
  std::vector<Best> best(static_cast<std::size_t>(n) + 1);
  best.back().runs = 0;
  for (int i = n - 1; i >= 0; --i)
    for (int count = 1; i + count <= n; ++count) {
      const Best& rest = best[static_cast<std::size_t>(i + count)];
      if (rest.runs == std::numeric_limits<int>::max()) continue;
      const auto mass = mass_if_fits(i, count);
      if (!mass) continue;
      const double free = capacity > 0 ? capacity - *mass : 0;
      Best& b = best[static_cast<std::size_t>(i)];
      const Best with{rest.runs + 1, count, rest.uneven + free * free};
      if (with.runs < b.runs || (with.runs == b.runs && with.uneven < b.uneven - hair)) b = with;
    }
  std::vector<int> runs;
  for (int i = 0; i < n;) {
    const Best& b = best[static_cast<std::size_t>(i)];
    if (b.length == 0) return {};
    runs.push_back(b.length);
    i += b.length;
  }
  return runs;
}

LoadPlan plan_loads(const std::vector<Cargo>& cargo, const std::vector<int>& order,
                    const TruckLimits& limits, const TruckAxles* axles) {
  LoadPlan plan;
  std::vector<int> kept;
  for (int p : order)
    (unfit(cargo[static_cast<std::size_t>(p)], limits, axles).empty() ? kept : plan.unfit).push_back(p);
  plan.free_bound = free_bound(cargo, kept, limits);
  const auto fits = [&](int first, int count) -> std::optional<double> {
    const auto load = stack_run(cargo, kept, first, count, limits, axles);
    return load ? std::optional(load->mass) : std::nullopt;
  };
  int first = 0;
  for (int count : fewest_runs(static_cast<int>(kept.size()), limits.payload, fits)) {
    plan.loads.push_back(*stack_run(cargo, kept, first, count, limits, axles));
    first += count;
  }
  return plan;
}

}  // namespace deckquire
