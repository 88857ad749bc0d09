#include "workings/strip.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "workings/polynomial.h"
#include "workings/reckoner.h"

namespace deckquire::workings {

namespace {

struct Jump {
  double x = 0, force = 0, couple = 0;  // down; clockwise
};

/// The strip between two neighbouring places where anything changes, and what jumps at the first of
/// them.
struct Cut {
  std::vector<StripPiece> pieces;
  std::vector<Jump> jumps;  // one before each piece, one after the last
};

bool inside(double x, double length) {
  return x >= 0 && x <= length;  // false for what is not a number
}

Cut cut_up(const Strip& strip, const std::vector<StripLoad>& loads) {
  std::vector<double> at{0, strip.length};
  for (const StripStretch& s : strip.stretches) at.push_back(s.to);
  for (const StripSupport& s : strip.supports) at.push_back(s.x);
  for (const StripLoad& l : loads) at.insert(at.end(), {l.from, l.to});
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  Cut cut;
  std::size_t stretch = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    cut.jumps.push_back({at[i], 0, 0});
    if (i + 1 == at.size()) break;
    while (strip.stretches[stretch].to <= at[i]) ++stretch;
    const StripStretch& s = strip.stretches[stretch];
    cut.pieces.push_back({at[i], at[i + 1], s.D, s.S, 0, {}, {}, {}, {}});
  }
  const auto index = [&](double x) {
    return std::lower_bound(at.begin(), at.end(), x) - at.begin();
  };
  for (const StripLoad& l : loads) {
    Jump& jump = cut.jumps[static_cast<std::size_t>(index(l.from))];
    if (l.kind == StripLoad::Kind::point) jump.force += l.size;
    if (l.kind == StripLoad::Kind::couple) jump.couple += l.size;
    if (l.kind != StripLoad::Kind::uniform) continue;
    for (auto p = index(l.from); p < index(l.to); ++p)
      cut.pieces[static_cast<std::size_t>(p)].q += l.size;
  }
  return cut;
}

double span_of(const StripPiece& p) {
  return p.to - p.from;
}

void set_forces(StripPiece& p, double V, double M) {
  p.V = {V, -p.q};
  p.M = {M, V, -p.q / 2};
}

double V_end(const StripPiece& p) {
  return p.V[0] + p.V[1] * span_of(p);
}

double M_end(const StripPiece& p) {
  const double h = span_of(p);
  return p.M[0] + h * (p.M[1] + h * p.M[2]);
}

void set_movement(StripPiece& p, double rotation, double w) {
  p.rotation = {rotation, -p.M[0] / p.D, -p.M[1] / (2 * p.D), -p.M[2] / (3 * p.D)};
  p.w = {w, rotation + p.V[0] / p.S, p.rotation[1] / 2 + p.V[1] / (2 * p.S), p.rotation[2] / 3,
         p.rotation[3] / 4};
}

template <std::size_t N>
double at_end(const std::array<double, N>& poly, double h) {
  double v = 0;
  for (std::size_t i = N; i-- > 0;) v = v * h + poly[i];
  return v;
}

/// Pieces and jumps first .. last - 1 lie between two supports, or form an overhang.
struct Range {
  std::size_t first = 0, last = 0;
};

/// Forces from the left end of a range on: V and M just right of its first place.
void run_forces(Cut& cut, Range r, double V, double M) {
  for (std::size_t i = r.first; i < r.last; ++i) {
    if (i > r.first) {
      V = V_end(cut.pieces[i - 1]) - cut.jumps[i].force;
      M = M_end(cut.pieces[i - 1]) + cut.jumps[i].couple;
    }
    set_forces(cut.pieces[i], V, M);
  }
}

void run_movement(Cut& cut, Range r, double rotation, double w) {
  for (std::size_t i = r.first; i < r.last; ++i) {
    set_movement(cut.pieces[i], rotation, w);
    rotation = at_end(cut.pieces[i].rotation, span_of(cut.pieces[i]));
    w = at_end(cut.pieces[i].w, span_of(cut.pieces[i]));
  }
}

/// An overhang on the left moves with its first support: from there to the left.
void run_movement_back(Cut& cut, Range r, double rotation, double w) {
  for (std::size_t i = r.last; i-- > r.first;) {
    StripPiece& p = cut.pieces[i];
    set_movement(p, 0, 0);
    const double rotation_start = rotation - at_end(p.rotation, span_of(p));
    const double w_start = w - at_end(p.w, span_of(p)) - rotation_start * span_of(p);
    set_movement(p, rotation_start, w_start);
    rotation = rotation_start, w = w_start;
  }
}

/// A span as the three-moment equation sees it: rotations of its ends, simply supported, from its
/// loads and from moments of 1 at its ends.
struct SpanFlexibility {
  double length = 0, V_left = 0;                  // shear at the left end without end moments
  double load_left = 0, load_right = 0;           // + : sinks from this end inwards
  double near_left = 0, far = 0, near_right = 0;  // 1/D terms, and 1/S terms with their signs
};

SpanFlexibility flexibility(Cut& cut, Range r) {
  SpanFlexibility f;
  const double x0 = cut.jumps[r.first].x, x1 = cut.jumps[r.last].x;
  f.length = x1 - x0;
  double moment = 0;  // of the loads about the right end
  for (std::size_t i = r.first; i < r.last; ++i) {
    const StripPiece& p = cut.pieces[i];
    moment += p.q * span_of(p) * (x1 - (p.from + p.to) / 2);
    if (i > r.first) moment += cut.jumps[i].force * (x1 - p.from) - cut.jumps[i].couple;
  }
  f.V_left = moment / f.length;
  run_forces(cut, r, f.V_left, 0);
  double slip = 0, soft = 0;  // integrals of V/S and 1/S
  for (std::size_t i = r.first; i < r.last; ++i) {
    const StripPiece& p = cut.pieces[i];
    const double h = span_of(p);
    slip += (p.V[0] + p.V[1] * h / 2) * h / p.S;
    soft += h / p.S;
    // Products of moments are cubic here at most: two points of Gauss integrate them exactly.
    for (const double g : {0.5 - std::sqrt(1.0 / 12), 0.5 + std::sqrt(1.0 / 12)}) {
      const double s = g * h, right = (p.from + s - x0) / f.length, left = 1 - right;
      const double weight = h / 2 / p.D, M = p.M[0] + s * (p.M[1] + s * p.M[2]);
      f.load_left += weight * left * M;
      f.load_right += weight * right * M;
      f.near_left += weight * left * left;
      f.far += weight * left * right;
      f.near_right += weight * right * right;
    }
  }
  f.load_left -= slip / f.length;
  f.load_right += slip / f.length;
  const double shear = soft / (f.length * f.length);
  f.near_left += shear, f.near_right += shear, f.far -= shear;
  return f;
}

/// Moments just left of each support, from the statics of the overhangs and the continuity of the
/// rotation over each inner support: a tridiagonal system.
std::vector<double> support_moments(const Cut& cut, const std::vector<std::size_t>& at,
                                    const std::vector<SpanFlexibility>& spans, double M_first,
                                    double M_last) {
  const std::size_t n = at.size();
  std::vector<double> M(n), diagonal(n, 1), right(n), beyond(n);
  M[0] = M_first;
  M[n - 1] = M_last;
  const auto couple = [&](std::size_t i) { return cut.jumps[at[i]].couple; };
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const SpanFlexibility &a = spans[i - 1], &b = spans[i];
    double load = -(a.load_right + b.load_left) - b.near_left * couple(i) - a.far * couple(i - 1);
    diagonal[i] = a.near_right + b.near_left;
    if (i == 1) load -= a.far * M[0];
    if (i + 2 == n) load -= b.far * M[n - 1];
    beyond[i] = i + 2 == n ? 0 : b.far;
    if (i > 1) {
      const double k = a.far / diagonal[i - 1];
      diagonal[i] -= k * beyond[i - 1];
      load -= k * right[i - 1];
    }
    right[i] = load;
  }
  for (std::size_t i = n - 1; i-- > 1;) {
    M[i] = (right[i] - (i + 2 == n ? 0 : beyond[i] * M[i + 1])) / diagonal[i];
  }
  return M;
}

