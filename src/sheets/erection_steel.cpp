// What others build, seen through the deck of a strip: girders, splices, supports, obstructions;
// and the repeated part of the neighbouring panels.
#include <algorithm>

#include <fmt/format.h>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

/// x of the plan's ends, with the repeated parts of the neighbours.
double low_x(const StripDrawing& s) {
  return s.from() - (s.first() ? 0 : s.frame.tail);
}
double high_x(const StripDrawing& s) {
  return s.to() + (s.last() ? 0 : s.frame.tail);
}

PaperBox around(const std::vector<PaperPoint>& ring) {
  PaperBox b{ring.front(), ring.front()};
  for (PaperPoint p : ring) {
    b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
    b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
  }
  return b;
}

void draw_girder(const StripDrawing& s, const Girder& g) {
  const double a = std::max(low_x(s), s.x(g.from)), b = std::min(high_x(s), s.x(g.to));
  if (a >= b) return;
  const paper::Group group(s.board, fmt::format("girder-{}-{}", s.number + 1, g.name), "girder",
                           "girder " + g.name);
  const auto y = [&](Length offset) { return s.view(0, offset.in_mm()).y; };
  for (Length edge : {g.left(), g.right()})
    s.board.line(PenUse::steel_hidden, {a, y(edge)}, {b, y(edge)});
  s.board.line(PenUse::centre, {a, y(g.offset)}, {b, y(g.offset)});
  s.labels.quiet({{a, y(g.right())}, {b, y(g.left())}});
  s.board.text(LetterUse::serial, {high_x(s) + 1.5, y(g.offset)}, g.name, Align::left,
               Stand::middle);
}

void draw_splice(const StripDrawing& s, const Splice& splice) {
  const paper::Group group(s.board, fmt::format("splice-{}-{}", s.number + 1, splice.name),
                           "splice", "splice " + splice.name);
  const PaperBox b{s.view(splice.plan.low), s.view(splice.plan.high)};
  s.board.box(PenUse::steel_hidden, b);
  s.board.line(PenUse::steel_hidden, {b.centre().x, b.low.y}, {b.centre().x, b.high.y});
  s.labels.quiet(b);
}

/// Support line across the deck, its name and station under it.
void draw_support(const StripDrawing& s, const Support& support) {
  const paper::Group group(s.board, fmt::format("support-{}-{}", s.number + 1, support.name),
                           "support", "support " + support.name);
  const double x = s.x(support.station), d = s.letters(LetterUse::dimension);
  const double low = s.y(s.frame.supports), high = s.y(s.frame.deck_top) + 1;
  s.board.line(PenUse::centre, {x, low + d + 1}, {x, high});
  const std::string text =
      support.name + "  " + print_station(support.station, s.input.project.units);
  const bool at_end = x > s.to() - 12;
  const auto box = s.board.text(LetterUse::dimension, {x + (at_end ? -1.5 : 1.5), low}, text,
                                at_end ? Align::right : Align::left);
  s.labels.text(box);
}

void draw_obstruction(const StripDrawing& s, const Obstruction& o) {
  const paper::Group group(s.board, "obstruction-" + o.name, "obstruction", o.kind + " " + o.name);
  paper::Path thing, free;
  thing.polygon(s.view(o.outline));
  free.polygon(s.view(o.kept_free));
  s.board.stroke(PenUse::steel, std::move(thing));
  s.board.stroke(PenUse::hidden, std::move(free));
  s.labels.solid(around(s.view(o.kept_free)));
}

/// About 500 mm of the neighbour's outline, without its mark.
void draw_tail(const StripDrawing& s, bool ahead) {
  const int index = s.strip().first + (ahead ? s.strip().count : -1);
  const Panel& p = s.input.deck.panels[static_cast<std::size_t>(index)];
  Ring<BridgeFrame> ring;
  for (PanelPoint q : p.shape.outline) ring.push_back({q.x + p.start.in_mm(), q.y});
  const double reach = s.frame.tail * s.plan.erection_ratio;
  const BridgePoint away{ahead ? 1.0 : -1.0, 0};
  const double limit = ahead ? s.strip().to.in_mm() + reach : -(s.strip().from.in_mm() - reach);
  const auto part = s.view(clip(ring, away, limit));
  if (part.size() < 3) return;
  const PaperBox b = around(part);
  const double cut = ahead ? b.high.x : b.low.x;
  paper::Path path;
  for (std::size_t i = 0; i < part.size(); ++i) {
    const PaperPoint a = part[i], c = part[(i + 1) % part.size()];
    if (std::abs(a.x - cut) < 0.01 && std::abs(c.x - cut) < 0.01) continue;  // the broken-off edge
    path.segment(a, c);
  }
  s.board.stroke(PenUse::neighbour, std::move(path));
  paper::break_line(s.board, {cut, b.low.y - 1}, {cut, b.high.y + 1});
}

}  // namespace

void draw_steelwork(const StripDrawing& s) {
  const Length low = s.strip().from, high = s.strip().to;
  if (!s.first()) draw_tail(s, false);
  if (!s.last()) draw_tail(s, true);
  for (const Girder& g : s.input.bridge.girders) draw_girder(s, g);
  for (const Splice& splice : s.input.bridge.splices)
    if (splice.station >= low && splice.station < high) draw_splice(s, splice);
  for (const Support& support : s.input.bridge.supports)
    if (s.holds(support.station)) draw_support(s, support);
  for (const Obstruction& o : s.input.bridge.obstructions)
    if (o.station >= low && o.station < high) draw_obstruction(s, o);
}

}  // namespace deckquire::sheets
