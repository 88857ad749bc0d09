#include "checks/gutter_march.h"

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

constexpr double step = 1, fine_step = 0.25;  // greatest distance of stations, m; fine where flat
constexpr double level = 1e-5;                // no grade for a grate: it takes all

/// A run of the water with all its places; metres.
struct Run {
  double high = 0, low = 0;
  bool sag = false;
  double down() const { return low > high ? 1 : -1; }
};

struct Node {
  double x = 0, Q = 0;
  double above = 0, below = 0;  // grade along the flow just above and just below the place
  int inlet = -1;  // a scupper stands between this node and the next, at the same place
};

struct Walk {
  Run run;
  std::vector<Node> nodes;  // downstream
  std::vector<int> pond;    // inlets at the low point, by index
  double left = 0;          // reaches the low end
};

/// From half-way between scuppers to each; beyond the outer ones to the ends.
std::vector<Run> level_runs(const GutterLine& g, const std::vector<Inlet>& inlets) {
  std::vector<Run> out;
  if (inlets.empty()) {
    const double middle = (g.from() + g.to()) / 2;
    return {{middle, g.from(), false}, {middle, g.to(), false}};
  }
  const double first = inlets.front().station, last = inlets.back().station;
  out.push_back({(g.from() + first) / 2, g.from(), false});
  for (std::size_t i = 0; i < inlets.size(); ++i) {
    const double x = inlets[i].station;
    const double back = i > 0 ? inlets[i - 1].station : g.from();
    const double ahead = i + 1 < inlets.size() ? inlets[i + 1].station : g.to();
    out.push_back({(back + x) / 2, x, true});
    out.push_back({(x + ahead) / 2, x, true});
  }
  out.push_back({(last + g.to()) / 2, g.to(), false});
  return out;
}

class Marcher {
 public:
  Marcher(const GutterLine& gutter, const GutterWater& water) : g_(gutter), w_(water) {}

  GutterMarch out;

  void go(const std::vector<Run>& runs);

 private:
  double grade(const Run& run, double x, bool above) const {
    const bool ahead = above != (run.down() > 0);
    return -run.down() * g_.slope(x, ahead);
  }
  double spread(double Q, double SL) const {
    return Q > 0 && SL > 0 ? hydraulics::gutter_spread(w_.gutter(SL), Q) : 0;
  }
  std::vector<double> places(const Run& run) const;
  std::vector<int> inlets_of(const Run& run) const;
  Walk fall(const Run& run, const std::vector<int>& pond);
  void take(Inlet& inlet);
  std::vector<int> pond_of(const Run& run) const;
  double fill(double low, const std::vector<int>& pond, double Q);
  void rise(const Walk& walk, double pond_depth);
  double upper_spread(const Node& a, const Node& b, double T, bool& backed) const;
  double time_between(const Node& a, double Ta, const Node& b, double Tb) const;
  void keep(const Walk& walk, const std::vector<double>& T, const std::vector<char>& uniform);

  const GutterLine& g_;
  const GutterWater& w_;
};

std::vector<int> Marcher::inlets_of(const Run& run) const {
  std::vector<int> found;
  const double from = std::min(run.high, run.low), to = std::max(run.high, run.low);
  for (std::size_t i = 0; i < out.inlets.size(); ++i)
    if (out.inlets[i].station >= from && out.inlets[i].station <= to)
      found.push_back(static_cast<int>(i));
  if (run.down() < 0) std::reverse(found.begin(), found.end());
  return found;
}

std::vector<double> Marcher::places(const Run& run) const {
  const double from = std::min(run.high, run.low), to = std::max(run.high, run.low);
  std::vector<double> at{from, to};
  for (double b : g_.breaks())
    if (b > from && b < to) at.push_back(b);
  for (int i : inlets_of(run)) at.push_back(out.inlets[static_cast<std::size_t>(i)].station);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  std::vector<double> all;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double a = at[i], b = at[i + 1];
    const double least = std::min(std::abs(g_.slope(a)), std::abs(g_.slope(b, false)));
    const int parts =
        static_cast<int>(std::ceil((b - a) / (least < 2 * hydraulics::flat ? fine_step : step)));
    for (int k = 0; k < parts; ++k) all.push_back(a + (b - a) * k / parts);
  }
  all.push_back(to);
  if (run.down() < 0) std::reverse(all.begin(), all.end());
  return all;
}

