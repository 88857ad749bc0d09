// The steel as it was measured against what the panels allow. The design stays as it is: who must change
// something is told by how much.
#include "bridge/measured.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/parts.h"
#include "deck/site.h"
#include "deck/steel_room.h"

namespace deckquire {
namespace {

constexpr double exact = 1e-4;  // mm

class Measured {
 public:
  Measured(const FitCheck& c, const MeasuredSteel& m)
      : c_(c),
        m_(m),
        name_(fmt::format("{} {}", measured_word(m.of), measured_name(c.bridge, m))),
        kept_(setting_tolerance(c.project)) {}

  void check() const {
    switch (m_.of) {
      case MeasuredThing::splice:
        return splice();
      case MeasuredThing::girder:
        girder_place();
        return girder_level();
      case MeasuredThing::support:
        return support();
      case MeasuredThing::obstruction:
        return obstruction();
    }
  }

 private:
  const FitCheck& c_;
  const MeasuredSteel& m_;
  std::string name_;
  double kept_;

  std::size_t index() const { return static_cast<std::size_t>(m_.index); }
  std::string length(double v) const { return c_.length(std::abs(v) < exact ? 0 : v); }
  std::string station(Length s) const { return print_station(s, c_.project.units); }
  std::string when() const { return fmt::format("as measured on {}", m_.date); }
  void error(const char* code, std::string what, std::string remedy) const {
    c_.findings.error(m_.place, code, std::move(what), std::move(remedy));
  }
  void fits(std::string what, std::string remedy) const {
    c_.findings.note(m_.place, "measured-fits", std::move(what), std::move(remedy));
  }
  std::string change_first(const char* element) const {
    return fmt::format("put what was measured into <{}> and issue the panels anew before they are cast, "
                       "or have the steel put right",
                       element);
  }

  // ---- splices

  /// The bridge with the splice as it was measured.
  Bridge moved() const {
    Bridge b = c_.bridge;
    Splice& s = b.splices[index()];
    const double at = m_.station.value_or(s.station).in_mm();
    if (m_.offset) {
      Girder& g = b.girders[static_cast<std::size_t>(s.girder)];
      g.offset = g.offset + *m_.offset - mm(girder_offset(b, g, at));
    }
    s.station = mm(at);
    s.length = m_.length.value_or(s.length);
    s.width = m_.width.value_or(s.width);
    // Measured from the flange; the design says it from the plate.
    if (m_.projection) s.projection = *m_.projection - s.plate;
    s.plan = splice_reach(b, s);
    return b;
  }

  std::string rooms(const RecessRoom& r) const {
    std::vector<std::string> out;
    const auto say = [&](const std::optional<double>& room, const char* where) {
      if (room) out.push_back(length(*room) + " " + where);
    };
    say(r.behind, "behind"), say(r.ahead, "ahead"), say(r.left, "left"), say(r.right, "right");
    say(r.above, "above");
    return join(out, ", ");
  }

  void splice() const {
    const Bridge b = moved();
    const Splice& s = b.splices[index()];
    const auto all = recess_rooms(c_.project, b, c_.deck, s);
    const double pad = c_.data().pads ? c_.data().pads->thickness.in_mm() : 0;
    const double under_soffit = pad - (s.plate + s.projection).in_mm();
    const auto short_of = [&](const std::string& what, double room) {
      error("measured-splice", what,
            fmt::format("keep {}, the setting tolerance: {} short; {}", length(kept_),
                        length(kept_ - room), change_first("splice")));
    };
    if (under_soffit + exact < kept_)
      for (const Panel& p : c_.deck.panels)
        if (stands_under(b, p, s) && std::none_of(all.begin(), all.end(), [&](const RecessRoom& r) {
              return r.panel == &p;
            }))
          return short_of(fmt::format("{} {} reaches under panel {}, which has no recess for it", name_,
                                      when(), p.position),
                          under_soffit);
    for (const RecessRoom& r : all)
      if (const auto l = r.least(); l.room + exact < kept_)
        return short_of(l.room < -exact
                            ? fmt::format("{} {} stands {} beyond its recess of panel {}, {}", name_, when(),
                                          length(-l.room), r.panel->position, l.side)
                            : fmt::format("{} {} leaves {} {} in its recess of panel {}", name_, when(),
                                          length(l.room), l.side, r.panel->position),
                        l.room);
    for (const RecessRoom& r : all)
      fits(fmt::format("{} {} fits panel {}: {}", name_, when(), r.panel->position, rooms(r)),
           fmt::format("{} is kept", length(kept_)));
    if (all.empty())
      fits(fmt::format("{} {} stays {} below the soffit", name_, when(), length(under_soffit)),
           fmt::format("{} is kept", length(kept_)));
  }

  // ---- girders

  std::string shift_of(const char* below, const char* above, double by) const {
    if (std::abs(by) < 0.05) return "in its place";
    return length(std::abs(by)) + " " + (by > 0 ? above : below);
  }

