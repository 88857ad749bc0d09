// Cuts through a panel: the typical section with its falls, and enlarged parts of sections.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "paper/callout.h"
#include "paper/dimension.h"
#include "paper/leaders.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::ChainLine;
using paper::ChainPoint;
using paper::Group;
using paper::Heading;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;
using CutView = paper::View<SectionFrame>;

struct Cut {
  Board& board;
  const PanelJob& job;
  CutView view;
  double x = 0;              // where the panel is cut
  double low = 0, high = 0;  // y shown
  std::vector<CurbCut> curbs;

  PaperPoint at(double y, double z) const { return view(-y, z); }
  double top(double y) const { return job.shape().top(y); }
  ChainLine line(Heading heading, double across, bool bracketed = false) const {
    return job.chain_line(heading, across, bracketed);
  }
  /// A height above the soffit for a vertical chain whose extension starts at y.
  ChainPoint level(double z, double y) const { return {at(0, z).y, mm(z), at(y, z).x}; }
  /// A distance from the left for a horizontal chain.
  ChainPoint place(double y, double z) const { return {at(y, 0).x, mm(-y), at(y, z).y}; }
};

Cut cut_of(Board& board, const PanelJob& job, const PlacedView& place, double x,
           std::pair<double, double> range) {
  Cut c{board,
        job,
        {place.at, {-range.second, 0}, double(place.ratio), false, false},
        x,
        range.first,
        range.second,
        curbs_at(job.shape(), job.deck, x)};
  return c;
}

void title_under(const Cut& c, const PanelLayout& layout, PanelView v) {
  const Margins m = view_margins(c.board, c.job, v);
  const double y = layout[v].at.y - m.bottom + c.board.text_height(LetterUse::view_title) * 0.8;
  paper::view_title(c.board, {layout[v].at.x, y}, title_of(c.job, v), layout[v].ratio);
}

/// Edge depth and curb height at one side; depth at the high line is noted at its place.
void heights_at_edge(const Cut& c, Side side, double line_x) {
  const double edge = side == Side::left ? c.high : c.low;
  std::vector<ChainPoint> points{c.level(0, edge), c.level(c.top(edge), edge)};
  for (const CurbCut& curb : c.curbs)
    if (curb.side == side) points.push_back(c.level(curb.top, curb.outer));
  paper::chain(c.board, c.line(Heading::vertical, line_x), points);
}

void widths_below(const Cut& c) {
  std::vector<double> at{c.high, c.low};
  const double line = c.at(0, 0).y - c.board.style().first_dimension;
  std::vector<ChainPoint> ends{c.place(c.high, 0), c.place(c.low, 0)};
  paper::dimension(c.board, c.line(Heading::horizontal, line, true), ends[0], ends[1]);
}

/// Slim arrows down the two falls, with their per cents.
void fall_at(const Cut& c, double from, double to) {
  if (std::abs(to - from) < 1 || c.job.shape().slope == 0) return;
  const double lift = 4, middle = (from + to) / 2;
  const double half = 9, side = to < from ? 1 : -1;  // falling y runs to the right on paper
  PaperPoint p = c.at(middle, c.top(middle));
  p.y += lift;
  paper::arrow(c.board, PenUse::water, {p.x - side * half, p.y}, {p.x + side * half, p.y}, 2.5);
  const std::string text = shortest_decimal(std::abs(c.job.shape().slope) * 100, 2) + " %";
  c.board.text(LetterUse::note, {p.x, p.y + 1}, text, Align::centre);
}

void falls_above(const Cut& c) {
  const PanelShape& s = c.job.shape();
  const double mid = std::clamp(s.high_line, c.low, c.high);
  if (s.fall == Fall::crown) {
    fall_at(c, mid, c.high);
    fall_at(c, mid, c.low);
  }
  if (s.fall == Fall::left) fall_at(c, c.low, c.high);
  if (s.fall == Fall::right) fall_at(c, c.high, c.low);
}

