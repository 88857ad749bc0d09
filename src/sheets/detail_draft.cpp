#include "sheets/detail_draft.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace deckquire::sheets {

using paper::Align;
using paper::Board;
using paper::Heading;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

namespace {

constexpr double hair = 1e-6;         // mm of model
constexpr double note_widths = 21;    // width of a note in heights of its letters
constexpr double note_distance = 12;  // mm from the view to its notes

std::size_t index(Edge e) {
  return static_cast<std::size_t>(e);
}

Cut clipped(const Cut& ring, const CutBox& b) {
  Cut out = clip<SectionFrame>(ring, {1, 0}, b.high.x);
  out = clip<SectionFrame>(out, {-1, 0}, -b.low.x);
  out = clip<SectionFrame>(out, {0, 1}, b.high.y);
  return clip<SectionFrame>(out, {0, -1}, -b.low.y);
}

void include(PaperBox& b, PaperPoint p) {
  b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
  b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
}

PaperBox nothing() {
  constexpr double far = std::numeric_limits<double>::infinity();
  return {{far, far}, {-far, -far}};
}

PaperBox moved(const PaperBox& b, PaperPoint by) {
  return {b.low + by, b.high + by};
}

PaperBox joined(const PaperBox& a, const PaperBox& b) {
  PaperBox out = a;
  include(out, b.low);
  include(out, b.high);
  return out;
}

/// Values of a chain that stands on half millimetres (a pattern about a middle): whole ones would
/// print what is symmetrical as if it were not. Empty: whole millimetres do.
std::vector<std::string> half_labels(const std::vector<paper::ChainPoint>& points,
                                     UnitSystem units) {
  constexpr std::int64_t half = 500'000, slack = 1'000;  // nm
  bool whole = true;
  std::vector<std::string> out;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const Length d = points[i].model - points[i - 1].model;
    const std::int64_t halves = whole_units(d, Length::from_nanometres(half));
    if (std::abs(d.in_nanometres() - halves * half) > slack) return {};
    whole = whole && halves % 2 == 0;
    out.push_back(print_length(Length::from_nanometres(halves * half), units));
  }
  return whole || units != UnitSystem::metric ? std::vector<std::string>{} : out;
}

std::string joined_lines(const std::vector<std::string>& lines) {
  return join(lines, "\n");
}

}  // namespace

Cut rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

Draft::Draft(Board& board, const SetInput& input, const Window& window, PaperPoint corner,
             DetailUse* use)
    : board_(board),
      units_(input.project.units),
      window_(window),
      view_{corner, window.box.low, static_cast<double>(window.ratio)},
      use_(use),
      first_item_(board.sheet().items.size()) {
  if (use_ != nullptr) use_->ratios.insert(window.ratio);
}

bool Draft::on_border(SectionPoint a, SectionPoint b) const {
  const CutBox& w = window_.box;
  const auto at = [](double u, double v, double border) {
    return std::abs(u - border) < hair && std::abs(v - border) < hair;
  };
  return at(a.x, b.x, w.low.x) || at(a.x, b.x, w.high.x) || at(a.y, b.y, w.low.y) ||
         at(a.y, b.y, w.high.y);
}

void Draft::faces(const std::vector<Cut>& rings, const std::string& material, PenUse pen,
                  bool over) {
  std::vector<std::vector<PaperPoint>> on_sheet;
  Path outline;
  for (const Cut& whole : rings) {
    const Cut part = clipped(whole, window_.box);
    if (part.size() < 3 || std::abs(area(part)) < hair) continue;
    on_sheet.push_back(view_(part));
    bool drawing = false;
    for (std::size_t i = 0; i < part.size(); ++i) {
      const SectionPoint a = part[i], b = part[(i + 1) % part.size()];
      const bool skip = on_border(a, b);
      if (!skip && !drawing) outline.move(view_(a));
      if (!skip) outline.line(view_(b));
      drawing = !skip;
    }
  }
  if (on_sheet.empty()) return;
  if (over) {
    Path white;
    for (const auto& r : on_sheet) white.polygon(r);
    board_.fill(paper::Ink::white, white);
  }
  if (!material.empty()) {
    paper::hatch(board_, on_sheet, material);
    if (use_ != nullptr) use_->materials.insert(material);
  }
  board_.stroke(pen, outline);
}

