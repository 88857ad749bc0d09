// Check cases of the algorithms reference, part 7 (E1-E3, E7), and of the strength reference, case 19;
// small loads against every way to split them.
#include "schedules/truck_loads.h"

#include <doctest/doctest.h>

#include <numeric>

#include "schedules/erection_order.h"
#include "support/dice.h"

namespace deckquire {
namespace {

std::vector<int> in_order(int n) {
  std::vector<int> order(static_cast<std::size_t>(n));
  std::iota(order.begin(), order.end(), 0);
  return order;
}

std::vector<Cargo> of_masses(const std::vector<double>& masses) {
  std::vector<Cargo> cargo;
  for (double m : masses) cargo.push_back({1000, 2000, 200, m, 500});
  return cargo;
}

std::vector<int> counts(const LoadPlan& plan) {
  std::vector<int> out;
  for (const Load& l : plan.loads) out.push_back(l.count);
  return out;
}

}  // namespace

TEST_CASE("erection order: from both ends, as the check case E1") {
  CHECK(from_both_ends(10) == std::vector<int>{0, 9, 1, 8, 2, 7, 3, 6, 4, 5});
  CHECK(from_both_ends(3) == std::vector<int>{0, 2, 1});
  CHECK(from_both_ends(0).empty());
}

TEST_CASE("erection order: what needs another waits, the wish decides the rest, cycles are named") {
  const auto order = erection_order({0, 1, 2, 3, 4}, {{3, 1}, {4, 0}});
  CHECK(order.order == std::vector<int>{2, 3, 1, 4, 0});
  CHECK(order.cycle.empty());
  const auto stuck = erection_order({0, 1, 2, 3, 4, 5}, {{3, 4}, {4, 3}, {4, 5}, {0, 1}});
  CHECK(stuck.order == std::vector<int>{0, 1, 2});
  CHECK(stuck.cycle == std::vector<int>{3, 4});
}

TEST_CASE("trucks: fewest in erection order, the price of the order: check case E2") {
  TruckLimits limits;
  limits.payload = 12;
  const LoadPlan plan = plan_loads(of_masses({7, 6, 7, 6, 5, 5}), in_order(6), limits, nullptr);
  CHECK(counts(plan) == std::vector<int>{1, 1, 1, 1, 2});
  CHECK(plan.free_bound == 3);
}

TEST_CASE("trucks: even loads among the fewest: check case E3") {
  TruckLimits limits;
  limits.payload = 200, limits.panels = 4;
  const LoadPlan plan =
      plan_loads(of_masses({52, 52, 52, 61, 61, 44, 52, 52, 52, 39}), in_order(10), limits, nullptr);
  CHECK(counts(plan) == std::vector<int>{3, 3, 4});
  REQUIRE(plan.loads.size() == 3);
  CHECK(plan.loads[0].mass == doctest::Approx(156));
  CHECK(plan.loads[1].mass == doctest::Approx(166));
  CHECK(plan.loads[2].mass == doctest::Approx(195));
}

TEST_CASE("trucks: how many layers a height takes: check case E7") {
  // Limit 4000 above the road, bed at 1200: 2800 for layers of 200 on 100 of dunnage.
  TruckLimits limits;
  limits.height = 2800, limits.dunnage = 100, limits.bed_length = 1000;
  const auto cargo = of_masses(std::vector<double>(10, 1));
  CHECK(stack_run(cargo, in_order(10), 0, 9, limits, nullptr).has_value());
  CHECK_FALSE(stack_run(cargo, in_order(10), 0, 10, limits, nullptr).has_value());
}

TEST_CASE("trucks: stacks, payload and axle loads of case 19 of the strength reference") {
  constexpr double lb = 0.45359237, ft = 304.8;
  const double mass = 1138.52 * lb;
  std::vector<Cargo> cargo;
  for (int i = 0; i < 33; ++i) cargo.push_back({3000, 2000, 321.5, mass, 1500});
  TruckLimits limits;
  limits.bed_length = 14630, limits.between = 100, limits.height = 4115 - 1524;
  TruckAxles axles;
  axles.steer_tare = 11200 * lb, axles.drive_tare = 13800 * lb, axles.trailer_tare = 8000 * lb;
  axles.wheelbase = 18 * ft, axles.fifth_wheel = ft, axles.kingpin_to_axles = 40 * ft;
  const auto load = stack_run(cargo, in_order(33), 0, 32, limits, nullptr);
  REQUIRE(load.has_value());
  CHECK(load->stacks.size() == 4);
  CHECK(load->stacks.front().panels.size() == 8);
  CHECK_FALSE(stack_run(cargo, in_order(33), 0, 33, limits, nullptr).has_value());
  CHECK(load->mass / lb == doctest::Approx(36430).epsilon(0.0005));
  // The centre lies 21 ft behind the kingpin; the bed's front end is where that puts it.
  axles.bed_ahead = load->centre - 21 * ft;
  const AxleLoads on = axle_loads(axles, load->mass, load->centre);
  CHECK(on.steer / lb == doctest::Approx(12160).epsilon(0.0005));
  CHECK(on.drive / lb == doctest::Approx(30140).epsilon(0.0005));
  CHECK(on.trailer / lb == doctest::Approx(27130).epsilon(0.0005));
  CHECK(on.gross() / lb == doctest::Approx(69430).epsilon(0.0005));
}

TEST_CASE("trucks: stacks keep the order and the lengths; axles decide where the load lies") {
  testing::Dice dice{7};
  int placed = 0, shifted = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const int n = (1 + dice.upto(9));
    std::vector<Cargo> cargo;
    for (int i = 0; i < n; ++i) {
      const double length = (15 + dice.upto(16)) * 100.0;
      cargo.push_back({length, 2500, (150 + dice.upto(151)) * 1.0, (300 + dice.upto(601)) * 1.0,
                       length * (0.45 + 0.1 * dice.next()), dice.upto(2) == 0, 120});
    }
    TruckLimits limits;
    limits.bed_length = 12000, limits.bed_width = 2550, limits.height = 1400, limits.payload = 9000;
    limits.dunnage = 90, limits.between = 150, limits.overhang = 300;
    TruckAxles axles{5000, 4500, 6000, 3600, 400, 8000, 1000, 7000, 8000, 9500, 0};
    const auto load = stack_run(cargo, in_order(n), 0, n, limits, &axles);
    if (!load) continue;
    ++placed;
    double end = 0;
    int panels = 0;
    for (const Stack& s : load->stacks) {
      CHECK(s.front >= end - 1e-6);
      end = s.front + s.length + limits.between;
      CHECK(s.height <= limits.height + 1e-6);
      for (std::size_t i = 1; i < s.panels.size(); ++i) {
        CHECK(s.panels[i] < s.panels[i - 1]);  // needed sooner, lies higher
        CHECK(cargo[static_cast<std::size_t>(s.panels[i])].length <=
              cargo[static_cast<std::size_t>(s.panels[i - 1])].length + limits.overhang);
      }
      panels += static_cast<int>(s.panels.size());
    }
    CHECK(end - limits.between <= limits.bed_length + 1e-6);
    CHECK(panels == n);
    REQUIRE(load->axles.has_value());
    CHECK(within(axles, *load->axles));
    CHECK(load->axles->gross() == doctest::Approx(15500 + load->mass));
    const double front = load->stacks.front().front;
    if (std::abs(front - (limits.bed_length - (end - limits.between)) / 2) > 1) ++shifted;
  }
  CHECK(placed > 100);
  CHECK(shifted > 10);
}

