#include "deck/site.h"

#include <charconv>
#include <string_view>

#include "base/text.h"

namespace deckquire {

bool on_side(CurbSides sides, Side side) {
  if (sides == CurbSides::both) return true;
  return sides == (side == Side::left ? CurbSides::left : CurbSides::right);
}

double PanelSite::edge(Side side, Length station) const {
  const bool ahead = station < end();  // at the ahead end the law behind it holds
  const DeckEdges& e = bridge.edges;
  return sign(side) *
         (side == Side::left ? e.left(station, ahead) : e.right(station, ahead)).in_mm();
}

bool PanelSite::has_curb(Side side) const {
  const CurbData& c = deck().section.curb;
  return on_side(c.sides, side) && c.width > Length() && c.height > Length();
}

double PanelSite::inner_foot(Side side, double panel_x) const {
  const double width = has_curb(side) ? deck().section.curb.width.in_mm() : 0;
  return edge(side, panel_x) - sign(side) * width;
}

std::string PanelSite::printed(Length a) const {
  return print_length(a, project.units);
}

std::string PanelSite::printed_station(Length a) const {
  return print_station(a, project.units);
}

int owner(const Division& division, Length station) {
  int best = -1;
  Length least;
  for (std::size_t i = 0; i < division.pieces.size(); ++i) {
    const auto& p = division.pieces[i];
    const Length off = station < p.start ? p.start - station
                       : station > p.end ? station - p.end
                                         : Length();
    if (best >= 0 && off >= least) continue;
    best = static_cast<int>(i);
    least = off;
  }
  return best;
}

const Joint& nearest_joint(const Division& division, Length station) {
  const Joint* best = &division.joints.front();
  for (const Joint& j : division.joints)
    if (abs(j.station - station) < abs(best->station - station)) best = &j;
  return *best;
}

double thread_diameter(const std::string& thread) {
  const auto number = [](std::string_view t) {
    double v = 0;
    std::from_chars(t.data(), t.data() + t.size(), v);
    return v;
  };
  const std::string_view t = thread;
  if (t.empty()) return 0;
  if (t[0] == 'M') return number(t.substr(1));
  // Inches: an optional whole number, then a fraction, then the pitch after a hyphen.
  const std::string_view size = t.substr(0, t.find('-'));
  const std::size_t bar = size.find('/');
  if (bar == std::string_view::npos) return number(size) * 25.4;
  const std::size_t space = size.find(' ');
  const std::size_t from = space == std::string_view::npos ? 0 : space + 1;
  const double whole = from == 0 ? 0 : number(size.substr(0, space));
  const double under = number(size.substr(bar + 1));
  return under == 0 ? 0 : (whole + number(size.substr(from, bar - from)) / under) * 25.4;
}

double recess_depth(const Splice& splice, const DeckData& deck) {
  const Length pad = deck.pads ? deck.pads->thickness : Length();
  return (splice.plate + splice.projection + deck.section.recess_over - pad).in_mm();
}

Box<BridgeFrame> recess_plan(const Splice& splice, const DeckData& deck) {
  return splice.plan.grown(deck.section.recess_around.in_mm());
}

}  // namespace deckquire
