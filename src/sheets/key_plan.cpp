#include "sheets/key_plan.h"

#include <algorithm>

#include "paper/view.h"
#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

constexpr double arrow_room = 14;   // for the north arrow at the right
constexpr double least_height = 6;  // of the deck on paper

PlanFrame frame_in(const Bridge& bridge, const PaperBox& space, double top) {
  const Length from = bridge.alignment.from(), to = bridge.alignment.to();
  const Reach reach = deck_reach(bridge);
  PlanFrame f;
  f.from = from.in_mm();
  f.along = (space.width() - arrow_room) / std::max(1.0, (to - from).in_mm());
  const double wide = std::max(1.0, reach.left + reach.right);
  f.across = std::clamp(f.along, least_height / wide, 14 / wide);
  f.x = space.low.x;
  f.y = top - reach.left * f.across;
  return f;
}

void supports(Board& board, const Bridge& bridge, const PlanFrame& f) {
  const Reach reach = deck_reach(bridge);
  for (const Support& s : bridge.supports) {
    const double x = f({s.station.in_mm(), 0}).x;
    board.line(PenUse::steel, {x, f.y + reach.left * f.across + 1.5},
               {x, f.y - reach.right * f.across - 1.5});
  }
}

void solid_part(Board& board, const SetInput& input, const PlanFrame& f, int first, int count) {
  if (count <= 0) return;
  const auto& panels = input.deck.panels;
  const Length from = panels[static_cast<std::size_t>(first)].start;
  const Length to = panels[static_cast<std::size_t>(first + count - 1)].end;
  Path part;
  part.polygon(f(deck_outline(input.bridge, from, to)));
  board.fill(Ink::accent, part);
}

std::vector<PlacedName> support_names(const Bridge& bridge, const PlanFrame& f) {
  std::vector<PlacedName> names;
  for (const Support& s : bridge.supports) names.push_back({f({s.station.in_mm(), 0}).x, s.name});
  return names;
}

}  // namespace

std::vector<PaperPoint> PlanFrame::operator()(const Ring<BridgeFrame>& ring) const {
  std::vector<PaperPoint> out;
  for (auto p : ring) out.push_back((*this)(p));
  return out;
}

Ring<BridgeFrame> deck_outline(const Bridge& bridge, Length from, Length to) {
  std::vector<Length> stations{from};
  for (Length b : bridge.edges.breaks())
    if (from < b && b < to && b != stations.back()) stations.push_back(b);
  stations.push_back(to);
  Ring<BridgeFrame> right, left;
  for (Length s : stations)
    for (bool ahead : {false, true}) {
      if ((s == from && !ahead) || (s == to && ahead)) continue;
      right.push_back({s.in_mm(), -bridge.edges.right(s, ahead).in_mm()});
      left.push_back({s.in_mm(), bridge.edges.left(s, ahead).in_mm()});
    }
  right.insert(right.end(), left.rbegin(), left.rend());
  right.erase(std::unique(right.begin(), right.end()), right.end());
  return right;
}

Reach deck_reach(const Bridge& bridge) {
  Reach r;
  for (const EdgeData& e : bridge.edges.data()) {
    r.left = std::max(r.left, e.left.in_mm());
    r.right = std::max(r.right, e.right.in_mm());
  }
  return r;
}

double north_on_paper(const Bridge& bridge) {
  return bridge.alignment.bearing().in_si();
}

double names_below(Board& board, LetterUse use, double y, const std::vector<PlacedName>& names,
                   const PaperBox& within) {
  std::vector<double> ends;  // of the last name in each row
  const double row = board.pitch(use);
  for (const PlacedName& n : names) {
    const double width = board.text_width(use, n.text);
    const double low = std::clamp(n.x - width / 2, within.low.x, within.high.x - width);
    std::size_t i = 0;
    while (i < ends.size() && low < ends[i] + 1.5) ++i;
    if (i == ends.size()) ends.push_back(0);
    ends[i] = low + width;
    board.text(use, {low, y - static_cast<double>(i) * row}, n.text, Align::left, Stand::top);
  }
  return y - static_cast<double>(ends.size()) * row;
}

double key_plan(Board& board, const PaperBox& space, double top, const SetInput& input, int first,
                int count) {
  paper::Group group(board, "key-plan", "key-plan");
  const auto heading =
      board.text(LetterUse::heading, {space.low.x, top}, "KEY PLAN", Align::left, Stand::top);
  board.text(LetterUse::note, {heading.high.x + 4, heading.low.y}, "not to scale");
  const double below = top - board.pitch(LetterUse::heading) - 2.5;
  const PlanFrame f = frame_in(input.bridge, space, below);
  const Bridge& bridge = input.bridge;
  const Reach reach = deck_reach(bridge);
  solid_part(board, input, f, first, count);
  Path outline;
  outline.polygon(f(deck_outline(bridge, bridge.alignment.from(), bridge.alignment.to())));
  board.stroke(PenUse::thin, outline);
  supports(board, bridge, f);
  const double foot = f.y - reach.right * f.across - 3;
  const PaperBox within{{space.low.x, 0}, {space.high.x - arrow_room, 0}};
  double y = names_below(board, LetterUse::note, foot, support_names(bridge, f), within);
  const auto& a = bridge.alignment;
  const UnitSystem u = input.project.units;
  y = names_below(
      board, LetterUse::note, y,
      {{within.low.x, print_station(a.from(), u)}, {within.high.x, print_station(a.to(), u)}},
      within);
  paper::arrow(board, PenUse::dimension, {space.low.x + space.width() * 0.36, y + 2.8},
               {space.low.x + space.width() * 0.52, y + 2.8}, 2.5);
  north_arrow(board, {space.high.x - 6, (below + foot) / 2}, 5, north_on_paper(bridge));
  return std::min(y, (below + foot) / 2 - 8) - board.style().gap;
}

}  // namespace deckquire::sheets
