// The plan of the whole bridge in its true shape, for the cover of a bridge that bends.
#include <cmath>

#include <fmt/format.h>

#include "bridge/curve_data.h"
#include "paper/view.h"
#include "sheets/deck_lines.h"
#include "sheets/erection_parts.h"
#include "sheets/overview.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;

/// The drawing: where bridge points lie, and what beside the deck is taken.
struct BentPlan {
  Board& board;
  const Overview& o;
  PlanFrame frame;
  NamesBeside& names;

  const Bridge& bridge() const { return o.input.bridge; }
  UnitSystem units() const { return o.input.project.units; }
  PaperPoint edge(double station, Side side) const {
    const Length at = mm(station);
    const Length offset =
        side == Side::left ? bridge().edges.left(at) : -bridge().edges.right(at);
    return frame({station, offset.in_mm()});
  }
  PaperPoint away(double station, Side side) const {
    return across_at(frame, station) * (side == Side::left ? 1.0 : -1.0);
  }
  void stroke(PenUse pen, const BridgeLine& line) const {
    Path path;
    for (BridgePoint p : line) path.empty() ? path.move(frame(p)) : path.line(frame(p));
    board.stroke(pen, std::move(path));
  }
};

/// The side on which the bend opens, for lengths and sheets; the other has the supports.
Side inside(const Alignment& a) {
  const double turn = a.heading(a.to().in_mm()) - a.heading(a.from().in_mm());
  return turn >= 0 ? Side::left : Side::right;
}
Side other(Side side) {
  return side == Side::left ? Side::right : Side::left;
}

BridgeLine parallel(const Alignment& a, double from, double to, double offset) {
  BridgeLine out;
  const int n = std::max(1, static_cast<int>((to - from) / 400));
  for (int i = 0; i <= n; ++i)
    out.push_back({i == n ? to : from + (to - from) * i / n, offset});
  return a.straight(mm(from), mm(to)) ? BridgeLine{out.front(), out.back()} : out;
}

void draw_deck(const BentPlan& d) {
  const Alignment& a = d.bridge().alignment;
  d.stroke(PenUse::centre, parallel(a, a.from().in_mm(), a.to().in_mm(), 0));
  for (const Girder& g : d.bridge().girders)
    d.stroke(PenUse::steel_hidden,
             girder_course(d.bridge(), g, g.from.in_mm(), g.to.in_mm(), 0));
  for (const Joint* j : shown_joints(d.o))
    d.board.line(j->end ? PenUse::outline : PenUse::thin,
                 d.frame(joint_end(d.bridge(), *j, Side::left)),
                 d.frame(joint_end(d.bridge(), *j, Side::right)));
  for (const RowJoint& r : d.o.input.deck.row_joints)
    d.stroke(PenUse::thin, parallel(a, r.from.in_mm(), r.to.in_mm(), r.offset.in_mm()));
  for (const Obstruction& ob : d.bridge().obstructions) {
    Path ring;
    ring.polygon(d.frame(ob.outline));
    d.board.stroke(PenUse::steel, ring);
  }
  std::vector<PaperPoint> ring = d.frame(whole_outline(d.o.input));
  Path outline;
  outline.polygon(ring);
  d.board.stroke(PenUse::outline, outline);
  ring.push_back(ring.front());
  d.names.keep_off(ring);
}

void draw_supports(const BentPlan& d, Side side) {
  for (const Support& s : d.bridge().supports) {
    const double at = s.station.in_mm();
    const PaperPoint foot = d.edge(at, side) + d.away(at, side) * 3;
    d.board.line(PenUse::centre, d.edge(at, other(side)) + d.away(at, other(side)) * 1.5, foot);
    const std::string kind = s.abutment ? "abutment " : "pier ";
    d.names.put(LetterUse::note, {kind + s.name, print_station(s.station, d.units())},
                foot + d.away(at, side) * 0.8, d.away(at, side));
  }
}

