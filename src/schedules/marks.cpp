// The marks and their holes.
#include <fmt/format.h>

#include "schedules/parts.h"
#include "schedules/schedules.h"

namespace deckquire {
namespace {

std::int64_t number(const Deck& deck, int panel) {
  return deck.panels[static_cast<std::size_t>(panel)].position;
}

std::string serials_intro(const Project& project, const Deck& deck) {
  if (deck.panels.empty()) return "";
  const std::string serials =
      numbered_in_order(deck)
          ? fmt::format("Serials run by position, from {} at position 1 to {} at position {}. ",
                        deck.panels.front().serial, deck.panels.back().serial, deck.panels.size())
          : "Serials are in the schedule of panels. ";
  return fmt::format(
      "One row for each panel type. {}Length and width are those of the box around the plan; depth "
      "at the high line is {} for all.",
      serials, print_length(project.deck.section.depth, project.units));
}

std::vector<Cell> mark_row(const Deck& deck, int index) {
  const Mark& m = deck.marks[static_cast<std::size_t>(index)];
  const auto box = bounds(m.shape.outline);
  const bool hand = m.opposite_of >= 0;
  return {m.name,
          std::int64_t{m.quantity},
          hand ? Cell(deck.marks[static_cast<std::size_t>(m.opposite_of)].name) : Cell(),
          box.width(),
          box.height(),
          m.masses.total.in_si(),
          panel_sheet_number(index),
          m.masses.top_area.in_si(),
          m.masses.top_area.in_si() * m.quantity,
          m.masses.total.in_si() * m.quantity,
          m.remark,
          position_ranges(deck, m.positions)};
}

}  // namespace

std::string position_ranges(const Deck& deck, const std::vector<int>& panels) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < panels.size();) {
    std::size_t j = i;
    while (j + 1 < panels.size() && number(deck, panels[j + 1]) == number(deck, panels[j]) + 1) ++j;
    const auto a = number(deck, panels[i]), b = number(deck, panels[j]);
    parts.push_back(a == b ? std::to_string(a) : fmt::format("{}-{}", a, b));
    i = j + 1;
  }
  return join(parts, ", ");
}

Table marks_table(const Project& project, const Deck& deck) {
  Table t{"marks", "PANEL MARKS", serials_intro(project, deck), {}, {}, {}, true};
  t.columns = {{"mark", "Mark", Measure::text},
               {"quantity", "Quantity", Measure::count},
               {"opposite_hand_of", "Opposite hand of", Measure::text},
               {"length_mm", "Length", Measure::length},
               {"width_mm", "Width", Measure::length},
               {"mass_kg", "Mass of one", Measure::mass},
               {"sheet", "Sheet", Measure::text},
               {"area_m2", "Area of one", Measure::area},
               {"area_all_m2", "Area of all", Measure::area},
               {"mass_all_kg", "Mass of all", Measure::mass},
               {"remark", "Remark", Measure::text},
               {"positions", "Positions", Measure::text}};
  std::int64_t quantity = 0;
  double area = 0, mass = 0;
  for (int i = 0; i < static_cast<int>(deck.marks.size()); ++i) {
    const Mark& m = deck.marks[static_cast<std::size_t>(i)];
    t.rows.push_back(mark_row(deck, i));
    quantity += m.quantity;
    area += m.masses.top_area.in_si() * m.quantity;
    mass += m.masses.total.in_si() * m.quantity;
  }
  t.total = {std::string("Total"), quantity, {}, {}, {}, {}, {}, {}, area, mass, {}, {}};
  return t;
}

Table holes_table(const Deck& deck) {
  Table t{"holes", "HOLES AND INSERTS", "", {}, {}, {}, false};
  t.columns = {{"mark", "Mark", Measure::text},
               {"label", "Hole", Measure::text},
               {"kind", "Kind", Measure::text},
               {"what", "What", Measure::text},
               {"x_mm", "x", Measure::length},
               {"y_mm", "y", Measure::length},
               {"diameter_mm", "Diameter", Measure::length},
               {"depth_mm", "Depth", Measure::length},
               {"thread", "Thread", Measure::text},
               {"face", "Face", Measure::text}};
  for (const Mark& m : deck.marks)
    for (const Hole& h : m.holes)
      t.rows.push_back({m.name, h.label, std::string(hole_name(h.kind)), h.what, h.at.x, h.at.y,
                        h.diameter, h.depth ? Cell(*h.depth) : Cell(), h.thread,
                        std::string(h.from_top ? "top" : "soffit")});
  return t;
}

}  // namespace deckquire