/// Depth at the high line, dimensioned inside the section where the core is quiet.
void depth_at_high_line(const Cut& c) {
  const PanelShape& s = c.job.shape();
  const double y = std::clamp(s.high_line, c.low, c.high);
  const PaperPoint top = c.at(y, c.top(y));
  const bool inside = s.high_line > c.low - 0.5 && s.high_line < c.high + 0.5;
  const std::string text =
      "DEPTH " + c.job.print(c.top(y)) +
      (s.fall == Fall::crown && inside ? " AT HIGH LINE" : " AT THE HIGHER EDGE");
  const double note = c.board.text_height(LetterUse::note);
  // Higher where the section is so small that the note would reach the heights at its edge.
  const double end = top.x + 8 + c.board.text_width(LetterUse::note, text);
  const double lift = note * 2 + (end > c.at(c.low, 0).x - 4 ? 7 + 2.5 * note : 7);
  // A note at the right edge stands to its left, over the panel.
  const bool leftwards = y < c.low + 50;
  // The mark of the curb's detail stands above the other edge of a small section.
  const bool small = end - top.x > top.x - c.at(c.high, 0).x - 25;
  const std::string said = leftwards && small ? "DEPTH " + c.job.print(c.top(y)) : text;
  paper::leader_note(c.board, top, {top.x + (leftwards ? -8 : 8), top.y + lift}, said);
}

PaperBox curb_spot(const Cut& c, const CurbCut& curb) {
  const PaperPoint a = c.at(curb.inner, 0), b = c.at(curb.outer, curb.top);
  return PaperBox{{std::min(a.x, b.x), std::min(a.y, b.y)},
                  {std::max(a.x, b.x), std::max(a.y, b.y)}}
      .grown(2);
}

void refer_to_curb(const Cut& c, const PanelLayout& layout) {
  const bool there = layout[PanelView::curb].drawn || on_other_sheet(c.job, PanelView::curb);
  if (!there || c.curbs.empty()) return;
  const CurbCut& curb = c.curbs.front();
  const PaperBox spot = curb_spot(c, curb);
  const PaperPoint bar{spot.centre().x, spot.high.y + 10};
  paper::detail_mark(c.board, spot, bar, section_letter(c.job, PanelView::curb),
                     sheet_of(c.job, PanelView::curb));
}

// ---- enlarged parts

std::vector<Ring<SectionFrame>> window(const std::vector<Ring<SectionFrame>>& rings, double left,
                                       double right) {
  std::vector<Ring<SectionFrame>> out;
  for (const auto& r : rings) {
    Ring<SectionFrame> piece = clip<SectionFrame>(r, {-1, 0}, -left);
    piece = clip<SectionFrame>(piece, {1, 0}, right);
    if (piece.size() >= 3 && std::abs(area(piece)) > 1) out.push_back(std::move(piece));
  }
  return out;
}

PanelSection windowed(const PanelSection& s, double low, double high) {
  PanelSection out;
  const double left = -high, right = -low;
  out.body = window(s.body, left, right);
  out.skins = window(s.skins, left, right);
  out.core = window(s.core, left, right);
  out.curbs = window(s.curbs, left, right);
  out.surface = window(s.surface, left, right);
  out.steel = window(s.steel, left, right);
  out.pads = window(s.pads, left, right);
  return out;
}

/// Break lines where the window cuts the panel off.
void broken_ends(const Cut& c) {
  const auto spans = across(c.job.shape().outline, c.x);
  if (spans.empty()) return;
  for (double y : {c.low, c.high}) {
    if (y <= spans.front().first + 0.5 || y >= spans.back().second - 0.5) continue;
    const PaperPoint a = c.at(y, 0), b = c.at(y, c.top(y));
    paper::break_line(c.board, {a.x, a.y - 3}, {b.x, b.y + 3});
  }
}

/// Notes in a column at the right of the view, in the order of height.
struct Pointer {
  PaperPoint site;
  std::string text;
};