/// With the supports at these places of the cut, all of them holding.
StripResult solve_held(Cut cut, const std::vector<std::size_t>& at) {
  const std::size_t n = at.size(), end = cut.pieces.size();
  const Range left{0, at.front()}, right{at.back(), end};
  StripResult r;
  double M_first = 0, M_last = 0, V_right = 0;
  if (left.last > left.first) {
    run_forces(cut, left, -cut.jumps[0].force, cut.jumps[0].couple);
    M_first = M_end(cut.pieces[left.last - 1]);
  }
  // What the overhang on the right hangs on its support: from the free end back.
  double M_hang = 0;
  for (std::size_t i = end; i > right.first; --i) {
    const StripPiece& p = cut.pieces[i - 1];
    V_right += cut.jumps[i].force;
    M_hang -= cut.jumps[i].couple;
    M_hang -= V_right * span_of(p) + p.q * span_of(p) * span_of(p) / 2;
    V_right += p.q * span_of(p);
  }
  M_last = M_hang - cut.jumps[at.back()].couple;
  std::vector<SpanFlexibility> spans;
  for (std::size_t i = 0; i + 1 < n; ++i) spans.push_back(flexibility(cut, {at[i], at[i + 1]}));
  const std::vector<double> M = support_moments(cut, at, spans, M_first, M_last);
  double V_before = left.last > left.first ? V_end(cut.pieces[left.last - 1]) : 0;
  double rotation = 0;
  for (std::size_t i = 0; i < n; ++i) {
    double V_after = V_right;
    if (i + 1 < n) {
      const SpanFlexibility& f = spans[i];
      const double M_left = M[i] + cut.jumps[at[i]].couple;
      V_after = f.V_left + (M[i + 1] - M_left) / f.length;
      run_forces(cut, {at[i], at[i + 1]}, V_after, M_left);
      rotation = f.load_left + f.near_left * M_left + f.far * M[i + 1];
      if (i == 0) run_movement_back(cut, left, rotation, 0);
      run_movement(cut, {at[i], at[i + 1]}, rotation, 0);
    } else if (right.last > right.first) {
      run_forces(cut, right, V_right, M_hang);
      const StripPiece& p = cut.pieces[right.first - 1];
      run_movement(cut, right, at_end(p.rotation, span_of(p)), 0);
    }
    r.reactions.push_back(V_after - V_before + cut.jumps[at[i]].force);
    if (i + 1 < n) V_before = V_end(cut.pieces[at[i + 1] - 1]);
  }
  r.pieces = std::move(cut.pieces);
  return r;
}

