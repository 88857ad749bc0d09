// What has to be lifted and carried.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/parts.h"
#include "deck/features.h"

namespace deckquire {
namespace {

void check_shipping(const FitCheck& c, const Mark& m) {
  const Conditions& k = c.project.conditions;
  const Box<PanelFrame> b = bounds(m.shape.outline);
  // A wide panel travels crosswise: its longer side along the vehicle.
  const double longer = std::max(b.width(), b.height()), shorter = std::min(b.width(), b.height());
  const auto over = [&](double is, const std::optional<Length>& limit, const char* what) {
    if (!limit || is <= limit->in_mm() + 1e-6) return;
    c.findings.error(
        k.place, fmt::format("shipping-{}", what),
        fmt::format("{} measures {} by {}", m.name, c.length(longer), c.length(shorter)),
        fmt::format("the shipping {} is {}", what, c.length(limit->in_mm())));
  };
  over(longer, k.ship_length, "length");
  over(shorter, k.ship_width, "width");
  if (k.ship_mass && m.masses.total > *k.ship_mass)
    c.findings.error(
        k.place, "shipping-mass",
        fmt::format("{} has a mass of {}", m.name, print_mass(m.masses.total, c.project.units)),
        fmt::format("the shipping mass is {}", print_mass(*k.ship_mass, c.project.units)));
}

/// Four equal shares need the inserts' middle under the hook at the centre of gravity.
void check_inserts(const FitCheck& c, const Mark& m) {
  PanelPoint sum;
  int n = 0;
  for (const Feature& f : m.shape.features)
    if (f.kind == FeatureKind::lifting_insert) {
      sum = sum + f.at;
      ++n;
    }
  if (n == 0) return;
  const PanelPoint middle = sum * (1.0 / n);
  const double off = std::hypot(middle.x - m.masses.x, middle.y - m.masses.y);
  // Whole units at the corner of a square leave three quarters of one.
  const double rounding = 0.75 * print_unit(c.project.units).in_mm();
  const double allowed = std::max(c.data().lifting.tolerance.in_mm(), rounding);
  if (off <= allowed) return;
  c.findings.warning(c.data().lifting.place, "lifting-off-centre",
                     fmt::format("the lifting inserts of {} are {} off its centre of gravity, {} "
                                 "more than their tolerance",
                                 m.name, c.length(off), c.length(off - allowed)),
                     "the four legs will not share equally; have the lift planned for it");
}

void check_covers(const FitCheck& c) {
  constexpr double one_person = 25;  // kg; ISO 11228-1 reference mass, from memory
  for (const HatchData& h : c.data().hatches) {
    Density d;
    for (const MaterialData& m : c.data().materials)
      if (m.part == "cover") d = m.density;
    const Length l = h.length + 2 * h.rebate, w = h.width + 2 * h.rebate;
    const Mass mass = l * w * h.cover * d;
    if (mass.in_si() <= one_person) continue;
    c.findings.warning(
        h.place, "hatch-cover-heavy",
        fmt::format("the cover of hatch {} has a mass of {} kg", h.name, decimal(mass.in_si(), 0)),
        "more than one person lifts (25 kg: ISO 11228-1, from memory): say how it is "
        "lifted, or divide it");
  }
}

}  // namespace

void check_handling(const FitCheck& c) {
  for (const Mark& m : c.deck.marks) {
    check_shipping(c, m);
    check_inserts(c, m);
  }
  check_covers(c);
}

}  // namespace deckquire
