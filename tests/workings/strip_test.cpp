// The solver of a strip: against the direct stiffness method, statics, reciprocity, closed forms,
// and all combinations of a pattern one by one.
#include "workings/strip.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "workings/reckoner.h"
#include "workings/stiffness_method.h"
#include "workings/strip_pattern.h"

using namespace deckquire::workings;
using doctest::Approx;

namespace {

class Beams {
 public:
  explicit Beams(unsigned seed) : engine_(seed) {}
  double between(double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(engine_()) / 4294967296.0;
  }
  unsigned below(unsigned n) { return static_cast<unsigned>(engine_() % n); }

  /// Any place, often one that is already taken by something else.
  double place(const Strip& s) {
    const unsigned kind = below(8);
    if (kind == 0) return s.supports[below(static_cast<unsigned>(s.supports.size()))].x;
    if (kind == 1) return below(2) != 0 ? 0 : s.length;
    return between(0, s.length);
  }

  Strip strip() {
    Strip s;
    s.length = between(500, 6000);
    const unsigned stretches = 1 + below(4), supports = 2 + below(5);
    const bool shear = below(3) != 0;
    for (unsigned i = 0; i < stretches; ++i) {
      const double to =
          i + 1 == stretches ? s.length : s.length * (i + between(0.2, 1)) / stretches;
      s.stretches.push_back(
          {to, between(1e11, 3e12), shear ? between(1e6, 1e8) : no_shear_deformation});
    }
    for (unsigned i = 0; i < supports; ++i) {
      double x = s.length * (i + between(0.1, 0.9)) / supports;
      if (i == 0 && below(4) == 0) x = 0;
      if (i + 1 == supports && below(4) == 0) x = s.length;
      s.supports.push_back({x, true});
    }
    return s;
  }

  StripLoad load(const Strip& s) {
    double a = place(s), b = place(s);
    if (a > b) std::swap(a, b);
    switch (below(3)) {
      case 0:
        return uniform_load(between(-20, 40), a, b);
      case 1:
        return point_load(between(-5e3, 2e4), a);
      default:
        return couple_load(between(-3e6, 3e6), a);
    }
  }

  std::vector<StripLoad> loads(const Strip& s) {
    std::vector<StripLoad> l(1 + below(6));
    for (StripLoad& one : l) one = load(s);
    return l;
  }

