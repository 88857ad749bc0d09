#include "checks/wheels.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace deckquire {
namespace {

/// Places of the first wheel worth a try, for a wheel `aside` mm to its right too.
std::vector<double> places_between(const PanelStrip& s, double from, double to, double aside,
                                   double patch) {
  constexpr int steps = 12;
  std::vector<double> at;
  const auto add = [&](double x) {
    if (x >= from && x <= to) at.push_back(x);
  };
  for (int i = 0; i <= steps; ++i) at.push_back(from + (to - from) * i / steps);
  for (double wheel : {0.0, aside})
    for (std::size_t i = 0; i < s.supports.size(); ++i) {
      for (double beside : {-patch / 2, 0.0, patch / 2}) add(s.supports[i] + beside - wheel);
      // Two loads bend a simple span most with its middle between one of them and their resultant.
      if (i > 0)
        for (double beside : {-aside / 4, 0.0, aside / 4})
          add((s.supports[i - 1] + s.supports[i]) / 2 + beside - wheel);
    }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

}  // namespace

std::vector<std::vector<workings::StripLoad>> axle_places(const PanelStrip& s,
                                                          const VehicleData& v, double factor) {
  const double patch = v.patch_across.in_mm(), gauge = v.gauge.in_mm();
  const double wheel = factor * v.wheel.in_si();
  const double low = s.from_clear + patch / 2, high = s.to_clear - patch / 2;
  std::vector<std::vector<workings::StripLoad>> all;
  if (high < low) return all;
  if (high - low >= gauge)
    for (double x : places_between(s, low, high - gauge, gauge, patch))
      all.push_back({workings::patch_load(wheel, x, patch),
                     workings::patch_load(wheel, x + gauge, patch)});
  const auto alone = [&](double from, double to) {
    if (from > to) return;
    for (double x : places_between(s, from, to, 0, patch))
      all.push_back({workings::patch_load(wheel, x, patch)});
  };
  if (s.right_joint) alone(std::max(low, s.length - gauge), high);
  if (s.left_joint) alone(low, std::min(high, gauge));
  return all;
}

StripCase wheel_case(const PanelStrip& strip, Ask ask, const VehicleData& v, double dead_factor,
                     double factor, std::vector<workings::StripLoad> wheels) {
  StripCase c = case_of(strip, ask, std::min(v.effective.in_mm(), strip.along), dead_factor);
  c.more_words = fmt::format("{} of {:g} (factor of the wheels) × {} kN on {} mm, the worst place "
                             "of those tried between the curbs ({})",
                             wheels.size() > 1 ? "two wheels" : "one wheel", factor,
                             shortest_decimal(v.wheel.in_si() / 1e3, 4),
                             in_list(v.patch_across.in_mm()), v.code);
  c.more = std::move(wheels);
  return c;
}

}  // namespace deckquire
