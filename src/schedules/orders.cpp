// What to order: net quantities of the whole job and what the project allows for waste and spares.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "schedules/parts.h"

namespace deckquire {
namespace {

const AllowanceData* allowance_of(const DeckData& deck, const BillLine& l) {
  for (const AllowanceData& a : deck.allowances)
    if (!l.allowance.empty() && a.on == l.allowance) return &a;
  return nullptr;
}

/// Pieces are rounded up, once for the job; what is measured is not.
double spare(const BillLine& l, const AllowanceData& a) {
  const double share = l.ordered() * a.ratio;
  if (l.ordered_by != Measure::count) return share;
  constexpr double no_more_than_rounding = 1e-9;
  return std::max(std::ceil(share - no_more_than_rounding), static_cast<double>(a.least));
}

std::string allowance_words(const BillLine& l, const AllowanceData& a) {
  const bool pieces = l.ordered_by == Measure::count;
  if (pieces && a.ratio == 0) return fmt::format("{} spare on {}", a.least, a.on);
  std::string words = fmt::format("{} % on {}", shortest_decimal(100 * a.ratio, 3), a.on);
  if (pieces && a.least > 0) words += fmt::format(", {} at least", a.least);
  return pieces ? words + ", rounded up" : words;
}

}  // namespace

Table orders_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"orders",
          "ORDERS",
          "For the whole job, once: net quantity, allowance for waste and spares, and their sum. What comes "
          "with others' parts is listed for its number only.",
          {{"item", "Item"},
           {"description", "Description"},
           {"to_order", "To order", Measure::count},
           {"unit", "Unit"},
           {"net", "Net", Measure::count},
           {"allowance", "Allowance", Measure::count},
           {"rule", "Rule of the allowance"},
           {"source", "Source"}},
          {},
          {},
          true};
  for (const BillLine& l : deck_lines(project, bridge, deck)) {
    const AllowanceData* a = allowance_of(project.deck, l);
    const bool theirs = !l.supplier.empty() && l.allowance.empty();
    const double more = a ? spare(l, *a) : 0;
    const auto amount = [&](double v) { return Cell(Measured{v, l.ordered_by}); };
    t.rows.push_back({l.item, l.description(), theirs ? Cell() : amount(l.ordered() + more),
                      UnitOf{l.ordered_by}, amount(l.ordered()), a ? amount(more) : Cell(),
                      theirs ? "comes from the " + l.supplier
                             : (a ? allowance_words(l, *a) : std::string("none stated")),
                      a ? Cell(a->source) : Cell()});
  }
  return t;
}

}  // namespace deckquire