void close_balance(StripResult& r, const Strip& strip, const std::vector<StripLoad>& loads) {
  double force = 0, forces = 0, moment = 0, moments = 0;
  const auto add = [&](double size, double x) {
    force += size, forces += std::abs(size);
    moment += size * x, moments += std::abs(size * x);
  };
  for (const StripLoad& l : loads) {
    if (l.kind == StripLoad::Kind::couple) {
      moment += l.size, moments += std::abs(l.size);
    } else {
      add(l.kind == StripLoad::Kind::uniform ? l.size * (l.to - l.from) : l.size,
          (l.from + l.to) / 2);
    }
  }
  for (std::size_t i = 0; i < r.reactions.size(); ++i) add(-r.reactions[i], strip.supports[i].x);
  r.force_residual = forces > 0 ? std::abs(force) / forces : 0;
  r.moment_residual = moments > 0 ? std::abs(moment) / moments : 0;
}

/// True where no support that can only push pulls, and none that has let go is sunk into.
bool contact_holds(const StripResult& r, const Strip& strip, double force_scale) {
  const StripPeaks peaks = r.peaks();
  const double w_scale = std::max(std::abs(peaks.max_w.value), std::abs(peaks.min_w.value));
  for (std::size_t i = 0; i < strip.supports.size(); ++i) {
    if (strip.supports[i].holds_down) continue;
    if (r.lifted[i] ? r.at(strip.supports[i].x).w > 1e-9 * w_scale
                    : r.reactions[i] < -1e-9 * force_scale) {
      return false;
    }
  }
  return true;
}

double total_force(const std::vector<StripLoad>& loads, double length) {
  double sum = 0;
  for (const StripLoad& l : loads) {
    sum += std::abs(l.size) * (l.kind == StripLoad::Kind::uniform  ? l.to - l.from
                               : l.kind == StripLoad::Kind::couple ? 1 / length
                                                                   : 1);
  }
  return sum;
}

void keep_peak(StripPeak& most, double value, double x, bool larger) {
  // A later place must be better by more than rounding, so that of equal peaks the leftmost stays.
  const double margin = 1e-12 * std::abs(most.value);
  if (larger ? value > most.value + margin : value < most.value - margin) most = {value, x};
}

}  // namespace

StripLoad uniform_load(double per_mm, double from, double to) {
  return {StripLoad::Kind::uniform, from, to, per_mm};
}
StripLoad point_load(double force, double x) {
  return {StripLoad::Kind::point, x, x, force};
}
StripLoad couple_load(double moment, double x) {
  return {StripLoad::Kind::couple, x, x, moment};
}
StripLoad patch_load(double force, double centre, double patch) {
  return uniform_load(force / patch, centre - patch / 2, centre + patch / 2);
}

StripState StripResult::at(double x, Side side) const {
  auto p = side == Side::right
               ? std::upper_bound(pieces.begin(), pieces.end(), x,
                                  [](double v, const StripPiece& q) { return v < q.to; })
               : std::lower_bound(pieces.begin(), pieces.end(), x,
                                  [](const StripPiece& q, double v) { return q.to < v; });
  if (p == pieces.end()) --p;
  const double s = x - p->from;
  return {at_end(p->w, s), at_end(p->rotation, s), at_end(p->V, s), at_end(p->M, s)};
}

