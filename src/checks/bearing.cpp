// What every panel bears on: flanges under it, and the pads on them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "checks/parts.h"

namespace deckquire {
namespace {

/// Stretches of a line, in order, apart.
using Stretches = std::vector<std::pair<double, double>>;

/// A line across a panel, x = x0 + slope * y: parallel to its faces at its ends, turning evenly
/// between them.
struct Slice {
  double x0 = 0, slope = 0;
  bool inner = false;  // not near an end
  double off(PanelPoint p) const { return p.x - x0 - slope * p.y; }
  PanelPoint at(double y) const { return {x0 + slope * y, y}; }
};

/// y of the parts of a slice within a ring.
Stretches within(const Ring<PanelFrame>& ring, const Slice& s) {
  std::vector<double> ys;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelPoint p = ring[i], q = ring[(i + 1) % ring.size()];
    const double a = s.off(p), b = s.off(q);
    if ((a < 0) != (b < 0)) ys.push_back(p.y + (q.y - p.y) * a / (a - b));
  }
  std::sort(ys.begin(), ys.end());
  Stretches out;
  for (std::size_t i = 0; i + 1 < ys.size(); i += 2) out.push_back({ys[i], ys[i + 1]});
  return out;
}

Stretches shared(const Stretches& a, const Stretches& b) {
  Stretches out;
  for (const auto& p : a)
    for (const auto& q : b) {
      const double low = std::max(p.first, q.first), high = std::min(p.second, q.second);
      if (low < high) out.push_back({low, high});
    }
  return out;
}

double sum(const Stretches& all) {
  double s = 0;
  for (const auto& p : all) s += p.second - p.first;
  return s;
}

/// A girder's flange in a panel's frame, in strips end to end.
using Flange = std::vector<Ring<PanelFrame>>;

Flange flange_under(const FitCheck& c, const Girder& g, const Panel& p) {
  Flange out;
  for (const PlanShape& strip : flange_strips(c.bridge, g, p, c.plan)) {
    out.emplace_back();
    for (const PlanPoint& v : strip.core) out.back().push_back(c.plan.in_panel(p, v));
  }
  return out;
}

Stretches within(const Flange& flange, const Slice& s) {
  double low = 1e300, high = -1e300;
  for (const Ring<PanelFrame>& strip : flange)
    for (const auto& [a, b] : within(strip, s)) {
      low = std::min(low, a);
      high = std::max(high, b);
    }
  if (low >= high) return {};
  return {{low, high}};
}

/// Slices just inside the faces, evenly between, and beside every corner of the outline.
std::vector<Slice> slices_of(const PanelShape& s) {
  std::vector<double> at{0.001, 0.25, 0.5, 0.75, 0.999};
  for (const PanelPoint& v : s.outline) {
    const double share = (v.x - s.back_x(v.y)) / (s.ahead_x(v.y) - s.back_x(v.y));
    for (double beside : {-0.0005, 0.0005})
      if (share + beside > 0.001 && share + beside < 0.999) at.push_back(share + beside);
  }
  std::sort(at.begin(), at.end());
  std::vector<Slice> out;
  for (double t : at)
    out.push_back(
        {s.length * t, s.back_slope + (s.ahead_slope - s.back_slope) * t, t > 0.2 && t < 0.8});
  return out;
}

/// The narrowest place found.
struct Narrow {
  const Panel* panel = nullptr;
  const Girder* girder = nullptr;
  bool pad = false;
  double width = 1e300;
  PanelPoint at;
};

class Bearing {
 public:
  explicit Bearing(const FitCheck& c) : c_(c), least_(c.data().section.least_bearing.in_mm()) {}

  void check(const Panel& p) {
    std::vector<Flange> flanges;
    for (const Girder& g : c_.bridge.girders) flanges.push_back(flange_under(c_, g, p));
    std::vector<Narrow> per_girder(flanges.size());
    check_slices(p, flanges, per_girder);
    for (const Feature& f : p.shape.features)
      if (f.kind == FeatureKind::pad) check_pad(p, f, flanges, per_girder);
    for (const Narrow& n : per_girder) note(n);
    for (const Girder& g : c_.bridge.girders) check_ends(p, g);
  }

  void report() const {
    if (narrowest_) say_narrow();
    if (tipping_) say_tipping();
    if (furthest_) say_overhang();
  }

 private:
  void check_slices(const Panel& p, const std::vector<Flange>& flanges,
                    std::vector<Narrow>& per_girder) {
    for (const Slice& s : slices_of(p.shape)) {
      const Stretches panel = within(p.shape.outline, s);
      double low = 1e300, high = -1e300;
      for (std::size_t g = 0; g < flanges.size(); ++g) {
        const Stretches borne = shared(panel, within(flanges[g], s));
        if (borne.empty()) continue;
        low = std::min(low, borne.front().first);
        high = std::max(high, borne.back().second);
        const PanelPoint at = s.at((borne.front().first + borne.back().second) / 2);
        offer(per_girder[g], {&p, &c_.bridge.girders[g], false, sum(borne), at});
      }
      check_balance(p, s, panel, low, high);
    }
  }