  void girder_place() const {
    if (!m_.offset && !m_.width) return;
    const Girder& g = c_.bridge.girders[index()];
    const double designed = girder_offset(c_.bridge, g, m_.station->in_mm());
    const double offset = m_.offset ? m_.offset->in_mm() : designed;
    const double flange = m_.width.value_or(g.flange).in_mm();
    const auto room =
        flange_room(c_.project, c_.bridge, c_.deck, g, *m_.station, offset, flange);
    const std::string where = fmt::format("{} at {}, {}, lies {}", name_, station(*m_.station), when(),
                                          shift_of("to the right", "to the left", offset - designed));
    if (!room)
      return error("measured-girder", fmt::format("{}: no panel lies over it there", where),
                   "correct the station (at)");
    const bool left = room->left < room->right;
    const double least = std::min(room->left, room->right);
    const std::string& end = left ? room->left_end : room->right_end;
    if (least < -exact)
      return error("measured-girder",
                   fmt::format("{}: {} is {} short", where, end, length(-least)),
                   change_first("girder"));
    std::string clips = "the figures are what is left";
    if (room->clip_least)
      clips = fmt::format("clips then stand {} to {} from the flange edge, {} by design: whether they "
                          "hold is not checked, their reach is not stated",
                          length(*room->clip_least), length(*room->clip_most),
                          length(c_.data().hold_downs->gauge.in_mm()));
    fits(fmt::format("{} and fits: {} more to the left ({}), {} more to the right ({})", where,
                     length(room->left), room->left_end, length(room->right), room->right_end),
         clips);
  }

  /// What the project allows of levels; nothing where it does not say.
  std::optional<double> level_tolerance() const {
    for (const ToleranceData& t : c_.project.conditions.tolerances)
      if (t.of == "level") return t.value.in_mm();
    return std::nullopt;
  }

  void girder_level() const {
    if (!m_.level) return;
    const Length asked = steel_top(c_.project, c_.bridge, c_.deck, *m_.station);
    const double high = (*m_.level - asked).in_mm();
    const std::string where =
        fmt::format("the top of {} at {}, {}, is {}", name_, station(*m_.station), when(),
                    shift_of("low", "high", high));
    const bool padded = c_.data().pads.has_value();
    const double pad = padded ? c_.data().pads->thickness.in_mm() : 0;
    const double allowed = level_tolerance().value_or(0);
    if (std::abs(high) <= allowed + exact || std::abs(high) < 0.05)
      return fits(where, "no shim");
    if (high < 0)
      return fits(where, fmt::format("a shim of {} {} brings the panels to their level", length(-high),
                                     padded ? "under the pad" : "on the flange"));
    if (padded && high + exact < pad)
      return fits(where, fmt::format("{} is left of the pad of {}: a thinner pad there, or all other "
                                     "girders shimmed; the engineer decides",
                                     length(pad - high), length(pad)));
    if (!padded && !level_tolerance())
      return c_.findings.warning(
          m_.place, "measured-level", where + ", and the panels lie on it without a pad",
          "whether they may is not checked: needs a tolerance of level, or pads; else all other girders are "
          "shimmed by as much");
    error("measured-level",
          padded ? fmt::format("{}: the pad is {} thick, so the panel would be lifted by {}", where,
                               length(pad), length(high - pad))
                 : fmt::format("{}: the panels lie on it without a pad and would be lifted", where),
          "it cannot be had with shims: have the steel lowered, or raise the line of the deck");
  }

  // ---- supports

  void support() const {
    if (!m_.station) return;
    const Support& s = c_.bridge.supports[index()];
    const double by = (*m_.station - s.station).in_mm();
    const std::string where = fmt::format("{} {} lies {}", name_, when(), shift_of("back", "ahead", by));
    const Joint* joint = outer_joint_at(c_.bridge, c_.deck, s);
    if (joint == nullptr)
      return fits(where, "no end gap of the deck depends on it: the panels lie on the girders");
    const bool first = joint == &c_.deck.joints.front();
    const double left = joint->gap.in_mm() + (first ? -by : by);
    const TemperatureData& t = c_.project.conditions.temperature;
    const bool stated = t.place.line > 0;
    const double least = stated ? t.least_gap.in_mm() : 0;
    const std::string gap =
        left < -exact ? fmt::format("{}: at joint {} it would stand {} in the deck", where, joint->name,
                                    length(-left))
                      : fmt::format("{}: the end gap at joint {} becomes {} instead of {}", where,
                                    joint->name, length(left), length(joint->gap.in_mm()));
    if (left + exact < least || left < exact)
      return error("measured-support", gap,
                   fmt::format("{} short of {}; {}", length(least - left),
                               stated ? fmt::format("{}, the least gap", length(least)) : "touching",
                               "give another end gap, a shorter closing panel, or have the abutment cut"));
    fits(gap, stated ? fmt::format("{} is left above the least gap of {}, before heat closes it further",
                                   length(left - least), length(least))
                     : "whether it is enough is not checked: needs the least gap (temperature)");
  }

  // ---- obstructions

  void obstruction() const {
    ObstructionData d = c_.project.bridge.obstructions[index()];
    d.station = m_.station.value_or(d.station);
    d.offset = m_.offset.value_or(d.offset);
    if (d.diameter && m_.diameter) d.diameter = m_.diameter;
    if (d.length && m_.length) d.length = m_.length;
    if (d.width && m_.width) d.width = m_.width;
    const ObstructionRoom room =
        obstruction_room(c_.bridge, c_.deck, lay_obstruction(c_.bridge, d));
    if (!room.panel) return;
    const double asked = d.clearance.in_mm(), left = std::max(0.0, room.distance);
    const std::string where =
        left < exact
            ? fmt::format("{} {} stands in panel {}", name_, when(), room.panel->position)
            : fmt::format("{} {} is {} from panel {}", name_, when(), length(left),
                          room.panel->position);
    if (left + exact < asked)
      return error("measured-obstruction", where,
                   fmt::format("its clearance is {}: {} short; {}", length(asked), length(asked - left),
                               change_first("obstruction")));
    fits(where, fmt::format("its clearance is {}: {} is left", length(asked), length(left - asked)));
  }
};

}  // namespace

void check_measured(const FitCheck& c) {
  Findings said;  // what cannot be read is said with the bridge
  for (const MeasuredSteel& m : measured_steel(c.project, c.bridge, said)) Measured(c, m).check();
}

}  // namespace deckquire