/// Notes in a column at x, right of the view or left of it.
void notes_beside(const Cut& c, const std::vector<Pointer>& list, double x) {
  std::vector<PaperPoint> sites;
  const std::vector<double> sizes(list.size(), c.board.pitch(LetterUse::note) + 0.4);
  for (const Pointer& p : list) sites.push_back(p.site);
  // Leaders turn level a little before their notes.
  const double knee = list.empty() || x > list.front().site.x ? x - 4.2 : x + 4.2;
  const std::vector<double> places = paper::place_along(sites, sizes, {knee, -1e6, 1e6});
  for (std::size_t i = 0; i < list.size(); ++i)
    paper::leader_note(c.board, list[i].site, {x, places[i]}, list[i].text, false);
}

std::vector<Pointer> layer_pointers(const Cut& c, double y) {
  const SectionData& s = c.job.deck.section;
  const double top = c.top(y);
  std::vector<Pointer> out;
  const int surface = c.job.shape().surface;
  if (surface >= 0) {
    const SurfaceData& d = c.job.deck.surfaces[static_cast<std::size_t>(surface)];
    out.push_back(
        {c.at(y, top + d.thickness.in_mm() / 2),
         fmt::format("WEARING SURFACE {}, {}", c.job.print(d.thickness.in_mm()), d.trade_class)});
  }
  out.push_back(
      {c.at(y, top - s.top_skin.in_mm() / 2), "TOP SKIN " + c.job.print(s.top_skin.in_mm())});
  out.push_back({c.at(y, top / 2), "CORE"});
  out.push_back(
      {c.at(y, s.bottom_skin.in_mm() / 2), "BOTTOM SKIN " + c.job.print(s.bottom_skin.in_mm())});
  return out;
}

void curb_dimensions(const Cut& c) {
  const CurbCut& curb = c.curbs.front();
  const bool left = curb.side == Side::left;
  const double out_x = left ? c.at(curb.outer, 0).x - 9 : c.at(curb.outer, 0).x + 9;
  // The outer side: edge depth and curb; the object lies on the other side of the line.
  heights_at_edge(c, curb.side, out_x);
  const double above = c.at(0, curb.top).y + 8;
  std::vector<double> at{curb.outer, curb.inner + curb.lean, curb.inner};
  std::sort(at.begin(), at.end(), std::greater<>());
  std::vector<ChainPoint> points;
  for (double y : at) points.push_back(c.place(y, y == curb.inner ? c.top(curb.inner) : curb.top));
  paper::chain(c.board, c.line(Heading::horizontal, above), points);
  if (!c.job.deck.section.drip) return;
  const DripData& d = *c.job.deck.section.drip;
  const double in = left ? -1 : 1;
  std::vector<double> drip{curb.outer, curb.outer + in * d.inset.in_mm(),
                           curb.outer + in * (d.inset + d.width).in_mm()};
  std::sort(drip.begin(), drip.end(), std::greater<>());
  std::vector<ChainPoint> below;
  for (double y : drip) below.push_back(c.place(y, 0));
  paper::chain(c.board, c.line(Heading::horizontal, c.at(0, 0).y - c.board.style().first_dimension),
               below);
}

std::vector<Pointer> curb_pointers(const Cut& c) {
  const CurbCut& curb = c.curbs.front();
  const DeckData& deck = c.job.deck;
  const double inside = curb.side == Side::left ? -1 : 1;
  const double end = curb.side == Side::left ? c.low : c.high;
  std::vector<Pointer> list =
      layer_pointers(c, curb.inner + inside * std::abs(end - curb.inner) * 0.6);
  list.push_back({c.at((curb.inner + curb.outer) / 2, (c.top(curb.inner) + curb.top) / 2),
                  "CURB " + c.job.print(deck.section.curb.height.in_mm()) + " ABOVE ITS FOOT"});
  if (deck.section.drip) {
    const double middle = (deck.section.drip->inset + deck.section.drip->width / 2).in_mm();
    list.push_back({c.at(curb.outer + inside * middle, deck.section.drip->depth.in_mm()),
                    "DRIP " + c.job.print(deck.section.drip->depth.in_mm()) + " DEEP"});
  }
  return list;
}

