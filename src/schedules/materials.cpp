// The bill of materials as tables: of the job, by span, by mark, by panel.
#include <fmt/format.h>

#include <algorithm>

#include "schedules/parts.h"
#include "schedules/schedules.h"

namespace deckquire {
namespace {

using Lines = std::vector<BillLine>;

/// More columns than this are no list to read in a yard.
constexpr std::size_t most_spans_on_sheet = 6;

Cell some(double v) { return v > 0 ? Cell(v) : Cell(); }

const std::vector<Column> quantities = {
    {"pieces", "Pieces", Measure::count},  {"length_m", "Length", Measure::run},
    {"area_m2", "Area", Measure::area},    {"volume_m3", "Volume", Measure::volume},
    {"mass_kg", "Mass", Measure::mass}};

/// Item, description and quantities, each with its rule; behind what `own` says of the row.
std::vector<Cell> bill_row(std::vector<Cell> own, const BillLine& l) {
  for (Cell c : {Cell(l.item), Cell(l.description()), some(l.pieces), some(l.length), some(l.area),
                 some(l.volume), some(l.mass), Cell(l.rule)})
    own.push_back(std::move(c));
  return own;
}

std::vector<Column> bill_columns(std::vector<Column> own) {
  own.push_back({"item", "Item"});
  own.push_back({"description", "Description"});
  own.insert(own.end(), quantities.begin(), quantities.end());
  own.push_back({"rule", "Rule"});
  return own;
}

/// The same item of another sum; nothing of it where that has none.
Cell amount_in(const Lines& lines, const BillLine& like) {
  for (const BillLine& l : lines)
    if (l.item == like.item && l.size == like.size && l.detail == like.detail && l.ordered() > 0)
      return Measured{l.ordered(), l.ordered_by};
  return {};
}

struct Amount {
  std::string unit;
  double value;
};

// The one quantity a shop orders by, with its unit on paper.
Amount main_amount(const BillLine& l, UnitSystem u) {
  constexpr double foot = 0.3048, pound = 0.45359237;
  const bool metric = u == UnitSystem::metric;
  const auto in = [&](Measure m, double v, double unit) {
    return Amount{column_unit(m, u), metric ? v : v / unit};
  };
  switch (l.ordered_by) {
    case Measure::run:
      return in(Measure::run, l.length, foot);
    case Measure::area:
      return in(Measure::area, l.area, foot * foot);
    case Measure::volume:
      return in(Measure::volume, l.volume, foot * foot * foot);
    case Measure::mass:
      return in(Measure::mass, l.mass, pound);
    default:
      return {"pcs", l.pieces};
  }
}

}  // namespace

Table materials_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"materials",
          "MATERIALS OF THE WHOLE DECK",
          "Net quantities of the finished work; waste and spares are in the orders. Rail posts, drain "
          "pipes beyond the outlets and girder steel are by others. Bolts: grade, head and washers as "
          "the engineer states.",
          bill_columns({}),
          {},
          {},
          true};
  double panels = 0;
  const Lines lines = deck_lines(project, bridge, deck);
  for (const BillLine& l : lines) t.rows.push_back(bill_row({}, l));
  for (const Mark& m : deck.marks) panels += m.masses.total.in_si() * m.quantity;
  t.total = {std::string("Panels"), std::string("without joint parts"), {}, {}, {}, {}, panels, {}};
  return t;
}

Table materials_by_span_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"materials-by-span",
          "MATERIALS BY SPAN",
          "Net, each item in the unit it is ordered by. Parts of the joints stand by themselves: a joint "
          "belongs to no span.",
          {{"item", "Item"}, {"description", "Description"}, {"unit", "Unit"},
           {"job", "Job", Measure::count}, {"joints", "Joints", Measure::count}},
          {},
          {},
          deck.spans.size() > 1 && deck.spans.size() <= most_spans_on_sheet};
  const std::vector<Lines> bills = mark_bills(project, deck);
  const int all = static_cast<int>(deck.panels.size());
  const Lines joints = joint_lines(project, bridge, deck, 0, all);
  std::vector<Lines> spans;
  for (const SpanRun& s : deck.spans) {
    spans.push_back(panel_lines(bills, deck, s.first, s.count));
    t.columns.push_back({"span_" + s.name, "Span " + s.name, Measure::count});
  }
  for (const BillLine& l : deck_lines(project, bridge, deck)) {
    t.rows.push_back({l.item, l.description(), UnitOf{l.ordered_by},
                      Measured{l.ordered(), l.ordered_by}, amount_in(joints, l)});
    for (const Lines& span : spans) t.rows.back().push_back(amount_in(span, l));
  }
  return t;
}

Table materials_by_mark_table(const Project& project, const Deck& deck) {
  Table t{"materials-by-mark", "MATERIALS OF ONE PANEL OF EVERY MARK", "",
          bill_columns({{"mark", "Mark"}, {"quantity", "Quantity", Measure::count}}), {}, {}, false};
  for (const Mark& m : deck.marks)
    for (const BillLine& l : bill_lines(project, m))
      t.rows.push_back(bill_row({m.name, std::int64_t{m.quantity}}, l));
  return t;
}

Table materials_by_panel_table(const Project& project, const Deck& deck) {
  Table t{"materials-by-panel", "MATERIALS OF EVERY PANEL", "",
          bill_columns({{"serial", "Serial"}, {"position", "Position", Measure::count},
                        {"mark", "Mark"}, {"span", "Span"}}), {}, {}, false};
  const std::vector<Lines> bills = mark_bills(project, deck);
  for (const Panel& p : deck.panels) {
    const std::size_t mark = static_cast<std::size_t>(p.mark);
    for (const BillLine& l : bills[mark])
      t.rows.push_back(bill_row({p.serial, std::int64_t{p.position}, deck.marks[mark].name,
                                 deck.spans[static_cast<std::size_t>(p.span)].name}, l));
  }
  return t;
}

Table bill_of_materials(const Project& project, const Deck& deck, int mark) {
  const Mark& m = deck.marks[static_cast<std::size_t>(mark)];
  Table t{"bill-" + m.name, "BILL OF MATERIALS", "", {}, {}, {}, true};
  t.columns = {{"item", "Item", Measure::text},
               {"unit", "Unit", Measure::text},
               {"one", "One", Measure::count},
               {"all", "All", Measure::count},
               {"remark", "Remark", Measure::text}};
  for (const BillLine& l : bill_lines(project, m)) {
    if (!l.supplier.empty()) continue;
    const Amount a = main_amount(l, project.units);
    t.rows.push_back({l.item, a.unit, a.value, a.value * m.quantity, l.description()});
  }
  return t;
}

}  // namespace deckquire