/// The scuppers at a low point: no higher above it than a quarter of the depth allowed. Those
/// further up stop water that runs, and count as on a grade.
std::vector<int> Marcher::pond_of(const Run& run) const {
  std::vector<int> found;
  if (!run.sag) return found;
  const double deep = w_.allowed ? w_.Sx * *w_.allowed / 4 : 0.002;
  const double bottom = g_.level(run.low);
  for (int i : inlets_of(run))
    if (g_.level(out.inlets[static_cast<std::size_t>(i)].station) - bottom <= deep)
      found.push_back(i);
  return found;
}

/// What the scupper catches of what arrives.
void Marcher::take(Inlet& inlet) {
  if (inlet.SL < level) {
    inlet.sag = true;
    inlet.caught = inlet.Q;
    if (w_.opening && inlet.Q > 0) inlet.depth = w_.ponding(inlet.Q).curb;
    return;
  }
  if (inlet.Q <= 0) return;
  inlet.T = spread(inlet.Q, inlet.SL);
  inlet.caught = hydraulics::grate_on_grade(w_.gutter(inlet.SL), *w_.grate, inlet.Q).Qi;
}

Walk Marcher::fall(const Run& run, const std::vector<int>& pond) {
  Walk walk{run, {}, pond, 0};
  const std::vector<int> own = inlets_of(run);
  auto next = own.begin();
  double base = g_.area(run.high), Q = 0;
  for (double x : places(run)) {
    const double area = g_.area(x);
    Q += w_.rate * std::abs(area - base);
    base = area;
    Node node{x, Q, grade(run, x, true), grade(run, x, false)};
    if (x == run.high) node.above = node.below;
    if (x == run.low) node.below = node.above;
    walk.nodes.push_back(node);
    for (; next != own.end() && out.inlets[static_cast<std::size_t>(*next)].station == x; ++next) {
      if (std::find(pond.begin(), pond.end(), *next) != pond.end()) continue;
      Inlet& inlet = out.inlets[static_cast<std::size_t>(*next)];
      inlet.Q = Q;
      inlet.SL = node.above;
      take(inlet);
      Q -= inlet.caught;
      walk.nodes.back().inlet = *next;
      node.Q = Q;
      walk.nodes.push_back(node);
    }
  }
  walk.left = Q;
  return walk;
}

/// Depth at the curb at a low point that Q reaches; what every scupper there takes of it.
double Marcher::fill(double low, const std::vector<int>& pond, double Q) {
  if (pond.empty()) {
    if (Q > 0) out.blind.push_back({low, Q});
    out.standing += Q;
    return 0;
  }
  const double bottom = g_.level(low);
  const hydraulics::Ponding one = w_.opening ? w_.ponding(1) : hydraulics::Ponding{};
  const double lip = (w_.grate->gap + w_.grate->W / 2) * w_.Sx;
  const auto taken = [&](int i, double depth) {
    const double rise = out.inlets[static_cast<std::size_t>(i)].rise;
    const double d = std::max(0.0, depth - rise - lip);
    return std::min(1.66 * one.P * std::pow(d, 1.5),
                    0.67 * one.A * std::sqrt(2 * hydraulics::gravity * d));
  };
  for (int i : pond) {
    Inlet& inlet = out.inlets[static_cast<std::size_t>(i)];
    inlet.sag = true;
    inlet.rise = std::max(0.0, g_.level(inlet.station) - bottom);
  }
  double from = 0, to = 10;
  for (int k = 0; k < 100 && w_.opening; ++k) {
    const double middle = (from + to) / 2;
    double all = 0;
    for (int i : pond) all += taken(i, middle);
    (all < Q ? from : to) = middle;
  }
  double rest = Q;
  for (std::size_t k = 0; k < pond.size(); ++k) {
    Inlet& inlet = out.inlets[static_cast<std::size_t>(pond[k])];
    const double share =
        w_.opening ? std::min(rest, taken(pond[k], to)) : Q / static_cast<double>(pond.size());
    inlet.Q = inlet.caught = k + 1 == pond.size() ? rest : share;
    inlet.depth = w_.opening ? to : 0;
    rest -= inlet.Q;
  }
  return w_.opening ? to : 0;
}

