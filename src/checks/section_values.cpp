#include "checks/section_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

std::optional<double> result_of(const workings::Working& w, const char* symbol) {
  for (const workings::Result& r : w.results)
    if (r.symbol == symbol) return r.si;
  return std::nullopt;
}

void add_marks(std::vector<int>& to, const std::vector<int>& marks) {
  for (int m : marks)
    if (const auto at = std::lower_bound(to.begin(), to.end(), m); at == to.end() || *at != m)
      to.insert(at, m);
}

}  // namespace

SandwichStrips::SandwichStrips(const CalculationJob& job, Topic topic) : job_(job), topic_(topic) {
  const SectionData& section = job.project.deck.section;
  skin_ = std::min(section.top_skin, section.bottom_skin).in_mm();
  skins_ = (section.top_skin + section.bottom_skin).in_mm();
  double flange = 1e300;
  for (const Girder& g : job.bridge.girders) flange = std::min(flange, g.flange.in_mm());
  bearing_from_ = "the narrowest flange";
  for (const RowJointData& r : job.project.deck.row_joints) {
    const double half = (flange - r.gap.in_mm()) / 2;
    if (half < bearing_ || bearing_ == 0) bearing_ = half;
    bearing_from_ = "half of the narrowest flange, at a joint between rows";
  }
  if (bearing_ == 0) bearing_ = flange;
  if (job.project.deck.pads && job.project.deck.pads->width.in_mm() < bearing_) {
    bearing_ = job.project.deck.pads->width.in_mm();
    bearing_from_ = "the bearing pad";
  }
}

std::pair<double, double> SandwichStrips::stiffness(double depth) const {
  const PanelStrengthData& s = *job_.project.deck.strength;
  const double t = skin_ / 1e3, c = std::max(1e-6, (depth - skins_) / 1e3), d = c + t;
  return {s.face_modulus.in_si() * (t * d * d / 2 + t * t * t / 6),
          s.core_shear_modulus.in_si() * d * d / c};
}

std::pair<double, double> SandwichStrips::stress(double depth) const {
  const double t = skin_ / 1e3, c = std::max(1e-6, (depth - skins_) / 1e3), d = c + t;
  return {(c / 2 + t) / (t * d * d / 2 + t * t * t / 6), 1 / d};
}

std::optional<SandwichStrip> SandwichStrips::of(double width, double depth,
                                                const std::vector<int>& marks) {
  const std::pair key{static_cast<std::int64_t>(std::round(width * 1e3)),
                      static_cast<std::int64_t>(std::round(depth * 1e3))};
  if (const auto found = known_.find(key); found != known_.end()) {
    if (found->second)
      for (std::size_t i : found->second->bundle) add_marks(job_.out.list[i].marks, marks);
    return found->second;
  }
  auto& out = known_[key];
  const SectionData& section = job_.project.deck.section;
  const PanelStrengthData& s = *job_.project.deck.strength;
  if (depth <= skins_) return std::nullopt;
  Inputs in;
  in.computed("b", width / 1e3, "strip of the calculation");
  in.project("t", skin_ / 1e3, section.place,
             section.top_skin == section.bottom_skin ? "" : "the thinner skin, on the safe side");
  in.computed("c", (depth - skins_) / 1e3, "least depth along the strip, less both skins");
  Inputs strength = in;
  in.project("E", s.face_modulus.in_si(), s.place, s.source)
      .project("G", s.core_shear_modulus.in_si(), s.place, s.source);
  if (s.face_strength) strength.project("f", s.face_strength->in_si(), s.place, s.source);
  if (s.core_shear_strength)
    strength.project("tau", s.core_shear_strength->in_si(), s.place, s.source);
  if (s.bearing_strength) {
    strength.project("f_p", s.bearing_strength->in_si(), s.place, s.source);
    strength.computed("l_b", bearing_ / 1e3, bearing_from_);
  }
  const Subject subject{fmt::format("strip of {} mm, {} mm deep", shortest_decimal(width, 0),
                                    shortest_decimal(depth, 1)),
                        marks, s.place};
  const auto stiffness = add_working(job_, topic_, "sandwich-stiffness", in, subject);
  if (!stiffness) return std::nullopt;
  SandwichStrip made;
  made.bundle.push_back(*stiffness);
  made.D = job_.out.list[*stiffness].working.result("D");
  made.S = job_.out.list[*stiffness].working.result("S");
  if (const auto i = add_working(job_, topic_, "sandwich-strength", strength, subject)) {
    const workings::Working& w = job_.out.list[*i].working;
    made.bundle.push_back(*i);
    made.M_R = result_of(w, "M_R");
    made.V_R = result_of(w, "V_R");
    made.R_R = result_of(w, "R_R");
  }
  out = made;
  return out;
}

}  // namespace deckquire
