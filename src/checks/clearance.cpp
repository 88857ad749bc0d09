#include "checks/clearance.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "checks/parts.h"
#include "deck/features.h"

namespace deckquire {
namespace {

using K = FeatureKind;
constexpr const char* practice = "common practice, no source";

// One row a pair of kinds. A thing exactly at its distance is right.
constexpr ClearanceRule rules[] = {
    {K::recess, K::scupper, 25, practice},
    {K::recess, K::hatch, 50, practice},
    {K::recess, K::sleeve, 50, practice},
    {K::recess, K::hold_down, 50, practice},
    {K::recess, K::lifting_insert, 75, practice},
    {K::recess, K::notch, 75, practice},
    {K::recess, K::post_plate, 0.001, "they must not overlap"},
    {K::post_plate, K::post_plate, 50, practice},
    {K::post_plate, K::scupper, 50, practice},
    {K::post_plate, K::hatch, 50, practice},
    {K::post_plate, K::sleeve, 50, practice},
    {K::post_plate, K::lifting_insert, 40, practice},
    {K::post_plate, K::notch, 75, practice},
    {K::scupper, K::scupper, 100, practice},
    {K::scupper, K::hatch, 100, practice},
    {K::scupper, K::sleeve, 50, practice},
    {K::scupper, K::hold_down, 50, practice},
    {K::scupper, K::lifting_insert, 75, practice},
    {K::scupper, K::notch, 75, practice},
    {K::hatch, K::hatch, 150, practice},
    {K::hatch, K::sleeve, 50, practice},
    {K::hatch, K::hold_down, 50, practice},
    {K::hatch, K::lifting_insert, 75, practice},
    {K::hatch, K::notch, 150, practice},
    {K::sleeve, K::sleeve, 50, practice},
    {K::sleeve, K::hold_down, 50, practice},
    {K::sleeve, K::lifting_insert, 75, practice},
    {K::sleeve, K::notch, 75, practice},
    {K::hold_down, K::hold_down, 40, practice},
    {K::hold_down, K::lifting_insert, 40, practice},
    {K::hold_down, K::notch, 50, practice},
    {K::lifting_insert, K::notch, 75, practice},
};

/// A feature in its panel, in bridge coordinates.
struct Placed {
  const Feature* feature;
  Ring<BridgeFrame> ring;
  Box<BridgeFrame> box;
  int panel;
};

std::vector<Placed> placed_features(const FitCheck& c, int panel) {
  const Panel& p = c.deck.panels[static_cast<std::size_t>(panel)];
  std::vector<Placed> out;
  for (const Feature& f : p.shape.features) {
    if (f.kind == K::pad || f.kind == K::tag) continue;
    Placed q{&f, {}, {}, panel};
    const auto ring = f.kind == K::hatch ? box_ring(footprint(f, c.data())) : f.ring();
    for (PanelPoint v : ring) q.ring.push_back({v.x + p.start.in_mm(), v.y});
    q.box = bounds(q.ring);
    out.push_back(std::move(q));
  }
  return out;
}

struct Clash {
  Placed a, b;
  const ClearanceRule* rule;
  double actual;
  double shortfall() const { return rule->least - actual; }
};

std::optional<Clash> clash_of(const Placed& a, const Placed& b) {
  const ClearanceRule* rule = clearance_rule(a.feature->kind, b.feature->kind);
  if (!rule || !a.box.grown(rule->least).overlaps(b.box)) return std::nullopt;
  const double d = distance(a.ring, b.ring);
  constexpr double slack = 0.05;  // a circle is a ring of 32 sides here
  if (d + slack >= rule->least) return std::nullopt;
  return Clash{a, b, rule, d};
}

/// The worst clash of each pair of kinds, and how many there are.
class Worst {
 public:
  void add(const Clash& clash) {
    const auto key = std::pair(clash.rule->a, clash.rule->b);
    auto [at, fresh] = found_.try_emplace(key, clash, 0);
    ++at->second.second;
    if (!fresh && clash.shortfall() > at->second.first.shortfall() + 1e-6) at->second.first = clash;
  }
  void report(const FitCheck& c) const {
    for (const auto& [key, value] : found_) say(c, value.first, value.second);
  }

 private:
  static void say(const FitCheck& c, const Clash& k, int times) {
    const bool overlap = k.actual <= 0;
    std::string what =
        fmt::format("panel {}: {} and {}{} {}", k.a.panel + 1, FitCheck::name_of(*k.a.feature),
                    FitCheck::name_of(*k.b.feature),
                    k.a.panel == k.b.panel ? "" : fmt::format(" of panel {}", k.b.panel + 1),
                    overlap ? "overlap" : fmt::format("are {} apart", c.length(k.actual)));
    if (times > 1) what += fmt::format(" (the worst of {} such pairs)", times);
    const std::string remedy = fmt::format("keep {} between them ({})",
                                           c.length(std::ceil(k.rule->least)), k.rule->source);
    const Place place = c.place_of(*k.b.feature);
    if (overlap)
      c.findings.error(place, "features-overlap", what, remedy);
    else
      c.findings.warning(place, "features-too-near", what, remedy);
  }
  std::map<std::pair<K, K>, std::pair<Clash, int>> found_;
};

void check_ends(const FitCheck& c) {
  for (const Mark& m : c.deck.marks) {
    const Panel& p = c.first_of(m);
    for (const Feature& f : p.shape.features) {
      const double least = least_from_end(f.kind);
      const Box<PanelFrame> b = footprint(f, c.data());
      const double room = std::min(b.low.x, p.shape.length - b.high.x);
      if (least == 0 || room + 1e-6 >= least) continue;
      if (f.kind == K::notch && room <= 0) continue;  // cut out of the end on purpose
      c.findings.warning(c.place_of(f), "feature-near-joint",
                         fmt::format("{} is {} from the end of panel {}", FitCheck::name_of(f),
                                     c.length(room), p.position),
                         fmt::format("keep {} ({})", c.length(least), practice));
    }
  }
}

}  // namespace

const ClearanceRule* clearance_rule(FeatureKind a, FeatureKind b) {
  for (const ClearanceRule& r : rules)
    if ((r.a == a && r.b == b) || (r.a == b && r.b == a)) return &r;
  return nullptr;
}

double least_from_end(FeatureKind kind) {
  switch (kind) {
    case K::hatch:
      return 50;
    case K::scupper:
      return 50;
    case K::sleeve:
      return 50;
    case K::notch:
      return 75;
    case K::hold_down:
      return 50;
    default:
      return 0;
  }
}

void check_clearances(const FitCheck& c) {
  Worst worst;
  std::vector<Placed> before;
  for (int i = 0; i < static_cast<int>(c.deck.panels.size()); ++i) {
    const std::vector<Placed> here = placed_features(c, i);
    for (std::size_t k = 0; k < here.size(); ++k) {
      for (std::size_t n = k + 1; n < here.size(); ++n)
        if (const auto clash = clash_of(here[k], here[n])) worst.add(*clash);
      for (const Placed& p : before)
        if (const auto clash = clash_of(p, here[k])) worst.add(*clash);
    }
    before = here;
  }
  worst.report(c);
  check_ends(c);
}

}  // namespace deckquire