 private:
  std::mt19937 engine_;
};

/// How far the solver is from the stiffness method, over the largest value of each quantity.
double worst_disagreement(const StripResult& r, const StiffnessAnswer& a) {
  StripState most;
  for (std::size_t i = 0; i < a.x.size(); ++i) {
    most.w = std::max(most.w, std::abs(a.w[i]));
    most.rotation = std::max(most.rotation, std::abs(a.rotation[i]));
    most.V = std::max({most.V, std::abs(a.V_left[i]), std::abs(a.V_right[i])});
    most.M = std::max({most.M, std::abs(a.M_left[i]), std::abs(a.M_right[i])});
  }
  double worst = 0;
  for (std::size_t i = 0; i < a.x.size(); ++i) {
    const StripState before = r.at(a.x[i], Side::left), after = r.at(a.x[i]);
    worst =
        std::max({worst, std::abs(after.w - a.w[i]) / most.w, std::abs(before.w - a.w[i]) / most.w,
                  std::abs(after.rotation - a.rotation[i]) / most.rotation});
    if (i > 0) {
      worst = std::max({worst, std::abs(before.V - a.V_left[i]) / most.V,
                        std::abs(before.M - a.M_left[i]) / most.M});
    }
    if (i + 1 < a.x.size()) {
      worst = std::max({worst, std::abs(after.V - a.V_right[i]) / most.V,
                        std::abs(after.M - a.M_right[i]) / most.M});
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("random strips agree with the direct stiffness method, and balance") {
  Beams dice(4);
  double disagreement = 0, imbalance = 0;
  for (int i = 0; i < 2000; ++i) {
    const Strip s = dice.strip();
    const auto loads = dice.loads(s);
    const StripResult r = solve(s, loads);
    std::vector<double> more;
    for (int k = 0; k < 6; ++k) more.push_back(dice.between(0, s.length));
    disagreement = std::max(disagreement, worst_disagreement(r, stiffness_method(s, loads, more)));
    imbalance = std::max({imbalance, r.force_residual, r.moment_residual});
    double moment = 0;  // of loads and reactions about the right end, anew
    for (const auto& l : loads) {
      const double force = l.kind == StripLoad::Kind::uniform ? l.size * (l.to - l.from) : l.size;
      moment +=
          l.kind == StripLoad::Kind::couple ? l.size : -force * (s.length - (l.from + l.to) / 2);
    }
    for (std::size_t k = 0; k < s.supports.size(); ++k)
      moment += r.reactions[k] * (s.length - s.supports[k].x);
    CHECK(std::abs(moment) < 1e-3);  // of some 1e7 N mm
  }
  CHECK(disagreement < 1e-9);
  CHECK(imbalance < 1e-9);
}

TEST_CASE("the reciprocal theorem of Maxwell and Betti holds") {
  Beams dice(11);
  double worst = 0;
  for (int i = 0; i < 1000; ++i) {
    const Strip s = dice.strip();
    const std::vector<StripLoad> a = dice.loads(s), b = dice.loads(s);
    const StripResult ra = solve(s, a), rb = solve(s, b);
    const auto work = [](const std::vector<StripLoad>& loads, const StripResult& r) {
      double sum = 0;
      for (const auto& l : loads) {
        if (l.kind == StripLoad::Kind::point) sum += l.size * r.at(l.from).w;
        if (l.kind == StripLoad::Kind::couple) sum += l.size * r.at(l.from).rotation;
        if (l.kind != StripLoad::Kind::uniform) continue;
        for (const StripPiece& p :
             r.pieces) {  // w is a quartic in each piece: integrated term by term
          const double lo = std::max(l.from, p.from) - p.from, hi = std::min(l.to, p.to) - p.from;
          for (std::size_t k = 0; lo < hi && k < p.w.size(); ++k) {
            const double n = static_cast<double>(k + 1);
            sum += l.size * p.w[k] * (std::pow(hi, n) - std::pow(lo, n)) / n;
          }
        }
      }
      return sum;
    };
    const double own = std::sqrt(work(a, ra) * work(b, rb));
    worst = std::max(worst, std::abs(work(a, rb) - work(b, ra)) / own);
  }
  CHECK(worst < 1e-9);
}

TEST_CASE("peaks are exact: nothing sampled lies beyond them, and they are taken on") {
  Beams dice(17);
  for (int i = 0; i < 200; ++i) {
    const Strip s = dice.strip();
    const StripResult r = solve(s, dice.loads(s));
    const double from = dice.between(0, 0.4) * s.length, to = dice.between(0.6, 1) * s.length;
    const StripPeaks p = r.peaks(from, to);
    StripState most = r.at(from), least = most;
    for (int k = 0; k <= 500; ++k) {
      for (Side side : {Side::left, Side::right}) {
        if ((k == 0 && side == Side::left) || (k == 500 && side == Side::right)) continue;
        const StripState a = r.at(from + (to - from) * k / 500, side);
        most = {std::max(most.w, a.w), 0, std::max(most.V, a.V), std::max(most.M, a.M)};
        least = {std::min(least.w, a.w), 0, std::min(least.V, a.V), std::min(least.M, a.M)};
      }
    }
    const auto around = [&](StripPeak peak, double sampled, double other, double StripState::*q) {
      const double slack = 1e-9 * (std::abs(sampled) + std::abs(other));
      CHECK(std::min(std::abs(r.at(peak.x).*q - peak.value),
                     std::abs(r.at(peak.x, Side::left).*q - peak.value)) <= slack);
      return slack;
    };
    CHECK(p.max_M.value >= most.M - around(p.max_M, most.M, least.M, &StripState::M));
    CHECK(p.min_M.value <= least.M + around(p.min_M, most.M, least.M, &StripState::M));
    CHECK(p.max_V.value >= most.V - around(p.max_V, most.V, least.V, &StripState::V));
    CHECK(p.min_V.value <= least.V + around(p.min_V, most.V, least.V, &StripState::V));
    CHECK(p.max_w.value >= most.w - around(p.max_w, most.w, least.w, &StripState::w));
    CHECK(p.min_w.value <= least.w + around(p.min_w, most.w, least.w, &StripState::w));
  }
}

// Formulas of any beam handbook; shear terms: reference of Timoshenko, Strength of Materials I
// (from memory).
TEST_CASE(
    "closed forms: cantilever as a long overhang, load at the support, couple on an overhang") {
  const double D = 1.2e12, S = 6e6, L = 2000, a = 700, P = 9000, m = 2e6;
  const Strip s{L + a, {{L + a, D, S}}, {{0, true}, {L, true}}};
  const StripResult tip = solve(s, {point_load(P, L + a)});
  CHECK(tip.at(L + a).w ==
        Approx(P * a * a * (L + a) / (3 * D) + P * a / S * (1 + a / L)).epsilon(1e-12));
  CHECK(tip.reactions[0] == Approx(-P * a / L).epsilon(1e-12));
  const StripResult over = solve(s, {point_load(P, L)});
  CHECK(over.reactions[1] == Approx(P).epsilon(1e-12));
  CHECK(over.peaks().max_w.value == Approx(0));
  // The push on a post of the right edge is clockwise: the overhang hogs.
  const StripResult post = solve(s, {couple_load(m, L + a)});
  CHECK(post.at(L).M == Approx(-m).epsilon(1e-12));
  CHECK(post.reactions[1] == Approx(m / L).epsilon(1e-12));
  CHECK(post.at(L + a).w ==
        Approx(m * a * (2 * L + 3 * a) / (6 * D) + m * a / (S * L)).epsilon(1e-12));
}

TEST_CASE("a strip on supports that can only push lifts off where it must") {
  Beams dice(23);
  int lifted = 0, tipped = 0, stayed = 0;
  for (int i = 0; i < 1000; ++i) {
    Strip s = dice.strip();
    for (auto& support : s.supports) support.holds_down = dice.below(4) == 0;
    const auto loads = dice.loads(s);
    StripResult r;
    try {
      r = solve(s, loads);
    } catch (const WorkingError&) {
      ++tipped;
      continue;
    }
    const StripPeaks p = r.peaks();
    const double w = std::max(p.max_w.value, -p.min_w.value),
                 V = std::max(p.max_V.value, -p.min_V.value);
    bool any = false;
    for (std::size_t k = 0; k < s.supports.size(); ++k) {
      any = any || r.lifted[k];
      if (r.lifted[k]) CHECK(r.at(s.supports[k].x).w <= 1e-8 * w);
      if (r.lifted[k]) CHECK(r.reactions[k] == 0);
      if (!s.supports[k].holds_down) CHECK(r.reactions[k] >= -1e-8 * V);
      if (s.supports[k].holds_down) CHECK(!r.lifted[k]);
    }
    (any ? lifted : stayed) += 1;
    CHECK(worst_disagreement(r, stiffness_method(s, loads, {}, r.lifted)) < 1e-9);
  }
  CHECK(lifted > 100);
  CHECK(stayed > 100);
  CHECK(tipped > 20);
}

TEST_CASE("a strip that tips is told from one that rests: the load moves over the outer support") {
  const Strip s{3000, {{3000, 1e12, 5e6}}, {{500, false}, {2500, false}}};
  CHECK_NOTHROW(solve(s, {uniform_load(1, 0, 3000), point_load(1500, 3000)}));
  // 3000 N about x = 2500 hold down 3 000 000 N mm; 6001 N at the end lift more.
  CHECK_THROWS_AS(solve(s, {uniform_load(1, 0, 3000), point_load(6001, 3000)}), WorkingError);
  CHECK_NOTHROW(solve(s, {uniform_load(1, 0, 3000), point_load(5999, 3000)}));
}

TEST_CASE("pattern loading is the worst of all combinations tried one by one") {
  Beams dice(31);
  for (int i = 0; i < 60; ++i) {
    const Strip s = dice.strip();
    PatternLoads loads{dice.loads(s), each_bay(s, dice.between(1, 10))};
    if (dice.below(2) != 0) loads.parts.push_back(dice.loads(s));
    const PatternResult r = solve_patterns(s, loads);
    StripPeaks worst;
    std::vector<PatternResult::Reaction> reactions(s.supports.size(), {-1e300, 1e300});
    StripState most, least;
    const double x = dice.between(0, s.length);
    for (unsigned on = 0; on < 1u << loads.parts.size(); ++on) {
      std::vector<StripLoad> all = loads.always;
      for (std::size_t k = 0; k < loads.parts.size(); ++k) {
        if ((on >> k & 1) != 0) all.insert(all.end(), loads.parts[k].begin(), loads.parts[k].end());
      }
      const StripResult one = solve(s, all);
      const StripPeaks p = one.peaks();
      const StripState a = one.at(x);
      if (on == 0) worst = p, most = least = a;
      const auto raise = [](StripPeak& to, StripPeak v) { to = v.value > to.value ? v : to; };
      const auto lower = [](StripPeak& to, StripPeak v) { to = v.value < to.value ? v : to; };
      raise(worst.max_M, p.max_M), raise(worst.max_V, p.max_V), raise(worst.max_w, p.max_w);
      lower(worst.min_M, p.min_M), lower(worst.min_V, p.min_V), lower(worst.min_w, p.min_w);
      most = {std::max(most.w, a.w), 0, std::max(most.V, a.V), std::max(most.M, a.M)};
      least = {std::min(least.w, a.w), 0, std::min(least.V, a.V), std::min(least.M, a.M)};
      for (std::size_t k = 0; k < reactions.size(); ++k) {
        reactions[k].max = std::max(reactions[k].max, one.reactions[k]);
        reactions[k].min = std::min(reactions[k].min, one.reactions[k]);
      }
    }
    const auto same = [](double a, double b, double scale) {
      CHECK(std::abs(a - b) <= 1e-9 * scale);
    };
    const double M = worst.max_M.value - worst.min_M.value,
                 V = worst.max_V.value - worst.min_V.value;
    const double w = worst.max_w.value - worst.min_w.value;
    same(r.max_M.value, worst.max_M.value, M), same(r.min_M.value, worst.min_M.value, M);
    same(r.max_V.value, worst.max_V.value, V), same(r.min_V.value, worst.min_V.value, V);
    same(r.max_w.value, worst.max_w.value, w), same(r.min_w.value, worst.min_w.value, w);
    same(r.largest(x).M, most.M, M), same(r.smallest(x).M, least.M, M);
    same(r.largest(x).V, most.V, V), same(r.smallest(x).V, least.V, V);
    same(r.largest(x).w, most.w, w), same(r.smallest(x).w, least.w, w);
    for (std::size_t k = 0; k < reactions.size(); ++k) {
      same(r.reactions[k].max, reactions[k].max, V), same(r.reactions[k].min, reactions[k].min, V);
    }
    // The combination that is named gives the value that is printed.
    std::vector<StripLoad> named = loads.always;
    for (std::size_t k = 0; k < loads.parts.size(); ++k) {
      if (r.max_w.parts[k]) named.insert(named.end(), loads.parts[k].begin(), loads.parts[k].end());
    }
    same(solve(s, named).at(r.max_w.x).w, r.max_w.value, w);
  }
}

TEST_CASE("a strip that makes no sense is refused in words") {
  const Strip good{3000, {{3000, 1e12, 5e6}}, {{500, true}, {2500, true}}};
  CHECK(fault_of(good, {point_load(1, 3000)}).empty());
  CHECK(!fault_of(good, {point_load(1, 3001)}).empty());
  CHECK(!fault_of(good, {uniform_load(1, -1, 200)}).empty());
  Strip bad = good;
  bad.supports.pop_back();
  CHECK(!fault_of(bad, {}).empty());
  bad = good, bad.supports[1].x = 400;
  CHECK(!fault_of(bad, {}).empty());
  bad = good, bad.stretches[0].to = 2999;
  CHECK(!fault_of(bad, {}).empty());
  bad = good, bad.stretches[0].D = 0;
  CHECK_THROWS_AS(solve(bad, {}), WorkingError);
}
