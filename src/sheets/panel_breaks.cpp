// Broken views of long panels: what is left out, and how its place is drawn (ISO 128-3, broken
// views; clause from memory).
#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

constexpr double alike = 0.01;  // mm

/// x of everything that a break may not touch, each with how far it reaches.
std::vector<Stretch> occupied(const PanelShape& s, const DeckData& deck,
                              const std::vector<Stretch>& kept) {
  const Corners c = corners_of(s);
  std::vector<Stretch> out = kept;
  for (auto [a, b] : {std::pair{c.back_right.x, c.back_left.x}, {c.ahead_right.x, c.ahead_left.x}})
    out.emplace_back(std::min(a, b), std::max(a, b));
  for (const PanelPoint& p : s.outline) out.emplace_back(p.x, p.x);
  for (const CurbRun& run : s.curbs)
    for (const PanelPoint& p : run.plan) out.emplace_back(p.x, p.x);
  const auto whole = [&](const Ring<PanelFrame>& ring, double around = 0) {
    const Box<PanelFrame> b = bounds(ring).grown(around);
    out.emplace_back(b.low.x, b.high.x);
  };
  for (const Ring<PanelFrame>& o : s.openings) whole(o);
  for (const Feature& f : s.features) {
    if (f.kind == FeatureKind::pad)  // it may run through, but not end there
      for (const PanelPoint& p : f.ring()) out.emplace_back(p.x, p.x);
    else  // a hatch with the seat of its cover
      whole(f.ring(), f.kind == FeatureKind::hatch
                          ? deck.hatches[static_cast<std::size_t>(f.variant)].rebate.in_mm()
                          : 0);
  }
  std::sort(out.begin(), out.end());
  return out;
}

bool same_section(const PanelShape& s, const DeckData& deck, double x0, double x1) {
  const auto near = [](double a, double b) { return std::abs(a - b) < alike; };
  const auto a = across(s.outline, x0), b = across(s.outline, x1);
  const auto p = curbs_at(s, deck, x0), q = curbs_at(s, deck, x1);
  return std::equal(
             a.begin(), a.end(), b.begin(), b.end(),
             [&](auto u, auto v) { return near(u.first, v.first) && near(u.second, v.second); }) &&
         std::equal(p.begin(), p.end(), q.begin(), q.end(),
                    [&](const CurbCut& u, const CurbCut& v) {
                      return near(u.inner, v.inner) && near(u.outer, v.outer) && near(u.top, v.top);
                    });
}

}  // namespace

std::vector<Stretch> clear_stretches(const PanelShape& shape, const DeckData& deck,
                                     const std::vector<Stretch>& kept) {
  std::vector<Stretch> out;
  double from = bounds(shape.outline).low.x;
  for (auto [low, high] : occupied(shape, deck, kept)) {
    if (low - from > 1) out.emplace_back(from, low);
    from = std::max(from, high);
  }
  return out;
}

std::vector<Stretch> uniform_stretches(const PanelShape& shape, const DeckData& deck,
                                       const std::vector<Stretch>& kept) {
  std::vector<Stretch> out = clear_stretches(shape, deck, kept);
  std::erase_if(out, [&](const Stretch& s) {
    return !same_section(shape, deck, s.first + alike, s.second - alike);
  });
  return out;
}

std::vector<paper::Shortening> choose_breaks(std::vector<Stretch> stretches, double length,
                                             const BreakRules& rules) {
  const double wanted = length - rules.visible;
  if (wanted <= 0) return {};
  // What a break there can leave out at most, in whole steps.
  const auto most = [&](const Stretch& s) {
    return std::floor((s.second - s.first - 2 * rules.air - rules.gap) / rules.step) * rules.step;
  };
  std::stable_sort(stretches.begin(), stretches.end(),
                   [&](const Stretch& a, const Stretch& b) { return most(a) > most(b); });
  double sum = 0;
  std::size_t count = 0;
  while (sum < wanted && count < std::min(stretches.size(), rules.most) &&
         most(stretches[count]) > rules.gap)
    sum += most(stretches[count++]);
  if (sum < wanted) return {};
  std::vector<paper::Shortening> out;
  for (std::size_t i = 0; i < count; ++i) {
    const double least = most(stretches[i]) * wanted / sum;
    const double half = (std::ceil(least / rules.step - 1e-9) * rules.step + rules.gap) / 2;
    const double middle = (stretches[i].first + stretches[i].second) / 2;
    out.push_back({middle - half, middle + half, rules.gap});
  }
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
  return out;
}

void draw_break(paper::Board& board, const PanelJob& job, const paper::Shortening& s, double x0,
                double x1, double low, double high) {
  constexpr double over = 3, pen = 0.6;  // paper mm
  const paper::Group group(board, "", "break", job.print(s.left_out()) + " left out");
  paper::Path gap;
  gap.box({{x0, low - pen}, {x1, high + pen}});
  board.fill(paper::Ink::white, gap);
  for (double x : {x0, x1}) paper::break_line(board, {x, low - over}, {x, high + over});
}

}  // namespace deckquire::sheets
