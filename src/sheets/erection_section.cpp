// The section of the deck on its girders, where most panels are alike, and where it is widest.
#include <algorithm>
#include <cmath>

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

/// Where the section is cut: the panels side by side there, from the left, and x in them.
struct Cut {
  std::vector<const Panel*> panels;
  double x = 0;
  const PanelShape& left() const { return panels.front()->shape; }
  const PanelShape& right() const { return panels.back()->shape; }
  double length() const { return left().length; }
};

bool meets_other(const PanelShape& shape, double x) {
  return std::any_of(shape.features.begin(), shape.features.end(), [&](const Feature& f) {
    const auto b = f.box();
    const bool plain = f.kind == FeatureKind::pad || f.kind == FeatureKind::post_plate;
    return !plain && x > b.low.x - 20 && x < b.high.x + 20;
  });
}

/// A square cut at x lies between the end faces.
bool inside_ends(const PanelShape& s, double x) {
  for (double y : {s.left_back, s.right_back, s.left_ahead, s.right_ahead})
    if (x <= s.back_x(y) || x >= s.ahead_x(y)) return false;
  return true;
}

Cut cut_at(const Deck& deck, const Bay& bay, double x) {
  Cut out;
  out.x = x;
  for (int i = 0; i < bay.count; ++i)
    out.panels.push_back(&deck.panels[static_cast<std::size_t>(bay.first + i)]);
  return out;
}

bool any_meets_other(const Cut& cut) {
  return std::any_of(cut.panels.begin(), cut.panels.end(),
                     [&](const Panel* p) { return meets_other(p->shape, cut.x); });
}

bool all_inside(const Cut& cut) {
  return std::all_of(cut.panels.begin(), cut.panels.end(),
                     [&](const Panel* p) { return inside_ends(p->shape, cut.x); });
}

double edge_at(double back, double ahead, const Cut& cut) {
  return back + (ahead - back) * cut.x / cut.length();
}
double left_at(const Cut& cut) {
  return edge_at(cut.left().left_back, cut.left().left_ahead, cut);
}
double right_at(const Cut& cut) {
  return edge_at(cut.right().right_back, cut.right().right_ahead, cut);
}

/// Through a post plate of a bay with the most frequent marks and parallel edges, if there is one
/// clear of other features; else through such a bay's clear middle.
Cut choose_cut(const Deck& deck) {
  Cut best;
  double most = -1;
  for (const Bay& bay : bays_of(deck, 0, static_cast<int>(deck.panels.size()))) {
    Cut cut = cut_at(deck, bay, 0);
    const bool parallel = cut.left().left_back == cut.left().left_ahead &&
                          cut.right().right_back == cut.right().right_ahead;
    std::vector<double> places{cut.length() / 2, cut.length() / 3};
    int quantity = 0;
    for (const Panel* p : cut.panels) {
      quantity += deck.marks[static_cast<std::size_t>(p->mark)].quantity;
      for (const Feature& f : p->shape.features)
        if (f.kind == FeatureKind::post_plate) places.insert(places.begin(), f.at.x);
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
      const bool plate = i + 2 < places.size();
      cut.x = places[i];
      const double score = quantity + (parallel ? 1000 : 0) + (plate ? 200 : 0) +
                           (any_meets_other(cut) ? -400 : 0) + (all_inside(cut) ? 0 : -5000);
      if (score > most) most = score, best = cut;
    }
  }
  return best;
}

struct SectionDrawing {
  paper::Board& board;
  const SetInput& input;
  const Cut& cut;
  paper::View<SectionFrame> view;

  UnitSystem units() const { return input.project.units; }
  std::string print(Length v) const { return print_length(v, units()); }
  PaperPoint at(double y, double z) const { return view(-y, z); }
  double left() const { return left_at(cut); }
  double right() const { return right_at(cut); }
  /// Station of the cut on the alignment, and the y of an offset there.
  double station() const { return cut.panels.front()->start.in_mm() + cut.x; }
  double across(double offset) const {
    return cut.panels.front()->frame.panel(input.bridge.alignment, {station(), offset}).y;
  }
  double girder(const Girder& g) const { return across(girder_offset(input.bridge, g, station())); }
};