/// Match lines between strips; sheet and strip beside their middles.
void draw_sheets(const BentPlan& d, Side side) {
  const std::vector<SheetPart> parts = sheet_parts(d.board, d.o);
  for (const SheetPart& p : parts) {
    if (&p != &parts.front()) {
      const PaperPoint left = d.frame(joint_end(d.bridge(), *p.back, Side::left));
      const PaperPoint right = d.frame(joint_end(d.bridge(), *p.back, Side::right));
      const PaperPoint across = left - right;
      const PaperPoint over = across * (3 / std::hypot(across.x, across.y));
      d.board.line(PenUse::match, left + over, right - over);
      d.names.keep_off({left, left + over * 1.2});
      d.names.keep_off({right, right - over * 1.2});
    }
    const double middle = (p.from + (p.to - p.from) / 2).in_mm();
    const paper::Group link(d.board, "", "reference", "", p.sheet);
    d.names.put(LetterUse::note, {"sheet " + p.sheet},
                d.edge(middle, side) + d.away(middle, side) * 2, d.away(middle, side));
  }
}

void draw_elements(const BentPlan& d, Side side) {
  const std::vector<ElementData> elements = element_data(d.bridge().alignment);
  for (const ElementData& e : elements) {
    if (&e != &elements.front()) {
      const PaperPoint a = d.edge(e.from, side), out = d.away(e.from, side);
      d.board.line(PenUse::dimension, a, a + out * 7);
      d.names.keep_off({a, a + out * 7});
      d.names.put(LetterUse::note, {print_station(mm(e.from), d.units())}, a + out * 8, out);
    }
    const double middle = (e.from + e.to) / 2;
    d.names.put(LetterUse::note, {element_text(e, d.units())},
                d.edge(middle, side) + d.away(middle, side) * 9, d.away(middle, side));
  }
}

void draw_spans(const BentPlan& d, Side side) {
  for (const SpanRun& s : d.o.input.deck.spans) {
    const double middle = (s.from + (s.to - s.from) / 2).in_mm();
    const std::string length = print_length(s.to - s.from, d.units());
    d.names.put(LetterUse::note,
                {fmt::format("span {}, {} panels, {}", s.name, s.count, length)},
                d.edge(middle, side) + d.away(middle, side) * 14, d.away(middle, side));
  }
}

void draw_ahead(const BentPlan& d) {
  const double end = d.bridge().alignment.to().in_mm();
  const PaperPoint across = across_at(d.frame, end), ahead{across.y, -across.x};
  const PaperPoint from = d.frame({end, 0}) + ahead * 3;
  paper::arrow(d.board, PenUse::dimension, from, from + ahead * 12);
  d.names.keep_off({from, from + ahead * 13});
}

}  // namespace

double draw_bent_plan(Board& board, const Overview& o, double top) {
  const PaperPoint size = bent_size(o.input) * (1.0 / o.ratio);
  const double air = 3 * board.pitch(LetterUse::note) + 6;  // names above and below
  const double low = top - size.y - 2 * air;
  const PaperBox within{{o.box.low.x, low}, {o.box.high.x, top}};
  NamesBeside names(board, within);
  const PaperPoint corner{o.box.centre().x - size.x / 2, top - air};
  const BentPlan d{board, o, bent_frame(o.input, {{corner.x, low}, corner}, o.ratio, 0), names};
  const Side side = inside(o.input.bridge.alignment);
  names.keep_off({{o.box.low.x, top - 7}, {o.box.low.x + 16, top - 7}});
  draw_deck(d);
  draw_ahead(d);
  draw_supports(d, other(side));
  draw_sheets(d, side);
  draw_elements(d, side);
  draw_spans(d, side);
  north_arrow(board, {o.box.low.x + 7, top - 8}, 6.5, north_on_paper(o.input.bridge));
  view_title(board, {o.box.low.x, low - board.text_height(LetterUse::view_title) - 2},
             "KEY PLAN IN TRUE SHAPE, SHEETS AND STATIONS", o.ratio);
  overview_bar(board, o, low - board.text_height(LetterUse::view_title) - 2);
  return low - board.text_height(LetterUse::view_title) - 8;
}

}  // namespace deckquire::sheets
