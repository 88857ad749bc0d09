#include "bridge/measured.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace deckquire {
namespace {

std::vector<std::string> names_of(const Bridge& bridge, MeasuredThing of) {
  std::vector<std::string> out;
  const auto add = [&](const auto& all) {
    for (const auto& one : all) out.push_back(one.name);
  };
  switch (of) {
    case MeasuredThing::splice:
      add(bridge.splices);
      break;
    case MeasuredThing::girder:
      add(bridge.girders);
      break;
    case MeasuredThing::support:
      add(bridge.supports);
      break;
    case MeasuredThing::obstruction:
      add(bridge.obstructions);
      break;
  }
  return out;
}

/// A splice goes by its own name, or by that of its line in the file, with its girder's before it or not.
bool is_named(const Bridge& bridge, const MeasuredData& m, std::size_t i, const std::string& name) {
  if (m.of != MeasuredThing::splice) return name == m.name;
  const Splice& s = bridge.splices[i];
  const std::string& girder = bridge.girders[static_cast<std::size_t>(s.girder)].name;
  return (m.girder.empty() || girder == m.girder) && (name == m.name || name == girder + "-" + m.name);
}

class Reader {
 public:
  Reader(const Project& project, const Bridge& bridge, Findings& findings)
      : project_(project), bridge_(bridge), findings_(findings) {}

  std::optional<int> index_of(const MeasuredData& m) const {
    const auto names = names_of(bridge_, m.of);
    std::vector<int> found;
    for (std::size_t i = 0; i < names.size(); ++i)
      if (is_named(bridge_, m, i, names[i])) found.push_back(static_cast<int>(i));
    if (found.size() == 1) return found.front();
    if (m.of == MeasuredThing::splice && !m.girder.empty() && !is_girder(m.girder)) {
      findings_.error(m.place, "measured-unknown", fmt::format("there is no girder \"{}\"", m.girder),
                      "the girders are " + join(names_of(bridge_, MeasuredThing::girder), ", "));
      return std::nullopt;
    }
    const std::string on = m.girder.empty() ? "" : fmt::format(" on girder \"{}\"", m.girder);
    if (found.empty()) {
      const std::string near = nearest_word(m.name, names);
      findings_.error(m.place, "measured-unknown",
                      fmt::format("there is no {} \"{}\"{}", measured_word(m.of), m.name, on),
                      !near.empty() ? fmt::format("did you mean \"{}\"?", near)
                      : names.empty() ? "nothing of the kind is in <bridge>"
                                      : "there are " + join(names, ", "));
    } else {
      findings_.error(m.place, "measured-which",
                      fmt::format("there are {} splices \"{}\"{}", found.size(), m.name, on),
                      m.girder.empty() ? "say on which girder (girder)" : "give each a name of its own");
    }
    return std::nullopt;
  }

  bool has_place(const MeasuredData& m) const {
    if (m.of != MeasuredThing::girder || m.station) return true;
    findings_.error(m.place, "measured-where",
                    fmt::format("girder {} was measured, but not said where", m.name),
                    "give the station (at)");
    return false;
  }

  /// Puts a later line over what is known.
  static void take(MeasuredSteel& s, const MeasuredData& m) {
    const auto over = [](std::optional<Length>& a, const std::optional<Length>& b) {
      if (b) a = b;
    };
    over(s.station, m.station);
    over(s.offset, m.offset);
    over(s.level, m.level);
    over(s.length, m.length);
    over(s.width, m.width);
    over(s.projection, m.projection);
    over(s.diameter, m.diameter);
    s.by = m.by, s.date = m.date, s.place = m.place;
  }

  std::vector<MeasuredSteel> read() const {
    struct Group {
      MeasuredSteel steel;
      std::vector<const MeasuredData*> lines;
    };
    std::vector<Group> groups;
    for (const MeasuredData& m : project_.bridge.measured) {
      const auto index = index_of(m);
      if (!index || !has_place(m)) continue;
      const auto at = m.of == MeasuredThing::girder ? m.station : std::nullopt;
      auto g = std::find_if(groups.begin(), groups.end(), [&](const Group& o) {
        return o.steel.of == m.of && o.steel.index == *index && (!at || o.steel.station == at);
      });
      if (g == groups.end()) {
        g = groups.insert(g, Group());
        g->steel.of = m.of, g->steel.index = *index, g->steel.station = at;
      }
      if (!said_before(g->lines, m)) g->lines.push_back(&m);
    }
    std::vector<MeasuredSteel> out;
    for (Group& g : groups) {
      std::stable_sort(g.lines.begin(), g.lines.end(),
                       [](const auto* a, const auto* b) { return a->date < b->date; });
      for (const MeasuredData* m : g.lines) take(g.steel, *m);
      out.push_back(std::move(g.steel));
    }
    return out;
  }

 private:
  bool is_girder(const std::string& name) const {
    return std::any_of(bridge_.girders.begin(), bridge_.girders.end(),
                       [&](const Girder& g) { return g.name == name; });
  }

  bool said_before(const std::vector<const MeasuredData*>& lines, const MeasuredData& m) const {
    for (const MeasuredData* other : lines) {
      if (other->date != m.date) continue;
      findings_.error(m.place, "measured-twice",
                      fmt::format("{} {} was measured twice on {} (see line {})", measured_word(m.of),
                                  m.name, m.date, other->place.line),
                      "keep one line a day: the last day counts");
      return true;
    }
    return false;
  }

  const Project& project_;
  const Bridge& bridge_;
  Findings& findings_;
};

}  // namespace

const char* measured_word(MeasuredThing of) {
  switch (of) {
    case MeasuredThing::splice:
      return "splice";
    case MeasuredThing::girder:
      return "girder";
    case MeasuredThing::support:
      return "support";
    case MeasuredThing::obstruction:
      return "obstruction";
  }
  return "";
}

const std::string& measured_name(const Bridge& bridge, const MeasuredSteel& m) {
  const auto i = static_cast<std::size_t>(m.index);
  switch (m.of) {
    case MeasuredThing::girder:
      return bridge.girders[i].name;
    case MeasuredThing::support:
      return bridge.supports[i].name;
    case MeasuredThing::obstruction:
      return bridge.obstructions[i].name;
    case MeasuredThing::splice:
      break;
  }
  return bridge.splices[i].name;
}

std::vector<MeasuredSteel> measured_steel(const Project& project, const Bridge& bridge,
                                          Findings& findings) {
  if (project.bridge.measured.empty()) return {};
  return Reader(project, bridge, findings).read();
}

}  // namespace deckquire