StripPeaks StripResult::peaks() const {
  return peaks(pieces.front().from, pieces.back().to);
}

StripPeaks StripResult::peaks(double from, double to) const {
  const StripState first = at(from);
  StripPeaks r{{first.M, from}, {first.M, from}, {first.V, from},
               {first.V, from}, {first.w, from}, {first.w, from}};
  for (const StripPiece& p : pieces) {
    const double lo = std::max(from, p.from) - p.from, hi = std::min(to, p.to) - p.from;
    if (!(lo < hi)) continue;
    const auto look = [&](const Polynomial& poly, StripPeak& most, StripPeak& least) {
      for (double s : turning_points(poly, lo, hi)) {
        const double v = value_at(poly, s);
        const double x = s < p.to - p.from ? p.from + s : p.to;  // exactly the end where it is
        keep_peak(most, v, x, true);
        keep_peak(least, v, x, false);
      }
    };
    look({p.V.begin(), p.V.end()}, r.max_V, r.min_V);
    look({p.M.begin(), p.M.end()}, r.max_M, r.min_M);
    look({p.w.begin(), p.w.end()}, r.max_w, r.min_w);
  }
  return r;
}

std::string fault_of(const Strip& strip, const std::vector<StripLoad>& loads) {
  if (!(strip.length > 0)) return "the strip has no length; give one above 0";
  double before = 0;
  for (const StripStretch& s : strip.stretches) {
    if (!(s.to > before)) return "the stretches of stiffness do not run from left to right";
    if (!(s.D > 0) || !(s.S > 0))
      return "a stiffness is not above 0; give D and S of every stretch";
    before = s.to;
  }
  if (before != strip.length)
    return "the stretches of stiffness do not reach to the end of the strip";
  if (strip.supports.size() < 2) return "a strip needs at least two supports to stand";
  for (std::size_t i = 0; i < strip.supports.size(); ++i) {
    const double x = strip.supports[i].x;
    if (!inside(x, strip.length)) {
      return fmt::format("the support at {:g} mm lies off the strip, which is {:g} mm long", x,
                         strip.length);
    }
    if (i > 0 && !(x > strip.supports[i - 1].x))
      return "the supports do not run from left to right";
  }
  for (const StripLoad& l : loads) {
    if (!inside(l.from, strip.length) || !inside(l.to, strip.length) || l.from > l.to) {
      return fmt::format(
          "the load at {:g} to {:g} mm lies off the strip, which is {:g} mm long; move it or "
          "cut it off at the edge",
          l.from, l.to, strip.length);
    }
    if (!std::isfinite(l.size)) return "a load is not a number";
  }
  return {};
}

StripResult solve(const Strip& strip, const std::vector<StripLoad>& loads) {
  if (const std::string fault = fault_of(strip, loads); !fault.empty()) throw WorkingError(fault);
  const Cut cut = cut_up(strip, loads);
  std::vector<std::size_t> place, loose;  // of supports in the cut; supports that can only push
  for (std::size_t i = 0, j = 0; i < strip.supports.size(); ++i) {
    while (cut.jumps[j].x != strip.supports[i].x) ++j;
    place.push_back(j);
    if (!strip.supports[i].holds_down) loose.push_back(i);
  }
  if (loose.size() > 12) {
    throw WorkingError("more than 12 supports that can only push; hold some down or cut the strip");
  }
  const double scale = total_force(loads, strip.length);
  // Which supports let go has one answer at most: every choice is tried, none let go first.
  for (unsigned choice = 0; choice < 1u << loose.size(); ++choice) {
    std::vector<bool> lifted(place.size());
    for (std::size_t i = 0; i < loose.size(); ++i) lifted[loose[i]] = choice >> i & 1;
    std::vector<std::size_t> held;
    for (std::size_t i = 0; i < place.size(); ++i) {
      if (!lifted[i]) held.push_back(place[i]);
    }
    if (held.size() < 2) continue;
    StripResult r = solve_held(cut, held);
    r.lifted = lifted;
    for (std::size_t i = 0; i < lifted.size(); ++i) {
      if (lifted[i]) r.reactions.insert(r.reactions.begin() + static_cast<std::ptrdiff_t>(i), 0.0);
    }
    if (!loose.empty() && !contact_holds(r, strip, scale)) continue;
    close_balance(r, strip, loads);
    return r;
  }
  throw WorkingError(
      "the strip tips over: its supports can only push; hold it down or move the load");
}

}  // namespace deckquire::workings
