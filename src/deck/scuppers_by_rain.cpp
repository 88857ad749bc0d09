#include "deck/scuppers_by_rain.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace deckquire {
namespace {

constexpr double step = 0.25;  // m

}  // namespace

RainReach::RainReach(GutterLine line, const GutterWater& water, double allowed,
                     const Alignment& alignment)
    : line_(std::move(line)), water_(water), allowed_(allowed) {
  level_ = is_level(alignment, line_);
}

double RainReach::flow(Length from, Length to, bool ahead) const {
  const double area = line_.area(to.in_m()) - line_.area(from.in_m());
  return std::max(0.0, water_.rate * (ahead ? area : -area));
}

/// Spread at a scupper on a flat gutter that takes Q: its pond; without the grate's opening, as
/// over an edge.
double RainReach::foot_of_pond(double Q) const {
  if (Q <= 0) return 0;
  return water_.opening ? water_.ponding(Q).T : hydraulics::critical_spread(water_.Sx, Q);
}

Length RainReach::furthest(Length from, Length to, double carried) const {
  const bool ahead = to > from;
  const double base = line_.area(from.in_m()), start = from.in_m(), down = ahead ? 1 : -1;
  const double length = std::abs(to.in_m() - start);
  const auto flow_at = [&](double d) {
    return carried + water_.rate * std::abs(line_.area(start + down * d) - base);
  };
  double flat_from = -1, squares = 0, adverse = 0;  // of the flat stretch that reaches here
  double last = 0;
  while (last < length) {
    const double d = std::min(last + step, length), dx = d - last, x = start + down * d;
    const double SL = grade(x, ahead), Qa = flow_at(last), Q = flow_at(d);
    const auto uniform = [&](double at) {
      const double s = grade(start + down * at, ahead);
      return s > 0 ? hydraulics::gutter_spread(water_.gutter(s), flow_at(at)) : 1e9;
    };
    double spread = SL > 0 ? uniform(d) : 1e9;
    if (SL < hydraulics::flat) {
      if (flat_from < 0) flat_from = last, squares = adverse = 0;
      squares += (Qa * Qa + Qa * Q + Q * Q) / 3 * dx;
      adverse += std::max(0.0, -SL) * dx;
      const double over = d - flat_from, half = level_ ? 0.5 : 1;
      // On a level gutter the water parts half-way: half the length, half the flow.
      const double mean = squares / over * half * half;
      const double pond = foot_of_pond(Q) + adverse / water_.Sx;
      spread =
          std::min(spread, hydraulics::backwater_spread(water_.gutter(0), pond, mean, over * half));
    } else {
      flat_from = -1;
    }
    if (spread > allowed_) {
      double low = last, high = d;
      for (int k = 0; SL >= hydraulics::flat && k < 40; ++k) {
        const double middle = (low + high) / 2;
        (uniform(middle) > allowed_ ? high : low) = middle;
      }
      return metres(start + down * low);
    }
    last = d;
  }
  return to;
}

std::optional<double> RainReach::sag_share() const {
  if (!water_.opening) return std::nullopt;
  const hydraulics::Ponding one = water_.ponding(1);
  const hydraulics::Grate& g = *water_.grate;
  const double d = std::max(0.0, water_.Sx * (allowed_ - g.gap - g.W / 2));
  return std::min(1.66 * one.P * std::pow(d, 1.5),
                  0.67 * one.A * std::sqrt(2 * hydraulics::gravity * d)) /
         2;
}

double RainReach::passes(Length at, bool ahead, double arriving) const {
  const double SL = grade(at.in_m(), ahead);
  if (SL < 1e-5 || arriving <= 0) return 0;
  return hydraulics::grate_on_grade(water_.gutter(SL), *water_.grate, arriving).Qb;
}

}  // namespace deckquire
