#include "deck/gutter_line.h"

#include <algorithm>
#include <cmath>

#include "deck/rail_line.h"
#include "deck/site.h"

namespace deckquire {
namespace {

constexpr Length little = Length::from_nanometres(1);

double mixed(double a, double b, double share) {
  return a + (b - a) * share;
}

/// Ends of plan elements, corners of the edges, and what the long profile has, inside the ends.
std::vector<Length> corners(const Bridge& bridge, Length from, Length to) {
  std::vector<Length> out = bridge.edges.breaks();
  for (const PlanElement& e : bridge.alignment.elements()) {
    out.push_back(mm(e.from));
    out.push_back(mm(e.from + e.length));
  }
  for (const GradePointData& g : bridge.alignment.grades()) out.push_back(g.station);
  for (const VerticalCurve& c : bridge.alignment.vertical_curves()) {
    out.push_back(c.begin);
    out.push_back(c.end);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  std::erase_if(out, [&](Length s) { return s <= from || s >= to; });
  return out;
}

}  // namespace

bool has_gutter(const SectionData& section, Side side) {
  return section.fall != Fall::none && section.slope > 0 && drains_to(section, side) &&
         on_side(section.curb.sides, side);
}

GutterLine::GutterLine(const Project& project, const Bridge& bridge, Side side, Length from,
                       Length to)
    : alignment_(bridge.alignment), side_(side) {
  const SectionData& section = project.deck.section;
  const Side other = side == Side::left ? Side::right : Side::left;
  const bool crown = section.fall == Fall::crown;
  fall_ = section.slope;
  curb_ = on_side(section.curb.sides, side) ? section.curb.width.in_m() : 0;
  far_curb_ = !crown && on_side(section.curb.sides, other) ? section.curb.width.in_m() : 0;
  std::vector<Length> ends = corners(bridge, from, to);
  for (Length s : ends) breaks_.push_back(s.in_m());
  ends.insert(ends.begin(), from);
  ends.push_back(to);
  double area = 0;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const Length a = ends[i], b = ends[i + 1];
    Piece p;
    p.from = a.in_m(), p.to = b.in_m();
    p.edge_from = edge_offset(bridge, side, a).in_m();
    p.edge_to = edge_offset(bridge, side, b, false).in_m();
    p.high_from = crown ? section.high_line.in_m() : edge_offset(bridge, other, a).in_m();
    p.high_to = crown ? section.high_line.in_m() : edge_offset(bridge, other, b, false).in_m();
    p.bend_from = alignment_.curvature(a.in_mm()) * 1e3;
    p.bend_to = alignment_.curvature((b - little).in_mm()) * 1e3;
    p.area = area;
    area += partial(p, p.to);
    pieces_.push_back(p);
  }
}

const GutterLine::Piece& GutterLine::piece(double station, bool ahead) const {
  const auto next = std::partition_point(pieces_.begin(), pieces_.end(), [&](const Piece& p) {
    return ahead ? p.to <= station : p.to < station;
  });
  return next == pieces_.end() ? pieces_.back() : *next;
}

double GutterLine::share(const Piece& p, double station) {
  return std::clamp((station - p.from) / (p.to - p.from), 0.0, 1.0);
}

/// Area per length of station: the strip between edge and high line, longer outside a bend.
double GutterLine::density(const Piece& p, double station) const {
  const double t = share(p, station);
  const double edge = mixed(p.edge_from, p.edge_to, t), high = mixed(p.high_from, p.high_to, t);
  const double bend = mixed(p.bend_from, p.bend_to, t);
  return std::max(0.0, out() * (edge - high - bend * (edge * edge - high * high) / 2));
}

/// Simpson's rule: exact for the cubic that the density is at most.
double GutterLine::partial(const Piece& p, double station) const {
  const double middle = (p.from + station) / 2;
  return (station - p.from) / 6 *
         (density(p, p.from) + 4 * density(p, middle) + density(p, station));
}

double GutterLine::area(double station) const {
  const Piece& p = piece(station, false);
  return p.area + partial(p, station);
}

double GutterLine::width(double station, bool ahead) const {
  const Piece& p = piece(station, ahead);
  const double t = share(p, station);
  return std::max(0.0,
                  out() * (mixed(p.edge_from, p.edge_to, t) - mixed(p.high_from, p.high_to, t)));
}

double GutterLine::room(double station, bool ahead) const {
  return std::max(0.0, width(station, ahead) - curb_ - far_curb_);
}

double GutterLine::level(double station) const {
  return alignment_.level(metres(station)).in_m() - fall_ * (width(station) - curb_);
}

double GutterLine::stretch(double station, bool ahead) const {
  const Piece& p = piece(station, ahead);
  const double t = share(p, station);
  const double foot = mixed(p.edge_from, p.edge_to, t) - out() * curb_;
  const double turn = (p.edge_to - p.edge_from) / (p.to - p.from);
  return std::hypot(1 - mixed(p.bend_from, p.bend_to, t) * foot, turn);
}

double GutterLine::slope(double station, bool ahead) const {
  const Piece& p = piece(station, ahead);
  const double widening =
      out() * (p.edge_to - p.edge_from - p.high_to + p.high_from) / (p.to - p.from);
  const double grade = alignment_.grade(ahead ? metres(station) : metres(station) - little);
  return (grade - fall_ * widening) / stretch(station, ahead);
}

bool is_level(const Alignment& a, const GutterLine& gutter) {
  std::vector<double> at = gutter.breaks();
  at.push_back(gutter.from());
  return std::all_of(at.begin(), at.end(),
                     [&](double s) { return std::abs(a.grade(metres(s))) < 1e-9; });
}

hydraulics::Ponding GutterWater::ponding(double Q) const {
  const hydraulics::Grate& g = *grate;
  return hydraulics::grate_in_sag(Q, Sx, g.W, g.L, *opening, blocked_in_sag, 1.66, g.gap);
}

std::optional<double> rain_intensity(const RainData& rain, double seconds) {
  constexpr double shortest = 300;
  std::vector<RainDuration> table = rain.durations;
  if (rain.intensity && (table.empty() || table.front().seconds > shortest))
    table.insert(table.begin(), {shortest, *rain.intensity, rain.place});
  if (table.empty() || table.front().seconds > shortest) return std::nullopt;
  const double t = std::max(seconds, shortest);
  if (t <= table.front().seconds) return table.front().intensity;
  for (std::size_t i = 1; i < table.size(); ++i) {
    const RainDuration &a = table[i - 1], &b = table[i];
    if (t <= b.seconds)
      return mixed(a.intensity, b.intensity, (t - a.seconds) / (b.seconds - a.seconds));
  }
  return table.back().intensity;
}

std::optional<GutterWater> gutter_water(const Project& project, double intensity) {
  const auto& rain = project.conditions.rain;
  const SectionData& section = project.deck.section;
  if (!rain || !rain->roughness || section.fall == Fall::none || section.slope <= 0)
    return std::nullopt;
  GutterWater w;
  w.rate = rain->runoff * intensity;
  w.n = *rain->roughness;
  w.Sx = section.slope;
  w.curb = section.curb.height.in_m();
  if (rain->spread) w.allowed = rain->spread->in_m();
  w.blocked_in_sag = rain->blocked_in_sag;
  const hydraulics::GrateType* type = hydraulics::find_grate(rain->grate);
  if (type && type->opening > 0) w.opening = type->opening;
  if (rain->opening) w.opening = rain->opening;
  if (!type || !project.deck.scuppers) return w;
  const ScuppersData& s = *project.deck.scuppers;
  hydraulics::Grate g{s.grate_width.in_m(), s.grate_length.in_m(), type};
  g.gap = s.inset.in_m();
  g.clogging = rain->clogging == ClogModel::none     ? hydraulics::Clogging::none
               : rain->clogging == ClogModel::length ? hydraulics::Clogging::length
                                                     : hydraulics::Clogging::flow;
  if (g.clogging != hydraulics::Clogging::none) g.blocked = rain->blocked;
  const double left = g.clogging == hydraulics::Clogging::length ? (1 - g.blocked) * g.L : g.L;
  if (left >= hydraulics::shortest_grate && left <= hydraulics::longest_grate) w.grate = g;
  return w;
}

}  // namespace deckquire
