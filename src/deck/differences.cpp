#include "deck/differences.h"

#include <fmt/format.h>

#include <cmath>
#include <tuple>

#include "deck/comparing.h"

namespace deckquire {

bool Comparing::differ(double p, double q) const {
  return std::abs(p - q) > project.deck.marks.tolerance.in_mm() + 1e-6;
}

std::string Comparing::instead(double p, double q) const {
  const std::string first = print(p), second = print(q);
  if (first != second) return first + " instead of " + second;
  // Less than the print unit, but more than the tolerance.
  return fmt::format("{} instead of {} mm", shortest_decimal(p, 3), shortest_decimal(q, 3));
}

PanelPoint Comparing::on_sheet(PanelPoint p) const {
  return p - PanelPoint{a.back_x(a.right_back), a.right_back};
}

std::string Comparing::place(PanelPoint p) const {
  const PanelPoint s = on_sheet(p);
  return fmt::format("x = {}, y = {}", print(s.x), print(s.y));
}

std::string Comparing::places(PanelPoint p, PanelPoint q) const {
  const PanelPoint s = on_sheet(p), t = on_sheet(q);
  std::vector<std::string> said;
  if (differ(s.x, t.x)) said.push_back("x = " + instead(s.x, t.x));
  if (differ(s.y, t.y)) said.push_back("y = " + instead(s.y, t.y));
  return join(said, ", ");
}

void Comparing::say(std::string of, std::string words, double amount) {
  list.push_back({std::move(of), std::move(words), std::abs(amount)});
}

void Comparing::measure(const std::string& of, const std::string& what, double p, double q) {
  if (differ(p, q)) say(of, what + " " + instead(p, q), p - q);
}

namespace {

ShapeComparison compare_as_laid(const PanelShape& a, const PanelShape& b, const Project& project) {
  Comparing c{a, b, project, {}};
  compare_plan(c);
  compare_features(c);
  return {false, std::move(c.list)};
}

/// Things that differ, things that follow, sum of amounts in hundredths (not to be told apart by
/// rounding).
std::tuple<int, int, long long> weight(const ShapeComparison& c) {
  int own = 0, following = 0;
  double sum = 0;
  for (const Difference& d : c.list) {
    (d.follows ? following : own) += d.things;
    sum += d.amount * d.things;
  }
  return {own, following, std::llround(sum * 100)};
}

}  // namespace

ShapeComparison compare_in_place(const PanelShape& a, const PanelShape& b, const Project& project) {
  if (a.outline.empty() || b.outline.empty()) return compare_shapes(a, b, project);
  return compare_as_laid(a, b, project);
}

bool less_different(const ShapeComparison& p, const ShapeComparison& q) {
  return weight(p) < weight(q);
}

ShapeComparison compare_shapes(const PanelShape& a, const PanelShape& b, const Project& project) {
  const Length tolerance = project.deck.marks.tolerance;
  if (a.outline.empty() || b.outline.empty())
    return {false, {{"outline", "a panel without an outline", 0}}};
  if (same_type(a, b, tolerance)) return {};
  const PanelShape half = half_turn(b);
  if (same_type(a, half, tolerance)) return {true, {}};
  ShapeComparison drawn = compare_as_laid(a, b, project);
  ShapeComparison turned = compare_as_laid(a, half, project);
  turned.turned = true;
  ShapeComparison best = less_different(turned, drawn) ? std::move(turned) : std::move(drawn);
  // Only where pairs were chosen one by one, though another choice of all would have fitted.
  if (best.list.empty())
    best.list.push_back({"features", "features lie too near together to be told apart", 0});
  return best;
}

}  // namespace deckquire
