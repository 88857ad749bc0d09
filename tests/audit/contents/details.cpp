// Items of the detail sheets.
#include <algorithm>

#include "audit/contents/reading.h"
#include "base/text.h"

namespace deckquire::contents {

namespace {

/// Each detail stands on its sheet with letter, title, scale and callers, and they do call it.
void titles(const Reading& r, Outcome& o) {
  for (const sheets::DetailRef& d : r.drawn.plan.details) {
    std::string said;
    for (const Page* p : r.of("D"))
      for (const int g : p->groups("view"))
        if (p->number() == d.sheet && p->scan.start(g).id == "detail-" + d.letter)
          said = joined(p->words_of(g)) + " ";
    o.expect(holds(said, d.title) && holds(said, d.letter + " "), d.letter + " " + d.title);
    o.expect(holds(said, " 1:") || holds(said, "=") || holds(said, "full size"),
             d.letter + ": no scale");
    o.expect(holds(said, "Called from E"), d.letter + ": not said where it is called");
    const auto calls = [&](const Page* p) {
      if (says(p->words, " " + d.letter + " on*" + d.sheet + "|" + d.letter + "/" + d.sheet))
        return true;
      const auto bars = p->groups("reference");
      return std::any_of(bars.begin(), bars.end(), [&](int g) {
        return p->scan.start(g).title == d.letter + ", sheet " + d.sheet;
      });
    };
    const auto pages = r.of("P");
    o.expect(calls(r.of("E").front()), d.letter + ": the first erection sheet does not call it");
    if (holds(said, "the P sheets"))
      o.expect(std::any_of(pages.begin(), pages.end(), calls), d.letter + ": no P sheet calls it");
  }
}

/// Cut faces carry their names, which are the project's.
void faces(const Reading& r, Outcome& o) {
  for (const Page* p : r.of("D")) {
    const auto swatches = p->groups("swatch");
    o.expect(!swatches.empty(), p->number() + ": no legend of faces");
    for (const int g : swatches) {
      const std::string said = joined(p->words_of(g)), of = p->scan.start(g).title;
      o.expect(!said.empty(), p->number() + ": " + of + " has no words");
      for (const MaterialData& m : r.project().deck.materials)
        if (m.part == of && (of == "laminate" || of == "core" || of == "steel"))
          o.expect(holds(said, m.name), p->number() + ": " + said + " is not " + m.name);
    }
  }
}

/// Bolts and threads of what the project has, by size.
void fasteners(const Reading& r, Outcome& o) {
  const std::string said = r.words("D");
  const DeckData& d = r.project().deck;
  const auto expect = [&](const std::string& thread) {
    o.expect(holds(said, thread), thread + " is on no detail");
  };
  if (d.hold_downs) expect("bolt " + d.hold_downs->bolt);
  if (d.posts) expect(d.posts->plate.thread + " tapped");
  if (!d.lifting.thread.empty()) expect(d.lifting.thread);
  for (const HatchData& h : d.hatches) expect(h.bolt);
}

void gap(const Reading& r, Outcome& o) {
  const auto& j = r.project().deck.joints;
  const std::string said = r.words("D");
  const UnitSystem u = r.project().units;
  const std::string size = "gap " + print_length(j.gap, u);
  o.expect(says(said, size + "*at the setting*temperature|" + size + "*the temperature it*not stated"),
           "no gap");
  o.expect(says(said, "end gap " + print_length(j.end_gap, u)), "no end gap");
}

void pads(const Reading& r, Outcome& o) {
  const auto& pads = r.project().deck.pads;
  if (!pads) return;
  const UnitSystem u = r.project().units;
  o.expect(says(r.words("D"), "pad " + print_length(pads->thickness, u) + " thick, " +
                                  "*" + print_length(pads->width, u) + "*wide"),
           "no size of the pads");
  o.expect(holds(r.words("D"), pads->material), "no material of the pads");
}

bool sealed(const Reading& r) { return r.project().deck.joints.kind == JointKind::sealed; }

}  // namespace

Items detail_sheets() {
  return {
      {"D1", "Letter, title, scale, and the sheets that call it", {}, titles,
       reword("D", "CURB AND DECK EDGE", "CURB")},
      {"D2", "Parts named with size and material", {{"D", "top skin", false}}, faces,
       unmark("D", "swatch")},
      {"D3", "Fasteners: number, size, grade and tightening",
       {{"D", "Grade and torque of bolts are the engineer's"}}, fasteners,
       reword("D", "bolt M12", "bolt M10"), {}, "lengths, grips and washers of bolts"},
      {"D4", "Shop work and site work marked apart",
       {{"D", "The shop seals"}, {"D", "by the contractor|by others", true},
        {"D", "clip by the contractor", false}}},
      {"D5", "Gaps, fits, tolerances", {{"D", "Tolerances: |Tolerances are", false}}, gap,
       reword("D", "end gap 32", "end gap")},
      {"D6", "Room for tools", {}, {}, {}, {}, "room for tools"},
      {"D7", "Sealant and adhesive: kind, size, faces, cure",
       {{"D", "sealant * wide, *deep", false, sealed},
        {"D", "joint faces*are prepared, and*cures, as*maker*states", false, sealed}}},
      {"D8", "Movement: how much, which way", {{"D", "free to slide", false}}, {}, {}, {},
       "movements of the joints"},
      {"D9", "Unlike metals, steel and laminate apart", {{"D", "unlike metals are*isolated"}}},
      {"D10", "Which way a detail is seen", {}, {}, {}, {}, "direction of sight of each detail"},
      {"D11", "Every detail is used", {}, {}, {}, {"detail-orphan"}},
      {"D12", "Studs and shear connectors", {}, {}, {}, {}, "studs and shear connectors"},
      {"D13", "Pads, haunches, shims", {}, pads, reword("D", "bearing pad 10", "bearing pad 12"),
       {}, "heights of haunches and shims"}};
}

}  // namespace deckquire::contents