double right_side(const Cut& c) {
  return std::max(c.at(c.low, 0).x, c.at(c.high, 0).x);
}

void draw_curb_cut(const Cut& c) {
  if (c.curbs.empty()) return;
  curb_dimensions(c);
  // Away from the heights, which stand at the outer side of the curb.
  const double left = std::min(c.at(c.low, 0).x, c.at(c.high, 0).x);
  const bool heights_left = c.curbs.front().side == Side::left;
  notes_beside(c, curb_pointers(c), heights_left ? right_side(c) + 9 : left - 9);
}

// ---- scupper and recess

void grate_and_pipe(const Cut& c, const Feature& f, const ScuppersData& s) {
  const double level = c.top(f.at.y), half = s.grate_width.in_mm() / 2;
  std::vector<PaperPoint> grate =
      c.view(Ring<SectionFrame>{{-f.at.y - half, level - s.grate.in_mm()},
                                {-f.at.y + half, level - s.grate.in_mm()},
                                {-f.at.y + half, level},
                                {-f.at.y - half, level}});
  paper::hatch(c.board, {grate}, "steel");
  Path p;
  p.polygon(grate);
  c.board.stroke(PenUse::feature, p);
  const double r = s.outlet.in_mm() / 2, wall = s.outlet_wall.in_mm();
  const double end = c.at(0, 0).y - 8;
  for (double y : {f.at.y - r, f.at.y - r + wall, f.at.y + r - wall, f.at.y + r})
    c.board.line(PenUse::outline, c.at(y, 0), {c.at(y, 0).x, end});
  paper::break_line(c.board, {c.at(f.at.y + r, 0).x - 2, end}, {c.at(f.at.y - r, 0).x + 2, end});
}

std::vector<Pointer> scupper_pointers(const Cut& c, const Feature& f, const ScuppersData& s) {
  const double level = c.top(f.at.y);
  std::vector<Pointer> list{
      {c.at(f.at.y, level - s.grate.in_mm() / 2),
       fmt::format("GRATE {} x {} x {}, {} x {}", c.job.print(s.grate_length.in_mm()),
                   c.job.print(s.grate_width.in_mm()), c.job.print(s.grate.in_mm()), s.bolts,
                   s.bolt)},
      {c.at(f.at.y + s.outlet.in_mm() * 0.3, level - s.cavity.in_mm() * 0.8),
       "CAVITY " + c.job.print(s.cavity.in_mm()) + " DEEP"},
      {{c.at(f.at.y - s.outlet.in_mm() / 2, 0).x, c.at(0, 0).y - 5},
       fmt::format("OUTLET {}, END {} BELOW SOFFIT", c.job.print(s.outlet.in_mm()),
                   c.job.print(s.outlet_below.in_mm()))}};
  const std::string ref = c.job.reference(Detail::scupper);
  if (!ref.empty()) list.push_back({c.at(f.at.y - f.width / 2, level * 0.45), "SEE DETAIL " + ref});
  return list;
}

void draw_scupper_cut(const Cut& c, const Feature& f) {
  if (!c.job.deck.scuppers) return;
  const ScuppersData& s = *c.job.deck.scuppers;
  grate_and_pipe(c, f, s);
  notes_beside(c, scupper_pointers(c, f, s), right_side(c) + 11);
  // How far the grate stands off the curb.
  for (const CurbCut& curb : c.curbs) {
    if (static_cast<Side>(f.variant) != curb.side) continue;
    std::vector<double> at{curb.inner, f.at.y + s.grate_width.in_mm() / 2,
                           f.at.y - s.grate_width.in_mm() / 2};
    std::sort(at.begin(), at.end(), std::greater<>());
    std::vector<ChainPoint> points;
    for (double y : at) points.push_back(c.place(y, c.top(y)));
    paper::chain(c.board, c.line(Heading::horizontal, c.at(0, curb.top).y + 7), points);
  }
}