TEST_CASE("trucks: as few as the best of every way to split a run") {
  testing::Dice dice{11};
  for (int trial = 0; trial < 200; ++trial) {
    const int n = (1 + dice.upto(9));
    std::vector<double> masses;
    for (int i = 0; i < n; ++i) masses.push_back((2 + dice.upto(8)));
    // An awkward rule: not every part of what fits fits (as axles can make it).
    const auto fits = [&](int first, int count) -> std::optional<double> {
      double sum = 0;
      for (int i = first; i < first + count; ++i) sum += masses[static_cast<std::size_t>(i)];
      const bool odd = count == 2 && static_cast<int>(sum) % 3 == 1;
      return sum <= 14 && !odd ? std::optional(sum) : std::nullopt;
    };
    int least = 99;
    for (unsigned cuts = 0; cuts < (1U << (n - 1)); ++cuts) {
      int first = 0, runs = 0;
      bool good = true;
      for (int i = 0; i < n; ++i)
        if (i == n - 1 || (cuts >> i & 1U)) {
          good = good && fits(first, i + 1 - first).has_value();
          first = i + 1, ++runs;
        }
      if (good) least = std::min(least, runs);
    }
    CHECK(static_cast<int>(fewest_runs(n, 14, fits).size()) == least);
  }
}

TEST_CASE("trucks: what fits no truck is named with the limit, and left out") {
  TruckLimits limits;
  limits.payload = 2000, limits.bed_length = 2400, limits.bed_width = 2550, limits.height = 500;
  std::vector<Cargo> cargo = of_masses({900, 2100, 800});
  cargo.push_back({2500, 2000, 200, 500, 1250});
  cargo.push_back({1000, 2600, 200, 500, 500});
  const LoadPlan plan = plan_loads(cargo, in_order(5), limits, nullptr);
  CHECK(plan.unfit == std::vector<int>{1, 3, 4});
  CHECK(counts(plan) == std::vector<int>{2});
  CHECK(unfit(cargo[1], limits, nullptr) == "too heavy: 2100 kg where 2000 kg go");
  CHECK(unfit(cargo[3], limits, nullptr) == "too long: 2500 mm where 2400 mm go");
  CHECK(unfit(cargo[4], limits, nullptr) == "too wide: 2600 mm where 2550 mm go");
}

}  // namespace deckquire
