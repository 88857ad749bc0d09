#include "checks/fit.h"

namespace deckquire {
namespace {

const MaterialData* material(const Project& p, const std::string& part) {
  for (const MaterialData& m : p.deck.materials)
    if (m.part == part) return &m;
  return nullptr;
}

void list_checked(const Project& p, std::vector<std::string>& out) {
  out.push_back("panels, gaps and end gaps add up to every span exactly");
  out.push_back("supports, girders, splices, edges and obstructions agree with the bridge");
  out.push_back("the panels cover the outer girder flanges");
  out.push_back("distances in plan and through the depth between features, panel edges and steel");
  out.push_back("scupper outlets, hatches and sleeves are clear of girder flanges");
  if (!p.bridge.splices.empty())
    out.push_back("recesses over girder splices: cover, room for the plate and its bolts");
  out.push_back("panels bear on girder flanges, and keep clear of obstructions");
  out.push_back("depth at the panel edges");
  if (p.deck.posts)
    out.push_back(
        "post plates: distance to panel ends, cover in the curb, bolt edge distance, thread "
        "length");
  out.push_back("lifting inserts: places only, centred on each panel's centre of gravity");
  const Conditions& c = p.conditions;
  if (c.ship_length || c.ship_width || c.ship_mass) out.push_back("shipping limits as given");
  out.push_back("panels along the grade: their length, and how flat they lie");
}

void list_not_checked(const Project& p, std::vector<std::string>& out) {
  const auto no = [&](const std::string& what, const std::string& needs) {
    out.push_back(what + ": needs " + needs);
  };
  no("strength and deflection of the panels",
     "loads by the governing code and laminate properties proved by test");
  no("local crushing and wheel loads", "vehicle, contact areas and laminate properties");
  no("rail post anchorage and guard rail",
     "rail loads by the governing code and a test or calculation of curb, plate and laminate");
  no("drainage", p.conditions.rain ? "a catchment and spread limit (rain is printed only)"
                                   : "rain, catchment and spread limit");
  no("movement of the joints", "temperatures, steel and laminate expansion, joint makers' limits");
  no("uplift and hold-downs", "wind pressures and the clips' resistance");
  no("lifting strength",
     p.deck.lifting.capacity_kn > 0
         ? "a lifting plan by a qualified person (the insert capacity is as stated)"
         : "insert capacity, handling factor and a lifting plan by a qualified person");
  no("girders and splices", "the bridge designer's own calculation");
  if (const MaterialData* m = material(p, "laminate"); !m || m->source.empty())
    no("masses", "laminate density with its source; a panel weighed before the first lift");
}

}  // namespace

CheckScope check_scope(const Project& project) {
  CheckScope scope;
  list_checked(project, scope.checked);
  list_not_checked(project, scope.not_checked);
  return scope;
}

}  // namespace deckquire
