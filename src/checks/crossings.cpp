// Outlets of scuppers against what passes below the bridge.
#include <fmt/format.h>

#include "bridge/crossings.h"
#include "checks/parts.h"

namespace deckquire {
namespace {

/// A scupper that was written out is where its line says; else the rule answers for it.
Place line_of(const FitCheck& c, const ScupperPlace& s) {
  for (const ScupperData& d : c.data().scuppers->scuppers)
    if (d.name == s.name) return d.place;
  return c.data().scuppers->place;
}

std::string name_of(const CrossingData& crossing) {
  return fmt::format("{} {}", crossing_word(crossing.kind), crossing.name);
}

void check_place(const FitCheck& c, const CrossingData& crossing, const ScupperPlace& s) {
  const double radius = c.data().scuppers->outlet.in_mm() / 2;
  if (outlet_allowed(crossing, s.station, s.offset, radius)) return;
  const double far = distance_to(crossing, s.station, s.offset) - radius;
  const Place at = line_of(c, s);
  c.findings.error(
      at, "outlet-over-crossing",
      fmt::format("the outlet of scupper {} at {} {}; {} is asked{}", s.name,
                  c.position(BridgePoint{s.station.in_mm(), s.offset.in_mm()}),
                  far <= 0 ? "ends above " + name_of(crossing)
                           : fmt::format("ends {} from {}", c.length(far), name_of(crossing)),
                  c.length(crossing.clear.in_mm()), FitCheck::also_at(crossing.place, at)),
      "move the scupper along, or lead its pipe away and say outlets=\"allowed\" in <crossing>");
}

void check_top(const FitCheck& c, const SupportData& support, const ScupperPlace& s) {
  const double radius = c.data().scuppers->outlet.in_mm() / 2;
  if (outlet_allowed(support, s.station, radius)) return;
  const double far = abs(s.station - support.station).in_mm() - support.top->in_mm() / 2 - radius;
  const Place at = line_of(c, s);
  c.findings.error(at, "outlet-over-bearings",
                   fmt::format("the outlet of scupper {} at {} ends {} inside the top of {} {}{}", s.name,
                               print_station(s.station, c.project.units), c.length(-far), support.kind,
                               support.name, FitCheck::also_at(support.place, at)),
                   fmt::format("move the scupper along by at least {}", c.length(-far)));
}

void check_headroom(const FitCheck& c, const CrossingData& crossing, const ScupperPlace& s) {
  const double radius = c.data().scuppers->outlet.in_mm() / 2;
  if (!crossing.level || !crossing.headroom || distance_to(crossing, s.station, s.offset) >= radius)
    return;
  const double left = (s.outlet_level - *crossing.level - *crossing.headroom).in_mm();
  if (left >= -1e-6) return;
  const Place at = line_of(c, s);
  c.findings.error(at, "outlet-in-headroom",
                   fmt::format("the outlet of scupper {} ends {} above {}, {} less than its headroom{}",
                               s.name, c.length((s.outlet_level - *crossing.level).in_mm()),
                               name_of(crossing), c.length(-left),
                               FitCheck::also_at(crossing.place, at)),
                   "shorten the pipe below the soffit (outlet-below), or move the scupper");
}

}  // namespace

void check_crossings(const FitCheck& c) {
  if (!c.data().scuppers) return;
  for (const CrossingData& crossing : c.project.bridge.crossings)
    for (const ScupperPlace& s : c.deck.scuppers) {
      check_place(c, crossing, s);
      check_headroom(c, crossing, s);
    }
  for (const SupportData& support : c.project.bridge.supports)
    for (const ScupperPlace& s : c.deck.scuppers) check_top(c, support, s);
}

}  // namespace deckquire