void Draft::section(const PanelSection& s) {
  faces(s.core, "core", PenUse::thin);
  faces(s.skins, "laminate", PenUse::thin);
  faces(s.curbs, "curb", PenUse::cut);
  faces(s.surface, "surface", PenUse::thin);
  faces(s.pads, "bearing", PenUse::thin);
  faces(s.body, "", PenUse::cut);
}

void Draft::line(PenUse pen, SectionPoint a, SectionPoint b) {
  board_.line(pen, view_(a), view_(b));
}

void Draft::path(PenUse pen, const std::vector<SectionPoint>& points) {
  Path p;
  for (std::size_t i = 0; i < points.size(); ++i) {
    i == 0 ? p.move(view_(points[i])) : p.line(view_(points[i]));
  }
  board_.stroke(pen, p);
}

void Draft::ring(PenUse pen, const Cut& ring) {
  Path p;
  p.polygon(view_(ring));
  board_.stroke(pen, p);
}

void Draft::box(PenUse pen, const CutBox& b) {
  ring(pen, box_ring(b));
}

void Draft::circle(PenUse pen, SectionPoint centre, double diameter) {
  Path p;
  p.circle(view_(centre), view_.size(diameter) / 2);
  board_.stroke(pen, p);
}

void Draft::tapped_hole(SectionPoint centre, double thread) {
  circle(PenUse::outline, centre, drawn_core * thread);
  const PaperPoint c = view_(centre);
  const double r = view_.size(thread) / 2, k = 0.5523 * r;  // cubic quarter circles
  Path p;
  p.move({c.x - r, c.y});
  p.curve({c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r});
  p.curve({c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y});
  p.curve({c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r});
  board_.stroke(PenUse::thin, p);
}

void Draft::clear(const CutBox& b) {
  Path p;
  p.polygon(view_(box_ring(b)));
  board_.fill(paper::Ink::white, p);
}

void Draft::centre_cross(SectionPoint at, double reach) {
  line(PenUse::centre, {at.x - reach, at.y}, {at.x + reach, at.y});
  line(PenUse::centre, {at.x, at.y - reach}, {at.x, at.y + reach});
}

void Draft::broken_edge(Edge edge, double from, double to) {
  const CutBox& w = window_.box;
  const double over = 2.0 * window_.ratio;
  SectionPoint a, b;
  if (edge == Edge::left || edge == Edge::right) {
    const double x = edge == Edge::left ? w.low.x : w.high.x;
    a = {x, from - over}, b = {x, to + over};
  } else {
    const double y = edge == Edge::below ? w.low.y : w.high.y;
    a = {from - over, y}, b = {to + over, y};
  }
  paper::break_line(board_, view_(a), view_(b));
}

void Draft::chain(Edge edge, int tier, std::vector<SectionPoint> points) {
  const bool level = edge == Edge::below || edge == Edge::above;
  std::stable_sort(points.begin(), points.end(),
                   [&](SectionPoint a, SectionPoint b) { return level ? a.x < b.x : a.y < b.y; });
  const auto& s = board_.style();
  const double away = s.first_dimension + tier * paper::wide_pitch(board_);
  const PaperPoint low = view_(window_.box.low), high = view_(window_.box.high);
  paper::ChainLine line;
  line.heading = level ? Heading::horizontal : Heading::vertical;
  line.units = units_;
  line.across = edge == Edge::below   ? low.y - away
                : edge == Edge::above ? high.y + away
                : edge == Edge::left  ? low.x - away
                                      : high.x + away;
  std::vector<paper::ChainPoint> list;
  for (SectionPoint p : points) {
    const PaperPoint q = view_(p);
    if (level) {
      list.push_back({q.x, mm(p.x), q.y});
    } else {
      list.push_back({q.y, mm(p.y), q.x});
    }
  }
  line.labels = half_labels(list, units_);
  chains_.push_back({tier, line, list});
  tiers_[index(edge)] = std::max(tiers_[index(edge)], tier + 1);
}

void Draft::gauge(Heading heading, double at, SectionPoint a, SectionPoint b) {
  paper::ChainLine line;
  line.heading = heading;
  line.units = units_;
  const PaperPoint p = view_(a), q = view_(b);
  if (heading == Heading::vertical) {
    line.across = view_(at, 0).x;
    chains_.push_back({0, line, {{p.y, mm(a.y), p.x}, {q.y, mm(b.y), q.x}}});
  } else {
    line.across = view_(0, at).y;
    chains_.push_back({0, line, {{p.x, mm(a.x), p.y}, {q.x, mm(b.x), q.y}}});
  }
}

