#include <fmt/format.h>

#include "base/text.h"
#include "checks/fit.h"
#include "checks/picks.h"

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

/// What was calculated, a line a topic, and what was not.
void list_calculated(CheckScope& scope) {
  const Calculations& all = scope.calculations;
  for (int i = 0; i < topic_count; ++i) {
    const Topic topic = static_cast<Topic>(i);
    double worst = -1;
    std::string number;
    for (const CheckLine& line : all.summary)
      if (line.topic == topic && line.ratio > worst) {
        worst = line.ratio;
        number = all.list[line.worst].number;
      }
    if (worst < 0) continue;
    scope.checked.push_back(fmt::format("{}: greatest ratio {}, calculation {}{}",
                                        topic_name(topic), decimal(worst, 2), number,
                                        worst > 1 + 1e-9 ? ": FAILS" : ""));
  }
  for (const NotChecked& n : all.not_checked)
    scope.not_checked.push_back(n.what + ": needs " + n.needs);
}

void list_not_checked(const Project& p, std::vector<std::string>& out) {
  const auto no = [&](const std::string& what, const std::string& needs) {
    out.push_back(what + ": needs " + needs);
  };
  no("local crushing and wheel loads", "vehicle, contact areas and laminate properties");
  no("girders and splices", "the bridge designer's own calculation");
  if (const MaterialData* m = material(p, "laminate"); !m || m->source.empty())
    no("masses", "laminate density with its source; a panel weighed before the first lift");
}

}  // namespace

CheckScope check_scope(const Project& project, const Bridge& bridge, const Deck& deck,
                       Findings& findings) {
  CheckScope scope;
  scope.calculations = calculate(project, bridge, deck, findings);
  list_checked(project, scope.checked);
  list_calculated(scope);
  list_not_checked(project, scope.not_checked);
  check_picks(project, bridge, deck, scope, findings);
  return scope;
}

}  // namespace deckquire
