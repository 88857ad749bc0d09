#include "bridge/alignment.h"

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

constexpr double beyond = 50'000;  // mm of line that either end is carried on by

/// A stretch of the line as the file tells it; tangents are what lies between.
struct Stretch {
  double from = 0, to = 0;
  double curvature = 0;
  bool transition = false;
};

std::vector<Stretch> told(const AlignmentData& data) {
  std::vector<Stretch> out;
  for (const PlanCurveData& c : data.curves)
    out.push_back({c.from.in_mm(), c.to.in_mm(), (c.left ? 1 : -1) / c.radius.in_mm(), false});
  for (const TransitionData& t : data.transitions)
    out.push_back({t.from.in_mm(), t.to.in_mm(), 0, true});
  std::stable_sort(out.begin(), out.end(),
                   [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  return out;
}

/// All of it from end to end, tangents too. What lies outside or over its neighbour is cut off: the
/// contradictions report it.
std::vector<Stretch> whole(const AlignmentData& data) {
  const double end = data.to.in_mm();
  double at = data.from.in_mm();
  std::vector<Stretch> out;
  for (Stretch s : told(data)) {
    s.from = std::max(s.from, at);
    s.to = std::min(s.to, end);
    if (s.to <= s.from) continue;
    if (s.from > at) out.push_back({at, s.from, 0, false});
    out.push_back(s);
    at = s.to;
  }
  if (at < end || out.empty()) out.push_back({at, end, 0, false});
  return out;
}

/// Curvature at the end of `s` that touches `other`.
double at_joint(const Stretch& s, const Stretch* other) {
  if (!s.transition) return s.curvature;
  return other && !other->transition ? other->curvature : 0;
}

PlanElement following(const PlanElement& e) {
  PlanElement next;
  next.from = e.from + e.length;
  next.start = point_along(e, e.length);
  next.heading = heading_along(e, e.length);
  return next;
}

std::vector<PlanElement> chain(const std::vector<Stretch>& stretches, double heading) {
  std::vector<PlanElement> out;
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const Stretch& s = stretches[i];
    PlanElement e = out.empty() ? PlanElement{} : following(out.back());
    if (out.empty()) e.heading = heading;
    e.from = s.from;
    e.length = s.to - s.from;
    e.curvature_from = at_joint(s, i > 0 ? &stretches[i - 1] : nullptr);
    e.curvature_to = at_joint(s, i + 1 < stretches.size() ? &stretches[i + 1] : nullptr);
    if (std::max(std::abs(e.curvature_from), std::abs(e.curvature_to)) * e.length > most_turn)
      e.curvature_from = e.curvature_to = 0;
    out.push_back(e);
  }
  return out;
}

PlanElement before(const PlanElement& first) {
  PlanElement e;
  e.from = first.from - beyond;
  e.length = beyond;
  e.curvature_from = e.curvature_to = first.curvature_from;
  PlanElement back = first;
  back.curvature_to = back.curvature_from;
  e.start = point_along(back, -beyond);
  e.heading = heading_along(back, -beyond);
  return e;
}

PlanElement after(const PlanElement& last) {
  PlanElement e = following(last);
  e.length = beyond;
  e.curvature_from = e.curvature_to = last.curvature_to;
  return e;
}

}  // namespace

Alignment::Alignment(const AlignmentData& data) : data_(data) {
  plan_ = chain(whole(data), pi / 2 - data.bearing.in_si());
  straight_ = std::all_of(plan_.begin(), plan_.end(), [](const auto& e) { return e.tangent(); });
  plan_.insert(plan_.begin(), before(plan_.front()));
  plan_.push_back(after(plan_.back()));
}

std::vector<PlanElement> Alignment::elements() const {
  if (plan_.empty()) return {};
  return {plan_.begin() + 1, plan_.end() - 1};
}

const PlanElement& Alignment::element_at(double station) const {
  const auto ahead = std::upper_bound(plan_.begin(), plan_.end(), station,
                                      [](double s, const PlanElement& e) { return s < e.from; });
  return ahead == plan_.begin() ? plan_.front() : *(ahead - 1);
}