void Draft::note(Edge side, SectionPoint site, const std::string& text) {
  const double width = note_widths * board_.text_height(LetterUse::note);
  notes_[index(side)].push_back(
      {view_(site), "", joined_lines(board_.broken(LetterUse::note, width, text))});
}

double Draft::column(Edge side) const {
  const double chains =
      tiers_[index(side)] == 0
          ? 0
          : board_.style().first_dimension + (tiers_[index(side)] - 1) * wide_pitch(board_);
  const double away = chains + note_distance;
  return side == Edge::left ? view_(window_.box.low).x - away : view_(window_.box.high).x + away;
}

void Draft::place_notes(Edge side) {
  auto& list = notes_[index(side)];
  if (list.empty()) return;
  const double low = view_(window_.box.low).y, high = view_(window_.box.high).y;
  const double need = paper::column_height(board_, list), air = (need - (high - low)) / 2;
  paper::CalloutColumns columns;
  columns.left = columns.right = column(side);
  columns.low = air > 0 ? low - air : low;
  columns.high = air > 0 ? high + air : high;
  paper::callout_column(board_, columns, side == Edge::left ? -1 : 1, list);
}

void Draft::draw_chains() {
  std::stable_sort(chains_.begin(), chains_.end(),
                   [](const Chain& a, const Chain& b) { return a.tier > b.tier; });
  for (const Chain& c : chains_) paper::chain(board_, c.line, c.points);
  chains_.clear();
}

void Draft::finish(const std::string& title) {
  place_notes(Edge::left);
  place_notes(Edge::right);
  draw_chains();
  if (title.empty()) return;
  const PaperBox b = drawn_box(board_.sheet(), first_item_);
  const double x = view_(window_.box.low).x, h = board_.text_height(LetterUse::heading);
  const PaperBox t =
      board_.text(LetterUse::heading, {x, b.low.y - 5}, title, Align::left, Stand::top);
  board_.text(LetterUse::heading, {t.high.x + 2 * h, b.low.y - 5},
              board_.style().scale_name(window_.ratio), Align::left, Stand::top);
}

PaperBox drawn_box(const paper::Sheet& sheet, std::size_t first) {
  PaperBox out = nothing();
  for (std::size_t i = first; i < sheet.items.size(); ++i) {
    if (const auto* s = std::get_if<paper::Stroke>(&sheet.items[i])) {
      for (PaperPoint p : s->path.points) include(out, p);
    } else if (const auto* f = std::get_if<paper::Fill>(&sheet.items[i])) {
      for (PaperPoint p : f->path.points) include(out, p);
    } else if (const auto* t = std::get_if<paper::Text>(&sheet.items[i])) {
      out = joined(out, text_box(*t));
    }
  }
  return out;
}

Piece measured(const SetInput& input, std::function<void(Board&, PaperPoint, DetailUse*)> draw) {
  paper::Sheet scratch;
  Board board(scratch, input.style, input.lettering);
  DetailUse use;
  draw(board, {0, 0}, &use);
  return {std::move(draw), drawn_box(scratch, 0), use.ratios.empty() ? 0 : *use.ratios.begin()};
}

namespace {

Piece grouped(const std::vector<Piece>& pieces, const std::vector<PaperPoint>& corners) {
  PaperBox box = nothing();
  for (std::size_t i = 0; i < pieces.size(); ++i)
    box = joined(box, moved(pieces[i].box, corners[i]));
  return {[pieces, corners](Board& board, PaperPoint at, DetailUse* use) {
            for (std::size_t i = 0; i < pieces.size(); ++i) {
              pieces[i].draw(board, at + corners[i], use);
            }
          },
          box, pieces.front().ratio};
}

}  // namespace

Piece beside(const std::vector<Piece>& pieces, double gap) {
  std::vector<PaperPoint> corners;
  double x = 0;
  for (const Piece& p : pieces) {
    corners.push_back({x - p.box.low.x, -p.box.low.y});
    x += p.box.width() + gap;
  }
  return grouped(pieces, corners);
}

Piece stacked(const std::vector<Piece>& pieces, double gap) {
  std::vector<PaperPoint> corners;
  double y = 0;
  for (const Piece& p : pieces) {
    corners.push_back({0, y - p.box.high.y});
    y -= p.box.height() + gap;
  }
  return grouped(pieces, corners);
}

}  // namespace deckquire::sheets
