// Validated elements -> the structs of project.h. Validation comes first: these trust their input.
#pragma once

#include "project/fields.h"
#include "project/project.h"

namespace deckquire {

BridgeData extract_bridge(const Fields& bridge, const std::string& title);
DeckData extract_deck(const Fields& deck, const BridgeData& bridge, const std::string& number);
std::optional<PostsData> extract_posts(const Fields& deck, const BridgeData& bridge);
std::optional<ScuppersData> extract_scuppers(const Fields& deck);
Conditions extract_conditions(const Fields& project);
void extract_loads(const Fields& conditions, Conditions& into);
void extract_delivery(const Fields& conditions, Conditions& into);
std::optional<PanelStrengthData> extract_panel_strength(const Fields& deck);
std::optional<AnchorData> extract_anchor(const Fields& posts);

/// Everything; the root element is <project>.
Project extract_project(const Document& document, const OwnUnit& own, const std::string& file);

}  // namespace deckquire