SurveyPoint Alignment::survey(Length station, Length offset) const {
  if (!straight_) {
    const GroundPoint p = ground(station.in_mm(), offset.in_mm());
    return {data_.easting.in_m() + p.x / 1000, data_.northing.in_m() + p.y / 1000,
            level(station).in_m()};
  }
  const double s = std::sin(data_.bearing.in_si()), c = std::cos(data_.bearing.in_si());
  const double along = (station - data_.from).in_m(), left = offset.in_m();
  return {data_.easting.in_m() + along * s - left * c, data_.northing.in_m() + along * c + left * s,
          level(station).in_m()};
}

GroundPoint Alignment::ground(double station, double offset) const {
  if (!straight_) {
    const PlanElement& e = element_at(station);
    const double s = station - e.from;
    return beside(point_along(e, s), heading_along(e, s), offset);
  }
  const double s = std::sin(data_.bearing.in_si()), c = std::cos(data_.bearing.in_si());
  const double along = station - data_.from.in_mm();
  return {along * s - offset * c, along * c + offset * s};
}

double Alignment::heading(double station) const {
  if (straight_) return pi / 2 - data_.bearing.in_si();
  const PlanElement& e = element_at(station);
  return heading_along(e, station - e.from);
}

double Alignment::curvature(double station) const {
  if (straight_) return 0;
  const PlanElement& e = element_at(station);
  return curvature_along(e, station - e.from);
}

bool Alignment::straight(Length from, Length to) const {
  if (straight_) return true;
  const double a = from.in_mm(), b = to.in_mm();
  auto e = std::partition_point(plan_.begin(), plan_.end(),
                                [&](const PlanElement& p) { return p.from + p.length <= a; });
  for (; e != plan_.end() && e->from < b; ++e)
    if (!e->tangent()) return false;
  return true;
}

std::vector<double> stations_along(const Alignment& alignment, Length from, Length to,
                                   Beside line) {
  std::vector<double> out{from.in_mm()};
  for (const PlanElement& e : alignment.elements()) {
    const double a = std::max(from.in_mm(), e.from), b = std::min(to.in_mm(), e.from + e.length);
    if (a >= b) continue;
    const double k = std::max(std::abs(e.curvature_from), std::abs(e.curvature_to));
    // A chord over the stations l of an arc is off by l^2 k (1 + k offset) / 8 at most.
    const double bow = (b - a) * (b - a) * k * (1 + k * std::abs(line.offset)) / 8;
    const int parts = 1 + static_cast<int>(std::sqrt(bow / line.off_by));
    for (int i = 0; i <= parts; ++i) {
      const double s = i == parts ? b : a + (b - a) * i / parts;
      if (s > out.back() && s < to.in_mm()) out.push_back(s);
    }
  }
  out.push_back(to.in_mm());
  return out;
}

std::optional<BridgePoint> Alignment::locate(GroundPoint p, double near_station) const {
  std::optional<double> found;
  const auto farther = [&](double station) {
    return found && std::abs(station - near_station) >= std::abs(*found - near_station);
  };
  const auto look = [&](const PlanElement& e) {
    const auto s = foot_along(e, p, near_station - e.from);
    if (s && !farther(e.from + *s)) found = e.from + *s;
  };
  // From the element at the station outwards, until what is left is farther than what was found.
  auto back = std::upper_bound(plan_.begin(), plan_.end(), near_station,
                               [](double s, const PlanElement& e) { return s < e.from; });
  auto ahead = back;
  while (back != plan_.begin() && !farther((back - 1)->from + (back - 1)->length)) look(*--back);
  for (; ahead != plan_.end() && !farther(ahead->from); ++ahead) look(*ahead);
  if (!found) return std::nullopt;
  const GroundPoint d = p - ground(*found, 0);
  const double h = heading(*found);
  return BridgePoint{*found, d.y * std::cos(h) - d.x * std::sin(h)};
}

}  // namespace deckquire