/// Top flange and the beginning of the web, broken off: the steel is by others.
void draw_girder(const SectionDrawing& d, const Girder& g, double pad) {
  const double half = g.flange.in_mm() / 2, y = d.girder(g), under = -pad - 20;
  const double down = d.view.ratio * 9, web = 8;
  paper::Path p;
  p.polygon(
      {d.at(y - half, -pad), d.at(y + half, -pad), d.at(y + half, under), d.at(y - half, under)});
  p.segment(d.at(y + web, under), d.at(y + web, under - down));
  p.segment(d.at(y - web, under), d.at(y - web, under - down));
  d.board.stroke(PenUse::steel, std::move(p));
  const PaperPoint foot = d.at(y, under - down);
  paper::break_line(d.board, {foot.x - 3, foot.y}, {foot.x + 3, foot.y});
  d.board.text(LetterUse::serial, {foot.x + 4, foot.y + 2}, g.name);
}

double pad_thickness(const SetInput& input) {
  return input.project.deck.pads ? input.project.deck.pads->thickness.in_mm() : 0;
}

void draw_falls(const SectionDrawing& d, double top) {
  const PanelShape& shape = d.cut.left();
  if (shape.slope == 0 || shape.fall == Fall::none) return;
  const std::string text = shortest_decimal(shape.slope * 100, 2) + " %";
  const auto fall = [&](double y, double sign) {
    const PaperPoint c{d.at(y, 0).x, top + 2};
    const double way = 6 * sign;
    paper::arrow(d.board, PenUse::water, {c.x - way, c.y}, {c.x + way, c.y}, 2.5);
    d.board.text(LetterUse::dimension, {c.x, c.y + 1}, text, Align::centre);
  };
  if (shape.fall != Fall::right) fall((shape.high_line + d.left()) / 2, -1);
  if (shape.fall != Fall::left) fall((shape.high_line + d.right()) / 2, 1);
}

/// Widths above: edge, curbs, high line, edge; below: girders from the alignment.
void width_chain(const SectionDrawing& d, std::vector<double> at, double across, double from) {
  std::sort(at.begin(), at.end(), std::greater<>());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  std::vector<paper::ChainPoint> points;
  for (double y : at) points.push_back({d.at(y, 0).x, mm(at.front() - y), from});
  paper::ChainLine line;
  line.across = across;
  line.units = d.units();
  line.merge = false;
  paper::chain(d.board, line, points);
}

void height(const SectionDrawing& d, double x, double from, double z0, double z1) {
  paper::ChainLine line;
  line.heading = paper::Heading::vertical;
  line.across = x;
  line.units = d.units();
  const double y0 = d.at(0, z0).y, y1 = d.at(0, z1).y;
  paper::dimension(d.board, line, {y0, mm(0), from}, {y1, mm(z1 - z0), from});
}

/// Edges and curbs of all panels of the cut, and the faces between them.
std::vector<double> faces(const SectionDrawing& d) {
  std::vector<double> out{d.left(), d.right()};
  bool in_gap = true;  // the high line, between two rows: it has no edge of its own
  for (const Panel* p : d.cut.panels) {
    const PanelShape& s = p->shape;
    in_gap = in_gap && (s.high_line > edge_at(s.left_back, s.left_ahead, d.cut) ||
                        s.high_line < edge_at(s.right_back, s.right_ahead, d.cut));
  }
  if (!in_gap) out.push_back(d.cut.left().high_line);
  for (const Panel* p : d.cut.panels) {
    for (const CurbCut& c : curbs_at(p->shape, d.input.project.deck, d.cut.x))
      out.push_back(c.inner);
    const PanelShape& s = p->shape;
    if (s.left_joint) out.push_back(edge_at(s.left_back, s.left_ahead, d.cut));
    if (s.right_joint) out.push_back(edge_at(s.right_back, s.right_ahead, d.cut));
  }
  return out;
}

