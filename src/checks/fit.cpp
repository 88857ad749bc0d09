#include "checks/fit.h"

#include <fmt/format.h>

#include "checks/parts.h"

namespace deckquire {
namespace {

template <class Data>
const Data* named(const std::vector<Data>& all, const std::string& name) {
  for (const Data& d : all)
    if (d.name == name) return &d;
  return nullptr;
}

}  // namespace

std::string FitCheck::name_of(const Feature& f) {
  const std::string kind = feature_name(f.kind);
  return f.source.empty() ? kind : fmt::format("{} {}", kind, f.source);
}

Place FitCheck::place_of(const Feature& f) const {
  const DeckData& d = data();
  switch (f.kind) {
    case FeatureKind::recess:
      if (const Splice* s = named(bridge.splices, f.source)) return s->place;
      break;
    case FeatureKind::post_plate:
      return d.posts ? d.posts->place : d.place;
    case FeatureKind::scupper:
      if (!d.scuppers) break;
      if (const ScupperData* s = named(d.scuppers->scuppers, f.source)) return s->place;
      return d.scuppers->place;
    case FeatureKind::hatch:
      if (const HatchData* h = named(d.hatches, f.source)) return h->place;
      break;
    case FeatureKind::sleeve:
      if (const SleeveData* s = named(d.sleeves, f.source)) return s->place;
      break;
    case FeatureKind::hold_down:
      return d.hold_downs ? d.hold_downs->place : d.place;
    case FeatureKind::lifting_insert:
      return d.lifting.place;
    case FeatureKind::notch:
      if (const Obstruction* o = named(bridge.obstructions, f.source)) return o->place;
      break;
    default:
      break;
  }
  return d.place;
}

void check_fit(const Project& project, const Bridge& bridge, const Deck& deck, Findings& findings) {
  if (deck.panels.empty()) return;  // the division has said why
  const FitCheck c{project, bridge, deck, findings};
  check_clearances(c);
  check_flanges(c);
  check_section(c);
  check_plates(c);
  check_handling(c);
}

}  // namespace deckquire
