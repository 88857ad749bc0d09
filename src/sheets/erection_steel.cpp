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
  return s.from() - s.frame.skew - (s.first() ? 0 : s.frame.tail);
}
double high_x(const StripDrawing& s) {
  return s.to() + s.frame.skew + (s.last() ? 0 : s.frame.tail);
}

/// Station of an x on the strip.
double station_at(const StripDrawing& s, double x) {
  return s.strip().from.in_mm() + (x - s.from()) * s.plan.erection_ratio;
}

/// From the end of the plan to the names of girders; a girder under a row joint meets the break.
double names_off(const StripDrawing& s) {
  return s.input.deck.row_joints.empty() ? 1.5 : 3.5;
}

void draw_girder(const StripDrawing& s, const Girder& g) {
  const double from = std::max(station_at(s, low_x(s)), g.from.in_mm());
  const double to = std::min(station_at(s, high_x(s)), g.to.in_mm());
  if (from >= to) return;
  const paper::Group group(s.board, fmt::format("girder-{}-{}", s.number + 1, g.name), "girder",
                           "girder " + g.name);
  const Bridge& bridge = s.input.bridge;
  const double half = g.flange.in_mm() / 2;
  const BridgeLine left = girder_course(bridge, g, from, to, half);
  const BridgeLine right = girder_course(bridge, g, from, to, -half);
  s.board.stroke(PenUse::steel_hidden, line_of(s, left));
  s.board.stroke(PenUse::steel_hidden, line_of(s, right));
  s.board.stroke(PenUse::centre, line_of(s, girder_course(bridge, g, from, to, 0)));
  for (std::size_t i = 0; i + 1 < left.size(); ++i)
    s.labels.quiet(around({s.view(right[i]), s.view(left[i + 1])}));
  s.board.text(LetterUse::serial,
               {high_x(s) + names_off(s), s.view(0, girder_offset(bridge, g, to)).y}, g.name,
               Align::left, Stand::middle);
}

/// Names of row joints beyond those of the girders, with their offsets.
void name_row_joints(const StripDrawing& s) {
  double after = 0;
  for (const Girder& g : s.input.bridge.girders)
    after = std::max(after, s.board.text_width(LetterUse::serial, g.name));
  for (const RowJoint& r : s.input.deck.row_joints) {
    if (r.to <= s.strip().from || r.from >= s.strip().to) continue;
    const paper::Group group(s.board, fmt::format("row-joint-{}-{}", s.number + 1, r.name),
                             "row-joint", "row joint " + r.name);
    const double y = s.view(0, r.offset.in_mm()).y, x = high_x(s) + names_off(s) + 1.5 + after;
    s.board.line(PenUse::mark, {x, y - 2}, {x, y + 2});
    s.board.text(LetterUse::dimension, {x + 1.2, y}, row_joint_label(r, s.input.project.units),
                 Align::left, Stand::middle);
  }
}

void draw_splice(const StripDrawing& s, const Splice& splice) {
  const paper::Group group(s.board, fmt::format("splice-{}-{}", s.number + 1, splice.name),
                           "splice", "splice " + splice.name);
  const std::vector<PaperPoint> ring = s.view(splice_plan(s.input.bridge, splice));
  if (ring.size() != 4) return;
  paper::Path outline;
  outline.polygon(ring);
  s.board.stroke(PenUse::steel_hidden, std::move(outline));
  s.board.line(PenUse::steel_hidden, (ring[0] + ring[1]) * 0.5, (ring[2] + ring[3]) * 0.5);
  s.labels.quiet(around(ring));
}

/// How far the stem of a skewed joint leans to one side of a support near it, paper mm.
double stem_beside(const StripDrawing& s, const Support& support, bool before) {
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const Joint& joint = s.joint(j);
    if (joint.skew == 0 || abs(joint.station - support.station) > mm(500)) continue;
    const double lean =
        s.view(joint_end(s.input.bridge, joint, Side::right)).x - s.x(joint.station);
    return std::max(0.0, before ? -lean : lean);
  }
  return 0;
}

/// Support line across the deck.
void draw_support(const StripDrawing& s, const Support& support) {
  const paper::Group group(s.board, fmt::format("support-{}-{}", s.number + 1, support.name),
                           "support", "support " + support.name);
  const double x = s.x(support.station), d = s.letters(LetterUse::dimension);
  s.board.line(PenUse::centre, {x, s.y(s.frame.supports) + d + 1}, {x, s.y(s.frame.deck_top) + 1});
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

/// What is left of a line when the edge along the break is taken away.
paper::Path broken_off(const std::vector<PaperPoint>& ring, double cut) {
  paper::Path path;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PaperPoint a = ring[i], c = ring[(i + 1) % ring.size()];
    if (std::abs(a.x - cut) < 0.01 && std::abs(c.x - cut) < 0.01) continue;
    path.segment(a, c);
  }
  return path;
}

/// About 500 mm of the outlines of the neighbouring bay, without its marks.
void draw_tail(const StripDrawing& s, bool ahead) {
  const Deck& deck = s.input.deck;
  const int bay = s.at(s.strip().first + (ahead ? s.strip().count : -1)).bay;
  const double cut = ahead ? high_x(s) : low_x(s);
  std::optional<PaperBox> all;
  for (int i = s.strip().first + (ahead ? s.strip().count : -1);
       i >= 0 && i < static_cast<int>(deck.panels.size()) && s.at(i).bay == bay;
       i += ahead ? 1 : -1) {
    const Ring<PaperFrame> part = clip(PanelMap(s, s.at(i))(s.at(i).shape.outline),
                                       PaperPoint{ahead ? 1.0 : -1.0, 0}, ahead ? cut : -cut);
    if (part.size() < 3) continue;
    const PaperBox b = around(part);
    s.board.stroke(PenUse::neighbour, broken_off(part, cut));
    if (!all) all = b;
    all = {{std::min(all->low.x, b.low.x), std::min(all->low.y, b.low.y)},
           {std::max(all->high.x, b.high.x), std::max(all->high.y, b.high.y)}};
  }
  if (!all) return;
  const double end = ahead ? all->high.x : all->low.x;
  paper::break_line(s.board, {end, all->low.y - 1}, {end, all->high.y + 1});
}

}  // namespace

void draw_steelwork(const StripDrawing& s) {
  const Length low = s.strip().from, high = s.strip().to;
  if (!s.first()) draw_tail(s, false);
  if (!s.last()) draw_tail(s, true);
  for (const Girder& g : s.input.bridge.girders) draw_girder(s, g);
  name_row_joints(s);
  for (const Splice& splice : s.input.bridge.splices)
    if (splice.station >= low && splice.station < high) draw_splice(s, splice);
  for (const Support& support : s.input.bridge.supports)
    if (s.holds(support.station)) draw_support(s, support);
  for (const Obstruction& o : s.input.bridge.obstructions)
    if (o.station >= low && o.station < high) draw_obstruction(s, o);
}

void name_supports(const StripDrawing& s) {
  for (const Support& support : s.input.bridge.supports) {
    if (!s.holds(support.station)) continue;
    const double x = s.x(support.station), low = s.y(s.frame.supports);
    const std::string text =
        support.name + "  " + print_station(support.station, s.input.project.units);
    const bool at_end = x > s.to() - 12;
    const double off = 1.5 + stem_beside(s, support, at_end);
    s.labels.text(s.board.masked_text(LetterUse::dimension, {x + (at_end ? -off : off), low}, text,
                                      at_end ? Align::right : Align::left, Stand::base));
  }
}

}  // namespace deckquire::sheets