void dimension_section(const SectionDrawing& d, double top, double below) {
  const paper::Style& style = d.board.style();
  // Narrow curbs put their figures outside the chain: the overall lies beyond them, and is drawn
  // first so that its lines break around them.
  width_chain(d, {d.left(), d.right()},
              top + style.first_dimension + style.next_dimension +
                  d.board.text_height(LetterUse::dimension),
              top);
  width_chain(d, faces(d), top + style.first_dimension, top);
  std::vector<double> under{d.left(), d.right(), d.across(0)};
  for (const Girder& g : d.input.bridge.girders) under.push_back(d.girder(g));
  width_chain(d, under, below - 7, below);
  const double left = d.at(d.left(), 0).x, right = d.at(d.right(), 0).x;
  const double first = style.first_dimension;
  height(d, left - first, left, 0, d.cut.left().top(d.left()));
  double curb_top = d.cut.right().top(d.right());
  for (const CurbCut& c : curbs_at(d.cut.right(), d.input.project.deck, d.cut.x))
    curb_top = std::max(curb_top, c.top);
  height(d, right + first, right, 0, curb_top);
}

std::vector<std::string> section_notes(const SetInput& input) {
  const DeckData& deck = input.project.deck;
  const auto print = [&](Length v) { return print_length(v, input.project.units); };
  std::vector<std::string> out;
  out.push_back(fmt::format("Looking ahead. Depth at the high line {}; edge depths follow from the fall.",
                            print(deck.section.depth)));
  if (deck.pads)
    out.push_back(fmt::format("Pad {} x {} thick under the soffit along each girder: {}.",
                              print(deck.pads->width), print(deck.pads->thickness),
                              deck.pads->material));
  if (deck.section.curb.sides != CurbSides::none)
    out.push_back(fmt::format("Curb {} high above the deck at its inner face, {} wide at the foot.",
                              print(deck.section.curb.height), print(deck.section.curb.width)));
  if (deck.posts)
    out.push_back(
        fmt::format("Post plate tapped {}, moulded in the curb.", deck.posts->plate.thread));
  out.push_back("Girders, rails and posts are by others.");
  return out;
}

double width_at(const Cut& cut) {
  return left_at(cut) - right_at(cut);
}

/// The bay with the widest end, cut there or, with parallel edges, where it is clear.
Cut widest_cut(const Deck& deck) {
  Cut best;
  double most = 0;
  for (const Bay& bay : bays_of(deck, 0, static_cast<int>(deck.panels.size())))
    for (double x : {0.5, 0.3, 0.0, 1.0}) {
      Cut cut = cut_at(deck, bay, 0);
      cut.x = cut.length() * x;
      const double width = width_at(cut);
      cut.x = std::clamp(cut.x, 1.0, cut.length() - 1);
      const bool skewed = !cut.left().square() && !all_inside(cut);
      if (width <= most + 1 || any_meets_other(cut) || skewed) continue;
      most = width;
      best = cut;
    }
  return best;
}

/// Draws the cut at the top of `room`; returns the y of its lowest dimension.
double draw_cut(paper::Board& board, const SetInput& input, const SetPlan& plan, const Cut& cut,
                const PaperBox& room) {
  const int ratio = section_ratio(input, 0);
  const paper::Style& style = board.style();
  const double letters = board.text_height(LetterUse::dimension);
  const double tiers = style.first_dimension + style.next_dimension + 2 * letters + 4;
  const double curb = input.project.deck.section.curb.height.in_mm();
  const double tall = cut.left().depth + curb;
  const double z0 = room.high.y - tiers - tall / ratio;
  SectionDrawing d{board, input, cut, {}};
  d.view.ratio = ratio;
  d.view.base = {-d.left(), 0};
  d.view.origin = {room.low.x + style.first_dimension + letters + 4, z0};
  for (const Panel* p : cut.panels)
    draw_section(board, d.view, cut_across(p->shape, input.project.deck, cut.x));
  const double pad = pad_thickness(input), below = z0 - (pad + 20) / ratio - 11;
  const Panel& front = *cut.panels.front();
  for (const Girder& g : input.bridge.girders)
    if (g.from <= front.start && g.to >= front.end) draw_girder(d, g, pad);
  draw_falls(d, z0 + cut.left().depth / ratio + 1.5);
  dimension_section(d, z0 + tall / ratio, below);
  const DetailRef* ref = plan.find(Detail::curb);
  if (ref != nullptr && curb > 0) {
    const double half = input.project.deck.section.curb.width.in_mm() / 2;
    const PaperPoint c = d.at(d.right() + half, tall - curb / 2);
    const double bar = d.at(d.right(), 0).x + style.first_dimension + letters + 6;
    paper::detail_mark(board, {{c.x - 5, c.y - 4}, {c.x + 5, c.y + 4}},
                       {bar, z0 + tall / ratio + 8}, ref->letter, ref->sheet);
  }
  return below - 7;
}

