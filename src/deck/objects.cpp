#include "deck/objects.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace deckquire {
namespace {

struct KindWord {
  const char* word;
  ObjectKind kind;
  FeatureKind feature = FeatureKind::tag;
};

// "row joint" before "joint": the first that fits is taken.
const KindWord kind_words[] = {
    {"panel", ObjectKind::panel},
    {"mark", ObjectKind::mark},
    {"row joint", ObjectKind::row_joint},
    {"joint", ObjectKind::joint},
    {"span", ObjectKind::span},
    {"girder", ObjectKind::girder},
    {"support", ObjectKind::support},
    {"hatch", ObjectKind::feature, FeatureKind::hatch},
    {"sleeve", ObjectKind::feature, FeatureKind::sleeve},
    {"scupper", ObjectKind::feature, FeatureKind::scupper},
    {"post", ObjectKind::feature, FeatureKind::post_plate},
    {"recess", ObjectKind::feature, FeatureKind::recess},
    {"splice", ObjectKind::feature, FeatureKind::recess},
    {"opening", ObjectKind::feature, FeatureKind::notch},
};

template <class List>
int index_of(const List& list, const std::string& name) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].name == name) return static_cast<int>(i);
  return -1;
}

bool carries(const Panel& p, FeatureKind kind, const std::string& name) {
  return std::any_of(p.shape.features.begin(), p.shape.features.end(), [&](const Feature& f) {
    return f.kind == kind && f.source == name;
  });
}

/// Where something of that kind and name is: in what list, on which panels. False: nowhere.
bool look_up(const Bridge& bridge, const Deck& deck, Object& o) {
  const auto keep_panels = [&](auto wanted) {
    for (std::size_t i = 0; i < deck.panels.size(); ++i)
      if (wanted(deck.panels[i])) o.panels.push_back(static_cast<int>(i));
    return !o.panels.empty();
  };
  switch (o.kind) {
    case ObjectKind::set:
      return o.name.empty();
    case ObjectKind::panel:
      return keep_panels([&](const Panel& p) { return std::to_string(p.position) == o.name; });
    case ObjectKind::feature:
      return keep_panels([&](const Panel& p) { return carries(p, o.feature, o.name); });
    case ObjectKind::mark:
      o.index = index_of(deck.marks, o.name);
      return o.index >= 0 && keep_panels([&](const Panel& p) { return p.mark == o.index; });
    case ObjectKind::span:
      o.index = index_of(deck.spans, o.name);
      return o.index >= 0 && keep_panels([&](const Panel& p) { return p.span == o.index; });
    case ObjectKind::joint:
      o.index = index_of(deck.joints, o.name);
      return o.index >= 0;
    case ObjectKind::row_joint:
      o.index = index_of(deck.row_joints, o.name);
      return o.index >= 0;
    case ObjectKind::girder:
      o.index = index_of(bridge.girders, o.name);
      return o.index >= 0;
    case ObjectKind::support:
      o.index = index_of(bridge.supports, o.name);
      return o.index >= 0;
  }
  return false;
}

std::optional<Object> feature_of_panel(const Bridge& bridge, const Deck& deck,
                                       const std::string& name) {
  const auto blank = name.find(' ', 6);
  if (!name.starts_with("panel ") || blank == std::string::npos) return std::nullopt;
  const auto panel = find_object(bridge, deck, name.substr(0, blank));
  auto feature = find_object(bridge, deck, name.substr(blank + 1));
  if (!panel || !feature || feature->kind != ObjectKind::feature) return std::nullopt;
  const int only = panel->panels.front();
  const auto& on = feature->panels;
  if (std::find(on.begin(), on.end(), only) == on.end()) return std::nullopt;
  feature->panels = {only};
  return feature;
}

}  // namespace

std::optional<Object> find_object(const Bridge& bridge, const Deck& deck, const std::string& name) {
  if (name == "set" || name == "bridge") return Object{ObjectKind::set, ""};
  if (auto both = feature_of_panel(bridge, deck, name)) return both;
  for (const KindWord& w : kind_words) {
    const std::string word = std::string(w.word) + " ";
    if (!name.starts_with(word)) continue;
    Object o{w.kind, name.substr(word.size())};
    o.feature = w.feature;
    if (look_up(bridge, deck, o)) return o;
    return std::nullopt;
  }
  return std::nullopt;
}

void check_redlines(const Project& project, const Bridge& bridge, const Deck& deck,
                    Findings& findings) {
  for (const Redline& r : project.redlines)
    if (r.status == RedlineStatus::open && !find_object(bridge, deck, r.on))
      findings.error(r.place, "unknown-object",
                     fmt::format("the redline is on \"{}\", and the deck has no such thing", r.on),
                     "write its kind and its name as the sheets print them: \"panel 7\", \"mark "
                     "DP03\", \"hatch H2\", \"panel 7 hatch H2\", \"joint J3\"; or \"set\"");
}

}  // namespace deckquire
