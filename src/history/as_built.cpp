#include "history/as_built.h"

#include <fmt/format.h>

#include <algorithm>

#include "deck/differences.h"

namespace deckquire::history {
namespace {

template <class Data>
int named(const std::vector<Data>& all, const std::string& name) {
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].name == name) return static_cast<int>(i);
  return -1;
}

/// Whether the project still has what a feature's sizes are taken from; hatches and sleeves are
/// found again by name.
bool has_data(Feature& f, const DeckData& deck) {
  switch (f.kind) {
    case FeatureKind::post_plate:
      return deck.posts.has_value();
    case FeatureKind::scupper:
      return deck.scuppers.has_value();
    case FeatureKind::hold_down:
      return deck.hold_downs.has_value();
    case FeatureKind::hatch:
      return (f.variant = named(deck.hatches, f.source)) >= 0;
    case FeatureKind::sleeve:
      return (f.variant = named(deck.sleeves, f.source)) >= 0;
    default:
      return true;
  }
}

void take_names(PanelShape& built, const PanelShape& design) {
  for (const FeaturePair& p : pair_features(design, built)) {
    if (p.a == nullptr || p.b == nullptr) continue;
    Feature& f = built.features[static_cast<std::size_t>(p.b - built.features.data())];
    f.source = p.a->source;
    f.place = p.a->place;
  }
}

}  // namespace

std::string put_as_built(Panel& panel, const IssuedPosition& old, const PanelShape& built,
                         const Project& project, const IssuedMarks& marks) {
  PanelShape shape = built;
  for (Feature& f : shape.features)
    if (!has_data(f, project.deck))
      return fmt::format("the project no longer describes its {} {}", feature_name(f.kind),
                         f.source);
  if (shape.surface >= static_cast<int>(project.deck.surfaces.size()))
    return "the project no longer describes its wearing surface";
  const int mark = marks.index(old.mark);
  const PanelShape drawn = old.turned ? half_turn(shape) : shape;
  if (mark < 0 || !marks.means(mark, facts_of(signature_of(drawn, project))))
    return "what changes is the same for all panels of the project, so that the sheets would show "
           "this one too as it is not";
  take_names(shape, panel.shape);
  panel.wanted = signature_of(old.turned ? half_turn(panel.shape) : panel.shape, project);
  panel.shape = std::move(shape);
  panel.end = panel.start + (old.end - old.start);
  return "";
}

}  // namespace deckquire::history