/// The box of a section from `y` up: as far to the right as the items from `first` on reach.
PaperBox taken(paper::Board& board, const PaperBox& room, double y, std::size_t first) {
  const std::vector<paper::Item>& items = board.sheet().items;
  double right = room.low.x;
  for (std::size_t i = first; i < items.size(); ++i)
    if (const auto* stroke = std::get_if<paper::Stroke>(&items[i]))
      right = std::max(right, paper::bounds(stroke->path).high.x);
    else if (const auto* text = std::get_if<paper::Text>(&items[i]))
      right = std::max(right, paper::text_box(*text).high.x);
  return {{room.low.x, y}, {std::min(room.high.x, right), room.high.y}};
}

}  // namespace

namespace {

/// The panels of a cut stand side by side, one after the other in the deck.
std::string positions_of(const Deck& deck, const Cut& cut) {
  const int count = static_cast<int>(cut.panels.size());
  return fmt::format("POSITION{} {}", count > 1 ? "S" : "",
                     positions_in_order(deck, index_of(deck, *cut.panels.front()), count));
}

}  // namespace

PaperBox draw_typical_section(paper::Board& board, const SetInput& input, const SetPlan& plan,
                              const PaperBox& room) {
  const Cut cut = choose_cut(input.deck);
  if (cut.panels.empty()) return {room.low, room.high};
  const std::size_t first = board.sheet().items.size();
  const paper::Group group(board, "typical-section", "view", "typical section, looking ahead");
  const double left =
      room.low.x + board.style().first_dimension + board.text_height(LetterUse::dimension) + 4;
  double y = draw_cut(board, input, plan, cut, room) - board.text_height(LetterUse::view_title) - 5;
  const std::string title = "SECTION, " + positions_of(input.deck, cut);
  paper::view_title(board, {left, y}, title, section_ratio(input, 0));
  y -= 5;
  const double width = std::min(room.high.x - left, width_at(cut) / section_ratio(input, 0) + 20);
  for (const std::string& note : section_notes(input))
    y = board.paragraph(LetterUse::note, {left, y}, width, note);
  return taken(board, room, y, first);
}

PaperBox draw_widest_section(paper::Board& board, const SetInput& input, const SetPlan& plan,
                             const PaperBox& room) {
  const PaperBox nothing{{room.low.x, room.high.y}, {room.low.x, room.high.y}};
  const Cut typical = choose_cut(input.deck), widest = widest_cut(input.deck);
  if (widest.panels.empty() || width_at(widest) < width_at(typical) + 50) return nothing;
  const paper::PaperPoint need = section_room(input, section_ratio(input, 0));
  if (need.x > room.width() || need.y > room.height()) return nothing;
  const std::size_t first_item = board.sheet().items.size();
  const paper::Group group(board, "widest-section", "view", "section at the widest place");
  const double left =
      room.low.x + board.style().first_dimension + board.text_height(LetterUse::dimension) + 4;
  double y =
      draw_cut(board, input, plan, widest, room) - board.text_height(LetterUse::view_title) - 5;
  const Length station = widest.panels.front()->start + mm(widest.x);
  const std::string title = fmt::format(
      "WIDEST SECTION, {}, {}", print_station(station, input.project.units), positions_of(input.deck, widest));
  paper::view_title(board, {left, y}, title, section_ratio(input, 0));
  return taken(board, room, y - 4, first_item);
}

}  // namespace deckquire::sheets
