#include "workings/strip_pattern.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "workings/polynomial.h"
#include "workings/reckoner.h"

namespace deckquire::workings {

namespace {

enum class Of { V, M, w };

Polynomial polynomial(const StripPiece& p, Of of) {
  if (of == Of::V) return {p.V.begin(), p.V.end()};
  if (of == Of::M) return {p.M.begin(), p.M.end()};
  return {p.w.begin(), p.w.end()};
}

/// Both extremes of one quantity.
struct Worst {
  PatternPeak largest{std::nan(""), 0, {}}, smallest{std::nan(""), 0, {}};
};

/// Between two places where parts change sign: the parts that make it worse stay the same, so there
/// their sum is one polynomial.
void look_between(double from, double to, const StripPiece& here, const Polynomial& always,
                  const std::vector<Polynomial>& parts, bool larger, PatternPeak& worst) {
  Polynomial sum = always;
  std::vector<bool> there(parts.size());
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const double v = value_at(parts[k], (from + to) / 2);
    there[k] = larger ? v > 0 : v < 0;
    for (std::size_t d = 0; there[k] && d < sum.size(); ++d) sum[d] += parts[k][d];
  }
  for (double s : turning_points(sum, from, to)) {
    const double v = value_at(sum, s), margin = 1e-12 * std::abs(worst.value);
    if (std::isnan(worst.value) || (larger ? v > worst.value + margin : v < worst.value - margin)) {
      worst = {v, s < here.to - here.from ? here.from + s : here.to, there};
    }
  }
}

void look_into(const PatternResult& r, std::size_t piece, Of of, double from, double to,
               Worst& worst) {
  const StripPiece& here = r.always.pieces[piece];
  const double lo = std::max(from, here.from) - here.from, hi = std::min(to, here.to) - here.from;
  if (!(lo < hi)) return;
  std::vector<Polynomial> parts;
  std::vector<double> places{lo, hi};
  for (const StripResult& part : r.parts) {
    parts.push_back(polynomial(part.pieces[piece], of));
    for (double s : sign_changes(parts.back(), lo, hi)) places.push_back(s);
  }
  std::sort(places.begin(), places.end());
  const Polynomial always = polynomial(here, of);
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    if (!(places[i] < places[i + 1])) continue;
    look_between(places[i], places[i + 1], here, always, parts, true, worst.largest);
    look_between(places[i], places[i + 1], here, always, parts, false, worst.smallest);
  }
}

Worst worst_of(const PatternResult& r, Of of, double from, double to) {
  Worst worst;
  for (std::size_t i = 0; i < r.always.pieces.size(); ++i) look_into(r, i, of, from, to, worst);
  return worst;
}

StripState gathered(const PatternResult& r, double x, Side side, bool larger) {
  StripState sum = r.always.at(x, side);
  const auto add = [larger](double& to, double v) {
    to += larger ? std::max(v, 0.0) : std::min(v, 0.0);
  };
  for (const StripResult& part : r.parts) {
    const StripState s = part.at(x, side);
    add(sum.w, s.w), add(sum.rotation, s.rotation), add(sum.V, s.V), add(sum.M, s.M);
  }
  return sum;
}

/// Loads of size 0 wherever another combination has a load, so that all are cut into the same
/// pieces.
std::vector<StripLoad> with_places(std::vector<StripLoad> own, const PatternLoads& all) {
  const auto add = [&own](const std::vector<StripLoad>& others) {
    for (StripLoad l : others) {
      l.size = 0;
      own.push_back(l);
    }
  };
  add(all.always);
  for (const auto& part : all.parts) add(part);
  return own;
}

}  // namespace

std::vector<std::vector<StripLoad>> each_bay(const Strip& strip, double per_mm) {
  std::vector<double> ends{0};
  for (const StripSupport& s : strip.supports) ends.push_back(s.x);
  ends.push_back(strip.length);
  std::vector<std::vector<StripLoad>> parts;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    if (ends[i] < ends[i + 1]) parts.push_back({uniform_load(per_mm, ends[i], ends[i + 1])});
  }
  return parts;
}

StripState PatternResult::largest(double x, Side side) const {
  return gathered(*this, x, side, true);
}

StripState PatternResult::smallest(double x, Side side) const {
  return gathered(*this, x, side, false);
}

PatternPeak PatternResult::worst_w(double from, double to) const {
  const Worst w = worst_of(*this, Of::w, from, to);
  return std::abs(w.smallest.value) > std::abs(w.largest.value) ? w.smallest : w.largest;
}

PatternResult solve_patterns(const Strip& strip, const PatternLoads& loads) {
  for (const StripSupport& s : strip.supports) {
    if (!s.holds_down) {
      throw WorkingError(
          "pattern loading adds results up, which a support that can only push forbids; "
          "hold it down, or solve each combination by itself");
    }
  }
  PatternResult r;
  r.always = solve(strip, with_places(loads.always, loads));
  for (const auto& part : loads.parts) r.parts.push_back(solve(strip, with_places(part, loads)));
  for (std::size_t i = 0; i < strip.supports.size(); ++i) {
    PatternResult::Reaction sum{r.always.reactions[i], r.always.reactions[i]};
    for (const StripResult& part : r.parts) {
      sum.max += std::max(part.reactions[i], 0.0);
      sum.min += std::min(part.reactions[i], 0.0);
    }
    r.reactions.push_back(sum);
  }
  const auto worst = [&](Of of, PatternPeak& largest, PatternPeak& smallest) {
    Worst w = worst_of(r, of, 0, strip.length);
    largest = std::move(w.largest), smallest = std::move(w.smallest);
  };
  worst(Of::M, r.max_M, r.min_M);
  worst(Of::V, r.max_V, r.min_V);
  worst(Of::w, r.max_w, r.min_w);
  return r;
}

}  // namespace deckquire::workings