double Marcher::upper_spread(const Node& a, const Node& b, double T, bool& backed) const {
  if (a.x == b.x) {  // over a scupper
    if (a.inlet >= 0) {
      const Inlet& inlet = out.inlets[static_cast<std::size_t>(a.inlet)];
      if (inlet.sag) {
        backed = true;
        return std::max(T, inlet.depth / w_.Sx);
      }
    }
    return backed || a.above < hydraulics::flat ? T : spread(a.Q, a.above);
  }
  const double SL = (a.below + b.above) / 2, uniform = spread(a.Q, a.below);
  if (SL >= hydraulics::flat && !backed) return uniform;
  const double dx = std::abs(b.x - a.x) * g_.stretch((a.x + b.x) / 2);
  if (SL >= hydraulics::flat) {  // a pool, until the running water stands higher
    const double pool = T - SL * dx / w_.Sx;
    backed = pool > uniform;
    return backed ? pool : uniform;
  }
  backed = true;
  return hydraulics::backwater_spread(w_.gutter(SL), T, (a.Q * a.Q + a.Q * b.Q + b.Q * b.Q) / 3,
                                      dx);
}

/// The spread from the low end up.
void Marcher::rise(const Walk& walk, double pond_depth) {
  const std::vector<Node>& nodes = walk.nodes;
  std::vector<double> T(nodes.size());
  std::vector<char> uniform(nodes.size(), 0);
  const Node& low = nodes.back();
  bool backed = walk.run.sag && !walk.pond.empty();
  if (backed)
    T.back() = std::max(0.0, pond_depth / w_.Sx);
  else if (low.above >= hydraulics::flat)
    T.back() = spread(low.Q, low.above), uniform.back() = 1;
  else
    T.back() = low.Q > 0 ? hydraulics::critical_spread(w_.Sx, low.Q) : 0, backed = true;
  for (std::size_t i = nodes.size() - 1; i-- > 0;) {
    T[i] = upper_spread(nodes[i], nodes[i + 1], T[i + 1], backed);
    uniform[i] = !backed && nodes[i].below >= hydraulics::flat;
  }
  keep(walk, T, uniform);
}

/// In uniform flow the area is as Q^(3/4): dx/V = A/Q dx then integrates as HEC-22 4th ed.,
/// eq. 5.15.
double Marcher::time_between(const Node& a, double Ta, const Node& b, double Tb) const {
  const auto factor = [&](const Node& n, double T) {
    return w_.Sx * T * T / 2 / std::pow(n.Q, 0.75);
  };
  if (b.Q <= a.Q) return 0;
  const double c = a.Q > 0 ? (factor(a, Ta) + factor(b, Tb)) / 2 : factor(b, Tb);
  return 4.0 / 3 * c * (std::pow(b.Q, 0.75) - std::pow(a.Q, 0.75)) / (b.Q - a.Q) *
         std::abs(b.x - a.x);
}

void Marcher::keep(const Walk& walk, const std::vector<double>& T,
                   const std::vector<char>& uniform) {
  const std::vector<Node>& nodes = walk.nodes;
  const std::size_t first = out.stations.size();
  double seconds = 0, reach = std::abs(walk.run.low - walk.run.high);
  bool above_all = true;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Node& n = nodes[i];
    GutterStation s{n.x, n.Q, T[i], n.above, uniform[i] != 0};
    // Just below a corner the water may stand wider than just above it.
    const double below = uniform[i] ? spread(n.Q, n.below) : 0;
    if (uniform[i] && n.above >= hydraulics::flat) s.T = spread(n.Q, n.above);
    if (below > s.T) s.T = below, s.SL = n.below;
    out.stations.push_back(s);
    if (s.T > out.worst.T) out.worst = s;
    if (i > 0 && above_all) seconds += time_between(nodes[i - 1], T[i - 1], n, T[i]);
    if (n.inlet >= 0 && above_all) {
      above_all = false;
      reach = std::abs(n.x - walk.run.high);
    }
  }
  out.longest = std::max(out.longest, reach);
  if (reach > 1) out.seconds = out.seconds > 0 ? std::min(out.seconds, seconds) : seconds;
  if (walk.run.down() < 0)
    std::reverse(out.stations.begin() + static_cast<std::ptrdiff_t>(first), out.stations.end());
}

