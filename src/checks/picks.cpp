// The order of setting and the cranes: can every panel be set as the project says?
#include "checks/picks.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "schedules/picks.h"
#include "schedules/setting_order.h"

namespace deckquire {
namespace {

constexpr std::size_t named = 6;  // serials in one message

std::string metres_of(double v, UnitSystem units) {
  return print_cell(v / 1e3, Measure::reach, units) + " " + column_unit(Measure::reach, units);
}

std::string mass_of(double kg, UnitSystem units) {
  return print_mass(Mass::si(kg), units) + " " + column_unit(Measure::mass, units);
}

/// "C1 at 33.2 m: beyond its chart; C2 at 24.1 m takes 1500 kg of 1620 kg".
std::string against_charts(const Project& project, const std::vector<CraneReach>& reaches) {
  std::vector<std::string> words;
  for (const CraneReach& r : reaches) {
    const std::string& name = project.conditions.erection.cranes[static_cast<std::size_t>(r.crane)].name;
    const std::string at = fmt::format("{} at {}", name, metres_of(r.radius, project.units));
    words.push_back(r.takes ? fmt::format("{} takes {} of {}", at, mass_of(r.takes->in_si(), project.units),
                                          mass_of(r.lifted, project.units))
                            : at + ": beyond its chart");
  }
  return join(words, "; ");
}

}  // namespace

void check_picks(const Project& project, const Bridge& bridge, const Deck& deck, CheckScope& scope,
                 Findings& findings) {
  const ErectionData& data = project.conditions.erection;
  const std::vector<Pick> picks = picks_of(project, bridge, deck, setting_order(project, deck, findings));
  std::vector<const Pick*> beyond;
  double worst = 0;
  bool checked = false;
  for (const Pick& p : picks) {
    if (!p.crane) continue;
    checked = true;
    if (p.crane->holds()) worst = std::max(worst, p.crane->lifted / p.crane->takes->in_si());
    else beyond.push_back(&p);
  }
  if (!checked) {
    scope.not_checked.push_back("picks against the charts of cranes: needs where cranes stand and their charts "
                                "(erection crane, reach)");
    return;
  }
  scope.checked.push_back(
      beyond.empty() ? fmt::format("picks: panel and tackle against the cranes' charts, greatest ratio {}",
                                   decimal(worst, 2))
                     : fmt::format("picks: {} panels that no crane takes: FAILS", beyond.size()));
  scope.not_checked.push_back("picks from the truck: needs the place where it stands");
  if (beyond.empty()) return;
  std::vector<std::string> serials;
  for (const Pick* p : beyond)
    if (serials.size() < named) serials.push_back(deck.panels[static_cast<std::size_t>(p->panel)].serial);
  const std::string more = beyond.size() > named ? fmt::format(" and {} more", beyond.size() - named) : "";
  const Pick& first = *beyond.front();
  findings.error(
      data.place, "pick-beyond-chart",
      fmt::format("no crane takes {}{} where they go; step {}: {}", join(serials, ", "), more, first.step,
                  against_charts(project, crane_reaches(project, bridge, deck, first.panel))),
      "stand a crane nearer, state one that takes more, or make the panels lighter; a lift is planned by whoever "
      "answers for it");
}

}  // namespace deckquire
