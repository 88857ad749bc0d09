#include "deck/site.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <string_view>

#include "base/text.h"

namespace deckquire {

namespace {

using Law = std::function<double(Length)>;

/// Where an end face x = x0 + slope * y meets a line of the bridge whose offset follows `law`.
PanelPoint corner(const PanelSite& site, double x0, double slope, Length station, const Law& law) {
  double y = law(station);
  for (int i = 0; i < 40; ++i) {
    const BridgePoint b = site.on_bridge({x0 + slope * y, y});
    const double off = law(mm(b.x)) - b.y;
    y += off;
    if (std::abs(off) < 1e-7) break;
  }
  return {x0 + slope * y, y};
}

/// The station, or that of a step between it and the panel's own joint: the last one not ahead of
/// the back joint, the first one not behind the ahead joint.
Length past_steps(const std::vector<Length>& steps, const PanelSite& site, Length station,
                  bool at_ahead_face) {
  const auto next = std::partition_point(steps.begin(), steps.end(), [&](Length s) {
    return at_ahead_face ? s < site.end() : s <= site.start();
  });
  if (at_ahead_face) return next == steps.end() ? station : std::min(station, *next);
  return next == steps.begin() ? station : std::max(station, *(next - 1));
}

/// Signed offset of the side's edge. A step of the width at one of the panel's own joints counts
/// for the panel on its own side only, also where a skewed joint line leaves the step's station.
double edge_offset(const PanelSite& site, Side side, Length station, bool at_ahead_face) {
  const auto& limit = side == Side::left ? site.here().left_limit : site.here().right_limit;
  if (limit) return limit->in_mm();
  const DeckEdges& e = site.bridge.edges;
  Length at = station;
  if (site.back_slope != 0 || site.ahead_slope != 0)
    at = past_steps(e.steps(), site, station, at_ahead_face);
  const bool ahead = at_ahead_face ? at < site.end() : true;
  return sign(side) * (side == Side::left ? e.left(at, ahead) : e.right(at, ahead)).in_mm();
}

Chain edge_of(const PanelSite& site, Side side) {
  const PanelPoint back = corner(site, 0, site.back_slope, site.start(),
                                 [&](Length s) { return edge_offset(site, side, s, false); });
  const PanelPoint ahead = corner(site, site.length, site.ahead_slope, site.end(),
                                  [&](Length s) { return edge_offset(site, side, s, true); });
  const Length beyond = metres(50);
  const auto& breaks = site.bridge.edges.breaks();
  const auto first_break = std::partition_point(
      breaks.begin(), breaks.end(), [&](Length s) { return s <= site.start() - beyond; });
  Chain all{back};
  if (site.deck_edge(side))
    for (auto s = first_break; s != breaks.end() && *s < site.end() + beyond; ++s) {
      // A step at the joint ahead is not this panel's, though a skewed face reaches beyond it.
      const PanelPoint p = site.at(*s, mm(edge_offset(site, side, *s, *s >= site.end())));
      if (p.x > back.x + 1e-6 && p.x < ahead.x - 1e-6) all.push_back(p);
    }
  all.push_back(ahead);
  Chain c{all.front()};  // a break of the other side only is no corner here
  for (std::size_t i = 1; i + 1 < all.size(); ++i) {
    const PanelPoint a = all[i] - c.back(), b = all[i + 1] - all[i];
    // On a straight alignment exactly; on a curve every break of the law is kept.
    if (!site.frame.straight || std::abs(a.x * b.y - a.y * b.x) > 1e-9 * a.x * b.x)
      c.push_back(all[i]);
  }
  c.push_back(all.back());
  return c;
}

/// dx/dy of a joint's line in the panel frame.
double slope_of(const PanelSite& site, const Joint& joint) {
  const double turn = site.frame.straight ? 0
                                          : site.bridge.alignment.heading(joint.station.in_mm()) -
                                                site.frame.heading;
  if (turn == 0 && joint.skew == 0) return 0;
  return std::tan(joint.skew - turn);
}

const Joint& joint_of(const Division& d, int joint) {
  return d.joints[static_cast<std::size_t>(joint)];
}

}  // namespace

PanelSite::PanelSite(const Project& p, const Bridge& b, const Division& d, int n, Findings& f)
    : project(p),
      bridge(b),
      division(d),
      piece(n),
      findings(f),
      frame(placing_between(b.alignment, start(), end())),
      length(frame.straight ? (end() - start()).in_mm()
                            : frame.panel(b.alignment, {end().in_mm(), 0}).x),
      back_slope(slope_of(*this, joint_of(d, here().joint_back))),
      ahead_slope(slope_of(*this, joint_of(d, here().joint_ahead))),
      left(edge_of(*this, Side::left)),
      right(edge_of(*this, Side::right)) {}

bool on_side(CurbSides sides, Side side) {
  if (sides == CurbSides::both) return true;
  return sides == (side == Side::left ? CurbSides::left : CurbSides::right);
}

PanelPoint PanelSite::at(Length station, Length offset) const {
  if (frame.straight) return {(station - start()).in_mm(), offset.in_mm()};
  return frame.panel(bridge.alignment, {station.in_mm(), offset.in_mm()});
}

Length PanelSite::station(PanelPoint p) const {
  return frame.straight ? start() + mm(p.x) : mm(on_bridge(p).x);
}

double PanelSite::from_end(PanelPoint p) const {
  return std::min((p.x - back_x(p.y)) / std::hypot(1, back_slope),
                  (ahead_x(p.y) - p.x) / std::hypot(1, ahead_slope));
}

double PanelSite::edge(Side side, double panel_x) const {
  return height_at(edge(side), panel_x);
}

PanelPoint PanelSite::edge_point(Side side, Length station) const {
  PanelPoint p = at(station, mm(edge_offset(*this, side, station, false)));
  p.y = edge(side, p.x);  // on the straight edge, not on the curve beside it
  return p;
}

bool PanelSite::deck_edge(Side side) const {
  return !(side == Side::left ? here().left_limit : here().right_limit);
}

bool PanelSite::has_curb(Side side) const {
  const CurbData& c = deck().section.curb;
  return deck_edge(side) && on_side(c.sides, side) && c.width > Length() && c.height > Length();
}

double PanelSite::inner_foot(Side side, double panel_x) const {
  const double width = has_curb(side) ? deck().section.curb.width.in_mm() : 0;
  return edge(side, panel_x) - sign(side) * width;
}

std::optional<std::pair<PanelPoint, PanelPoint>> PanelSite::girder_line(const Girder& g) const {
  const Law law = [&](Length s) { return girder_offset(bridge, g, s.in_mm()); };
  PanelPoint a = corner(*this, 0, back_slope, start(), law);
  PanelPoint b = corner(*this, length, ahead_slope, end(), law);
  if (g.from >= station(b) || g.to <= station(a)) return std::nullopt;
  if (g.from > station(a)) a = at(g.from, mm(law(g.from)));
  if (g.to < station(b)) b = at(g.to, mm(law(g.to)));
  return std::pair{a, b};
}

std::string PanelSite::printed(Length a) const {
  return print_length(a, project.units);
}

std::string PanelSite::printed_station(Length a) const {
  return print_station(a, project.units);
}

double height_at(const Chain& c, double x) {
  std::size_t i = 1;
  while (i + 1 < c.size() && x > c[i].x) ++i;
  const PanelPoint &a = c[i - 1], &b = c[i];
  return a.x == b.x ? b.y : a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
}

Chain to_faces(const PanelShape& shape, const Chain& chain, double stop) {
  const double kb = shape.back_slope, ka = shape.ahead_slope;
  const double from = stop * std::hypot(1, kb), to = shape.length - stop * std::hypot(1, ka);
  Chain c = chain;
  const auto behind = [&](const PanelPoint& p) { return p.x < from + kb * p.y; };
  const auto beyond = [&](const PanelPoint& p) { return p.x > to + ka * p.y; };
  while (c.size() > 2 && behind(c[1])) c.erase(c.begin());
  while (c.size() > 2 && beyond(c[c.size() - 2])) c.pop_back();
  const auto meet = [](PanelPoint a, PanelPoint b, double x0, double k) {
    const PanelPoint d = b - a;
    return a + d * ((x0 + k * a.y - a.x) / (d.x - k * d.y));
  };
  const PanelPoint first = meet(c[0], c[1], from, kb);
  const PanelPoint last = meet(c[c.size() - 2], c.back(), to, ka);
  c.front() = first;
  c.back() = last;
  return c;
}

namespace {

/// Where the line of a joint lies at an offset, as a station.
Length line_station(const Joint& j, Length offset) {
  return j.skew == 0 ? j.station : j.station + offset * std::tan(j.skew);
}

}  // namespace

int owner(const Division& d, Length station, Length offset) {
  if (d.pieces.empty()) return -1;
  // The first bay whose ahead joint line is not behind the point.
  const auto ahead_joint = [&](int first) {
    return line_station(joint_of(d, d.pieces[static_cast<std::size_t>(first)].joint_ahead), offset);
  };
  const auto bay = std::partition_point(d.bays.begin(), d.bays.end() - 1,
                                        [&](int first) { return ahead_joint(first) < station; });
  const int next = bay + 1 == d.bays.end() ? static_cast<int>(d.pieces.size()) : *(bay + 1);
  int row = *bay;
  while (row + 1 < next) {  // rows from the left
    const auto& limit = d.pieces[static_cast<std::size_t>(row)].right_limit;
    const auto& below = d.pieces[static_cast<std::size_t>(row) + 1].left_limit;
    if (!limit || !below || offset * 2 >= *limit + *below) break;
    ++row;
  }
  return row;
}

int outermost(const Division& d, int bay, Side side) {
  const auto b = static_cast<std::size_t>(bay);
  if (side == Side::left) return d.bays[b];
  return b + 1 < d.bays.size() ? d.bays[b + 1] - 1 : static_cast<int>(d.pieces.size()) - 1;
}

const Joint& nearest_joint(const Division& division, Length station) {
  const auto& j = division.joints;
  auto next =
      std::partition_point(j.begin(), j.end(), [&](const Joint& a) { return a.station < station; });
  if (next == j.end()) return j.back();
  if (next == j.begin()) return *next;
  const Joint& before = *(next - 1);
  return station - before.station <= next->station - station ? before : *next;
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

double setting_tolerance(const Project& project) {
  for (const ToleranceData& t : project.conditions.tolerances)
    if (t.of == "setting") return t.value.in_mm();
  return project.units == UnitSystem::metric ? 5 : 25.4 * 3 / 16;
}

Length widest_flange(const Bridge& bridge) {
  Length most;
  for (const Girder& g : bridge.girders) most = std::max(most, g.flange);
  return most;
}

double recess_depth(const Splice& splice, const DeckData& deck) {
  const Length pad = deck.pads ? deck.pads->thickness : Length();
  return (splice.plate + splice.projection + deck.section.recess_over - pad).in_mm();
}

}  // namespace deckquire
