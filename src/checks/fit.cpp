#include "checks/fit.h"

#include <fmt/format.h>

#include "checks/parts.h"

namespace deckquire {
namespace {

template <class Data>
const Data* named(const std::vector<Data>& all, const std::string& name) {
  for (const Data& d : all)
    if (d.name == name) return &d;
  return nullptr;
}

const RowJointData* row_joint_of(const FitCheck& c, const Thing& t) {
  const Panel& p = c.panel(t.panel);
  const double edge = t.side == Side::left ? p.shape.left_back : p.shape.right_back;
  const BridgePoint at = p.frame.bridge(c.bridge.alignment, {p.shape.back_x(edge), edge});
  const RowJointData* nearest = nullptr;
  for (const RowJointData& r : c.data().row_joints)
    if (!nearest || std::abs(r.offset.in_mm() - at.y) < std::abs(nearest->offset.in_mm() - at.y))
      nearest = &r;
  return nearest;
}

const char* side_word(Side s) {
  return s == Side::left ? "left" : "right";
}

/// The last point of the width law that is not ahead of the panel.
Place edge_place(const FitCheck& c, const Panel& p) {
  Place found = c.data().place;
  for (const EdgeData& e : c.data().edges) {
    if (e.station > p.start && found.line != c.data().place.line) break;
    found = e.place;
  }
  return found;
}

}  // namespace

std::string FitCheck::name_of(const Feature& f) {
  const std::string kind = feature_name(f.kind);
  return f.source.empty() ? kind : fmt::format("{} {}", kind, f.source);
}

std::string FitCheck::name_of(const Thing& t) const {
  switch (t.part) {
    case Part::outlet:
      return "the outlet of " + name_of(*t.feature);
    case Part::opening:
      return "the opening for " + t.feature->source;
    case Part::splice:
      return "splice " + bridge.splices[static_cast<std::size_t>(t.splice)].name;
    case Part::flange:
      return "the flange of girder " + bridge.girders[static_cast<std::size_t>(t.girder)].name;
    case Part::drip:
      return "the drip groove";
    case Part::edge:
      return fmt::format("the {} edge", side_word(t.side));
    case Part::joint:
      break;
    default:
      return name_of(*t.feature);
  }
  if (t.row_joint) {
    const RowJointData* r = row_joint_of(*this, t);
    return r ? "row joint " + r->name : "the row joint";
  }
  const Panel& p = panel(t.panel);
  return "joint " +
         deck.joints[static_cast<std::size_t>(t.ahead ? p.joint_ahead : p.joint_back)].name;
}

Place FitCheck::place_of(const Feature& f) const {
  return f.place.line > 0 ? f.place : data().place;
}

Place FitCheck::place_of(const Thing& t) const {
  if (t.feature) return place_of(*t.feature);
  switch (t.part) {
    case Part::splice:
      return bridge.splices[static_cast<std::size_t>(t.splice)].place;
    case Part::flange: {
      const auto& name = bridge.girders[static_cast<std::size_t>(t.girder)].name;
      const GirderData* g = named(project.bridge.girders, name);
      return g ? g->place : project.bridge.place;
    }
    case Part::drip:
      return data().section.place;
    case Part::edge:
      return edge_place(*this, panel(t.panel));
    default:
      break;
  }
  const RowJointData* r = t.row_joint ? row_joint_of(*this, t) : nullptr;
  return r ? r->place : data().joints.place;
}

std::string FitCheck::also_at(const Place& other, const Place& finding) {
  if (other.line == 0 || (other.line == finding.line && other.file == finding.file)) return "";
  return fmt::format(" ({}:{})", other.file, other.line);
}

std::string FitCheck::position(BridgePoint p) const {
  const std::string station = print_station(mm(p.x), project.units);
  if (std::abs(p.y) < 0.5) return station + ", on the alignment";
  return fmt::format("{}, {} {}", station, length(std::round(std::abs(p.y))),
                     p.y > 0 ? "left" : "right");
}

std::string and_more(int more) {
  return more > 0 ? fmt::format(", and {} more like it", more) : "";
}

namespace {

/// Common practice: nobody checks their own drawing.
void check_signatures(const FitCheck& c) {
  if (c.project.revisions.empty()) return;
  const Revision& r = c.project.revisions.back();
  if (r.by != r.checked || r.by.empty() || r.by == "not stated") return;
  c.findings.warning(r.place, "self-checked",
                     fmt::format("revision {} is drawn and checked by {}", r.id, r.by),
                     "another person checks the drawings: name them in checked");
}

}  // namespace

void check_fit(const Project& project, const Bridge& bridge, const Deck& deck, Findings& findings) {
  if (deck.panels.empty()) return;  // the division has said why
  const FitCheck c{project, bridge, deck, findings, Plan(bridge)};
  check_clearances(c);
  check_splices(c);
  check_obstructions(c);
  check_bearing(c);
  check_section(c);
  check_plates(c);
  check_handling(c);
  check_crossings(c);
  check_measured(c);
  check_placement(c);
  check_signatures(c);
}

}  // namespace deckquire
