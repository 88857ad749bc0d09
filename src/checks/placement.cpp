// What the placement rules could not keep: clips farther apart than asked.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "checks/parts.h"

namespace deckquire {
namespace {

/// The widest distance between two clips of one girder in one panel.
struct Clips {
  double widest = 0;
  int position = 0, count = 0;
  std::string girder;
};

void look_at_clips(const FitCheck& c, const Panel& p, double most, Clips& worst) {
  std::map<std::string, std::vector<PanelPoint>> rows;
  for (const Feature& f : p.shape.features)
    if (f.kind == FeatureKind::hold_down) rows[f.source].push_back(f.at);
  for (auto& [girder, at] : rows) {
    std::sort(at.begin(), at.end(), [](PanelPoint a, PanelPoint b) { return a.x < b.x; });
    for (std::size_t i = 1; i < at.size(); ++i) {
      const double apart = at[i].x - at[i - 1].x;
      if (apart <= most + print_unit(c.project.units).in_mm() / 2) continue;
      ++worst.count;
      if (apart <= worst.widest + 1e-6) continue;
      worst.widest = apart;
      worst.position = p.position;
      worst.girder = girder;
    }
  }
}

void check_clips(const FitCheck& c) {
  const auto& data = c.data().hold_downs;
  if (!data || !data->spacing) return;
  Clips worst;
  for (const Panel& p : c.deck.panels) look_at_clips(c, p, data->spacing->in_mm(), worst);
  if (worst.count == 0) return;
  c.findings.warning(
      data->place, "hold-down-far",
      fmt::format("panel {}: two hold-downs on girder {} are {} apart, {} more than spacing{}",
                  worst.position, worst.girder, c.length(worst.widest),
                  c.length(worst.widest - data->spacing->in_mm()),
                  worst.count > 1 ? fmt::format(", and {} more like it", worst.count - 1) : ""),
      "a recess or an opening is in the way: move it, or accept the distance");
}

}  // namespace

void check_placement(const FitCheck& c) {
  check_clips(c);
}

}  // namespace deckquire