  /// How far a panel reaches beyond the end of a girder under it.
  void check_ends(const Panel& p, const Girder& g) {
    const double allowed = 2 * p.shape.depth;
    for (const bool ahead : {false, true}) {
      const double end = (ahead ? g.to : g.from).in_mm();
      if (std::abs(end - (ahead ? p.end : p.start).in_mm()) > p.shape.length + 1000) continue;
      const BridgePoint b{end, girder_offset(c_.bridge, g, end)};
      const PanelPoint at = c_.plan.in_panel(p, c_.plan.of(b));
      if (!contains(p.shape.outline, at)) continue;
      const double over = ahead ? p.shape.ahead_x(at.y) - at.x : at.x - p.shape.back_x(at.y);
      if (over <= allowed + 1e-4) continue;
      if (!furthest_ || over > furthest_->width + 1e-6) furthest_ = Narrow{&p, &g, false, over, at};
      ++over_count_;
    }
  }

  /// The middle of a slice must lie between what it bears on, or the panel tips.
  void check_balance(const Panel& p, const Slice& s, const Stretches& panel, double low,
                     double high) {
    if (panel.empty() || !s.inner) return;
    const double middle = (panel.front().first + panel.back().second) / 2;
    if (low < middle && middle < high) return;
    if (!tipping_) tipping_ = Narrow{&p, nullptr, false, 0, s.at(middle)};
    if (last_tipping_ != &p) ++tipping_count_;
    last_tipping_ = &p;
  }

  void check_pad(const Panel& p, const Feature& f, const std::vector<Flange>& flanges,
                 std::vector<Narrow>& per_girder) {
    for (std::size_t g = 0; g < flanges.size(); ++g) {
      if (c_.bridge.girders[g].name != f.source) continue;
      const Ring<PanelFrame> ring = f.ring();
      for (double t : {-0.498, 0.0, 0.498}) {
        const PanelPoint at{f.at.x + f.length * t * std::cos(f.angle),
                            f.at.y + f.length * t * std::sin(f.angle)};
        // Square across the pad.
        const Slice s{at.x + std::tan(f.angle) * at.y, -std::tan(f.angle)};
        const double across = 1 / std::cos(f.angle);
        const Stretches borne =
            shared(within(ring, s), shared(within(p.shape.outline, s), within(flanges[g], s)));
        offer(per_girder[g], {&p, &c_.bridge.girders[g], true, sum(borne) * across, at});
      }
    }
  }

  static void offer(Narrow& best, const Narrow& n) {
    if (n.width < best.width - 1e-6) best = n;
  }

  void note(const Narrow& n) {
    if (!n.panel || n.width + 1e-4 >= least_) return;
    if (!narrowest_ || n.width < narrowest_->width - 1e-6) narrowest_ = n;
    ++narrow_count_;
  }

  void say_narrow() const {
    const Narrow& n = *narrowest_;
    const Thing flange{Part::flange, deckquire::index_of(c_.deck, *n.panel), nullptr, index_of(*n.girder)};
    const Place place = c_.place_of(flange);
    c_.findings.error(
        place, "bearing-narrow",
        fmt::format("{}panel {} bears on {} of the flange of girder {} at {}{}",
                    n.pad ? "the pad of " : "", n.panel->position, c_.length(n.width),
                    n.girder->name, c_.position(*n.panel, n.at), and_more(narrow_count_ - 1)),
        fmt::format("{} is the least (least-bearing of <section>{}): {} short", c_.length(least_),
                    FitCheck::also_at(c_.data().section.place, place),
                    c_.length(least_ - n.width)));
  }

  void say_overhang() const {
    const Narrow& n = *furthest_;
    const Place place =
        c_.place_of(Thing{Part::flange, deckquire::index_of(c_.deck, *n.panel), nullptr, index_of(*n.girder)});
    c_.findings.warning(
        place, "panel-overhangs-girder",
        fmt::format("panel {} reaches {} beyond the end of girder {} at {}{}", n.panel->position,
                    c_.length(n.width), n.girder->name, c_.position(*n.panel, n.at),
                    and_more(over_count_ - 1)),
        fmt::format(
            "twice its depth, {}, is the most (common practice, no source): a longer girder",
            c_.length(2 * n.panel->shape.depth)));
  }

  void say_tipping() const {
    const Narrow& n = *tipping_;
    const Place place = c_.data().edges.front().place;
    c_.findings.error(
        place, "panel-tips",
        fmt::format("panel {} has no girder on one side of its middle at {}{}", n.panel->position,
                    c_.position(*n.panel, n.at), and_more(tipping_count_ - 1)),
        "it would tip: put girders under both sides, or part the deck elsewhere");
  }

  int index_of(const Girder& g) const { return static_cast<int>(&g - c_.bridge.girders.data()); }

  const FitCheck& c_;
  double least_;
  std::optional<Narrow> narrowest_, tipping_, furthest_;
  int narrow_count_ = 0, tipping_count_ = 0, over_count_ = 0;
  const Panel* last_tipping_ = nullptr;
};

}  // namespace

void check_bearing(const FitCheck& c) {
  if (c.bridge.girders.empty()) return;
  Bearing bearing(c);
  for (const Panel& p : c.deck.panels) bearing.check(p);
  bearing.report();
}

}  // namespace deckquire
