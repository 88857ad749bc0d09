// Decks of letters: each panel a rectangle whose length tells its kind, each on its own 3 m of the
// bridge.
#pragma once

#include <doctest/doctest.h>

#include <map>
#include <string>

#include "deck/typing.h"
#include "history/identities.h"

namespace sample {

using namespace deckquire;
using namespace deckquire::history;

inline Project project(const std::string& prefix = "P", const std::string& serial = "{mark}-") {
  Project p;
  p.number = "0417";
  p.deck.marks.prefix = prefix;
  p.deck.marks.serial = serial;
  p.deck.marks.tolerance = mm(1);
  p.deck.spans.push_back({});
  p.revisions.push_back({"A", "2026-01-05", "", "", "for approval", "", {}});
  return p;
}

inline PanelShape shape(double length) {
  PanelShape s;
  s.length = length;
  s.outline = {{0, -1500}, {length, -1500}, {length, 1500}, {0, 1500}};
  s.left_back = s.left_ahead = 1500;
  s.right_back = s.right_ahead = -1500;
  s.depth = 150;
  s.surface = -1;
  s.fall = Fall::none;
  return s;
}

/// Shapes into panels as build_deck() does: typed, named and numbered anew.
inline Deck deck(const Project& p, const std::vector<PanelShape>& shapes,
                 const std::vector<Length>& starts) {
  Deck d;
  d.spans.push_back({"1", {}, {}, 0, static_cast<int>(shapes.size()), {}, {}});
  Typing typing(p.deck.marks.tolerance);
  std::map<std::string, int> serials;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    const auto placed = typing.place(shapes[i]);
    if (placed.first) {
      Mark m;
      m.shape = shapes[i];
      m.name = mark_name(p, placed.mark + 1);
      m.opposite_of = placed.opposite_of;
      d.marks.push_back(m);
    }
    Panel panel;
    panel.position = static_cast<int>(i) + 1;
    panel.mark = placed.mark;
    panel.turned = placed.turned;
    panel.start = starts[i];
    panel.end = starts[i] + mm(shapes[i].length);
    panel.shape = shapes[i];
    Mark& m = d.marks[static_cast<std::size_t>(placed.mark)];
    const std::string beginning = serial_beginning(p, m.name);
    panel.serial = serial_name(beginning, ++serials[beginning]);
    ++m.quantity;
    m.positions.push_back(static_cast<int>(i));
    d.panels.push_back(panel);
  }
  return d;
}

inline Deck deck(const Project& p, const std::string& kinds) {
  std::vector<PanelShape> shapes;
  std::vector<Length> starts;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    shapes.push_back(shape(2000 + 10 * (kinds[i] - 'a')));
    starts.push_back(mm(3000) * static_cast<std::int64_t>(i));
  }
  return deck(p, shapes, starts);
}

/// Names as issued, then issues it under the next letter; what was found.
inline std::string issue(Register& r, Project p, Deck& d, const std::string& revision) {
  p.revisions.back().id = revision;
  Findings findings;
  keep_identities(d, p, {}, r, findings);
  Entry e;
  e.number = static_cast<int>(r.entries.size()) + 1;
  e.issue = issue_of(p, {}, d);
  e.voided = voided_by(*e.issue, r, p);
  r.entries.push_back(e);
  std::string codes;
  for (const Finding& f : findings.sorted()) codes += f.code + " ";
  return codes;
}

inline std::string marks(const Deck& d) {
  std::string out;
  for (const Panel& p : d.panels)
    out += (out.empty() ? "" : " ") + d.marks[static_cast<std::size_t>(p.mark)].name;
  return out;
}

inline std::string voided(const Entry& e) {
  std::string out;
  for (const VoidedSerial& v : e.voided) out += (out.empty() ? "" : " ") + v.serial;
  return out;
}

}  // namespace sample
