#include "project/vocabulary.h"

#include <algorithm>
#include <iterator>

namespace deckquire {

Preset required() {
  return {};
}

Preset absent(std::string words) {
  return {Preset::Way::absent, {}, {}, {}, std::move(words)};
}

Preset described(std::string words) {
  return {Preset::Way::described, {}, {}, {}, std::move(words)};
}

Preset value(std::string both) {
  return {Preset::Way::value, both, both, {}, {}};
}

Preset value(std::string metric, std::string imperial) {
  return {Preset::Way::value, std::move(metric), std::move(imperial), {}, {}};
}

Preset value_by(std::string key, std::string metric, std::string imperial) {
  return {Preset::Way::by, std::move(metric), std::move(imperial), std::move(key), {}};
}

namespace {

std::vector<Element> whole_vocabulary() {
  std::vector<Element> all;
  for (auto part : {project_vocabulary(), bridge_vocabulary(), deck_vocabulary(), post_vocabulary(),
                    fitting_vocabulary(), clearance_vocabulary(), load_vocabulary(), delivery_vocabulary(),
                    site_vocabulary()})
    std::move(part.begin(), part.end(), std::back_inserter(all));
  return all;
}

}  // namespace

const std::vector<Element>& vocabulary() {
  static const std::vector<Element> all = whole_vocabulary();
  return all;
}

const Element* find_element(const std::string& name) {
  const auto& all = vocabulary();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Element& e) { return e.name == name; });
  return found == all.end() ? nullptr : &*found;
}

const Attribute* find_attribute(const Element& element, const std::string& name) {
  for (const Attribute& a : element.attributes)
    if (a.name == name) return &a;
  return nullptr;
}

const std::vector<NotYet>& not_yet_elements() {
  static const std::vector<NotYet> all{
      {"equation", "stations that jump along the line"},
      {"superelevation", "crossfalls that change along the bridge"},
  };
  return all;
}

const std::vector<NotYet>& not_yet_attributes() {
  static const std::vector<NotYet> all{
      {"superelevation", "crossfalls that change along the bridge"},
  };
  return all;
}

// Common practice, no source: the drawings print "default, not stated by the project" beside them.
// Steel: EN 1991-1-1:2002 Table A.4 gives 77.0 to 78.5 kN/m3.
const std::vector<MaterialDefault>& material_defaults() {
  static const std::vector<MaterialDefault> all{
      {"laminate", "E-glass / vinyl ester laminate", "1850 kg/m3", "115 lb/ft3"},
      {"core", "structural foam, closed cell", "80 kg/m3", "5 lb/ft3"},
      {"curb", "E-glass / vinyl ester over foam, mean", "1200 kg/m3", "75 lb/ft3"},
      {"steel", "carbon steel, hot-dip galvanised", "7850 kg/m3", "490 lb/ft3"},
      {"cover", "E-glass / vinyl ester laminate", "1850 kg/m3", "115 lb/ft3"},
      {"pad", "EPDM rubber", "1200 kg/m3", "75 lb/ft3"},
      {"sealant", "one-part elastic sealant", "1400 kg/m3", "87 lb/ft3"},
  };
  return all;
}

// Common practice, no source.
const std::vector<ToleranceDefault>& tolerance_defaults() {
  static const std::vector<ToleranceDefault> all{
      {"length", "3 mm", "1/8 in"},     {"width", "3 mm", "1/8 in"},
      {"thickness", "2 mm", "1/16 in"}, {"squareness", "5 mm", "3/16 in"},
      {"flatness", "5 mm", "3/16 in"},  {"hole position", "1.5 mm", "1/16 in"},
      {"gap", "3 mm", "1/8 in"},
  };
  return all;
}

}  // namespace deckquire