void Marcher::go(const std::vector<Run>& runs) {
  std::vector<Walk> walks;
  for (std::size_t i = 0; i < runs.size();) {
    // The runs to one low point go together.
    std::size_t end = i + 1;
    while (end < runs.size() && runs[i].sag && runs[end].sag && runs[end].low == runs[i].low) ++end;
    std::vector<int> pond, far;
    for (std::size_t k = i; k < end; ++k) {
      for (int n : pond_of(runs[k]))
        if (std::find(pond.begin(), pond.end(), n) == pond.end()) pond.push_back(n);
      const std::vector<int> own = inlets_of(runs[k]);
      if (runs[k].sag && !own.empty()) far.push_back(own.back());
    }
    if (pond.empty() && !far.empty()) {
      const auto lowest = std::min_element(far.begin(), far.end(), [&](int a, int b) {
        return g_.level(out.inlets[static_cast<std::size_t>(a)].station) <
               g_.level(out.inlets[static_cast<std::size_t>(b)].station);
      });
      const double up =
          g_.level(out.inlets[static_cast<std::size_t>(*lowest)].station) - g_.level(runs[i].low);
      if (up < w_.curb) pond.push_back(*lowest);
    }
    double arrives = 0;
    const std::size_t first = walks.size();
    for (std::size_t k = i; k < end; ++k) {
      walks.push_back(fall(runs[k], pond));
      arrives += walks.back().left;
    }
    const double depth = runs[i].sag ? fill(runs[i].low, pond, arrives) : 0;
    for (std::size_t k = first; k < walks.size(); ++k) rise(walks[k], depth);
    if (!runs[i].sag) (runs[i].down() > 0 ? out.end_ahead : out.end_back) += arrives;
    i = end;
  }
  for (const Inlet& inlet : out.inlets) out.caught += inlet.caught;
  out.rain = w_.rate * g_.area(g_.to());
}

}  // namespace

GutterMarch march(const GutterLine& gutter, const GutterWater& water, const Alignment& alignment,
                  const std::vector<InletPlace>& scuppers) {
  Marcher m(gutter, water);
  for (const InletPlace& s : scuppers) {
    Inlet inlet;
    inlet.place = s.place;
    inlet.station = std::clamp(s.station, gutter.from(), gutter.to());
    m.out.inlets.push_back(inlet);
  }
  std::stable_sort(m.out.inlets.begin(), m.out.inlets.end(),
                   [](const Inlet& a, const Inlet& b) { return a.station < b.station; });
  std::vector<Run> runs;
  if (is_level(alignment, gutter)) {
    runs = level_runs(gutter, m.out.inlets);
  } else {
    for (const WaterRun& r : water_runs(alignment, metres(gutter.from()), metres(gutter.to())))
      runs.push_back({r.high.in_m(), r.low.in_m(), r.sag});
  }
  m.go(runs);
  return std::move(m.out);
}

double carrying_length(const GutterLine& gutter, const GutterWater& water, double high,
                       double low) {
  const double down = low > high ? 1 : -1, length = std::abs(low - high);
  const double base = gutter.area(high), most = 1000;
  const auto spread = [&](double d) {
    const double x = high + down * std::min(d, length);
    const double SL = -down * gutter.slope(x, down < 0);
    double Q = water.rate * std::abs(gutter.area(x) - base);
    if (d > length) Q += water.rate * gutter.width(low, down < 0) * (d - length);
    if (Q <= 0) return 0.0;
    return SL > 0 ? hydraulics::gutter_spread(water.gutter(std::max(SL, level)), Q) : 1e9;
  };
  double last = 0;
  for (double d = 0.25; d < most; d += d < length ? 0.25 : 1) {
    if (spread(d) > *water.allowed) {
      double from = last, to = d;
      for (int k = 0; k < 60; ++k) {
        const double middle = (from + to) / 2;
        (spread(middle) > *water.allowed ? to : from) = middle;
      }
      return from;
    }
    last = d;
  }
  return most;
}

}  // namespace deckquire