std::vector<Pointer> recess_pointers(const Cut& c, const Feature& f) {
  std::vector<Pointer> list{
      {c.at(f.at.y - f.width * 0.2, f.depth),
       fmt::format("LEFT ABOVE RECESS {}", c.job.print(c.top(f.at.y) - f.depth))}};
  const std::string ref = c.job.reference(Detail::recess);
  if (!ref.empty()) list.push_back({c.at(f.at.y - f.width / 2, f.depth / 2), "SEE DETAIL " + ref});
  return list;
}

void draw_recess_cut(const Cut& c, const Feature& f) {
  const double low = f.at.y - f.width / 2, high = f.at.y + f.width / 2;
  const double left = std::min(c.at(c.low, 0).x, c.at(c.high, 0).x);
  paper::dimension(c.board, c.line(Heading::horizontal, c.at(0, 0).y - 9), c.place(high, 0),
                   c.place(low, 0));
  paper::dimension(c.board, c.line(Heading::vertical, left - 6), c.level(0, high),
                   c.level(f.depth, high));
  notes_beside(c, recess_pointers(c, f), right_side(c) + 11);
}

std::vector<Pointer> pointers(const Cut& c, PanelView v, int feature) {
  if (v == PanelView::curb) return c.curbs.empty() ? std::vector<Pointer>{} : curb_pointers(c);
  if (feature < 0) return {};
  const Feature& f = c.job.shape().features[static_cast<std::size_t>(feature)];
  if (v == PanelView::recess) return recess_pointers(c, f);
  return c.job.deck.scuppers ? scupper_pointers(c, f, *c.job.deck.scuppers)
                             : std::vector<Pointer>{};
}

}  // namespace

double enlarged_note_width(const Board& board, const PanelJob& job, PanelView v) {
  const SectionWindow w = section_window(job, v);
  paper::Sheet scratch;
  Board on(scratch, board.style(), board.lettering());
  double width = 0;
  for (const Pointer& p : pointers(cut_of(on, job, {}, w.x, {w.low, w.high}), v, w.feature))
    width = std::max(width, board.text_width(LetterUse::note, p.text));
  return width;
}

void draw_typical_section(Board& board, const PanelJob& job, const PanelLayout& layout) {
  const PlacedView& place = layout[PanelView::section];
  if (!place.drawn) return;
  const std::string letter = section_letter(job, PanelView::section);
  const Group group(board, job.id("view-section"), "view",
                    "Section " + letter + "-" + letter + ", looking ahead");
  const double x = typical_cut(job.shape());
  const auto spans = across(job.shape().outline, x);
  if (spans.empty()) return;
  const Cut c = cut_of(board, job, place, x, {spans.front().first, spans.back().second});
  draw_section(board, c.view, cut_across(job.shape(), job.deck, x));
  const double first = board.style().first_dimension;
  heights_at_edge(c, Side::left, c.at(c.high, 0).x - first);
  heights_at_edge(c, Side::right, c.at(c.low, 0).x + first);
  widths_below(c);
  falls_above(c);
  depth_at_high_line(c);
  refer_to_curb(c, layout);
  title_under(c, layout, PanelView::section);
}

void draw_enlarged(Board& board, const PanelJob& job, const PanelLayout& layout, PanelView v) {
  const PlacedView& place = layout[v];
  if (!place.drawn) return;
  const SectionWindow w = section_window(job, v);
  const std::string letter = section_letter(job, v);
  const Group group(board, "view-" + letter, "view", "Enlarged, " + letter);
  const Cut c = cut_of(board, job, place, w.x, {w.low, w.high});
  draw_section(board, c.view, windowed(cut_across(job.shape(), job.deck, w.x), w.low, w.high));
  broken_ends(c);
  const Feature* f =
      w.feature >= 0 ? &job.shape().features[static_cast<std::size_t>(w.feature)] : nullptr;
  if (v == PanelView::curb) {
    draw_curb_cut(c);
    title_under(c, layout, v);
  } else if (v == PanelView::scupper && f) {
    draw_scupper_cut(c, *f);
    title_under(c, layout, v);
  } else if (f) {
    draw_recess_cut(c, *f);
    title_under(c, layout, v);
  }
}

}  // namespace deckquire::sheets
