#include "sheets/panel_drawing.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using PlanView = paper::View<PanelFrame>;

Path closed(const std::vector<PaperPoint>& ring) {
  Path p;
  p.polygon(ring);
  return p;
}

/// A box along the feature's own axes: half sizes a along, b across.
Ring<PanelFrame> turned_box(const Feature& f, double a, double b) {
  const double c = std::cos(f.angle), s = std::sin(f.angle);
  Ring<PanelFrame> out;
  for (auto [u, v] : {std::pair{-a, -b}, {a, -b}, {a, b}, {-a, b}})
    out.push_back({f.at.x + u * c - v * s, f.at.y + u * s + v * c});
  return out;
}

PanelPoint turned_point(const Feature& f, double u, double v) {
  const double c = std::cos(f.angle), s = std::sin(f.angle);
  return {f.at.x + u * c - v * s, f.at.y + u * s + v * c};
}

void circle(Board& board, const PlanView& view, PenUse pen, PanelPoint at, double diameter) {
  Path p;
  p.circle(view(at), std::max(view.size(diameter) / 2, 0.35));
  board.stroke(pen, std::move(p));
}

/// Centre lines a little longer than the thing.
void centre_cross(Board& board, PaperPoint at, double reach) {
  board.line(PenUse::centre, {at.x - reach, at.y}, {at.x + reach, at.y});
  board.line(PenUse::centre, {at.x, at.y - reach}, {at.x, at.y + reach});
}

/// Nominal diameter in mm that a thread's name begins with: "M16", "5/8-11"; 0 when unknown.
double thread_diameter(const std::string& name) {
  double whole = 0, part = 0, under = 0;
  std::size_t i = 0;
  const bool metric = !name.empty() && name[0] == 'M';
  if (metric) i = 1;
  auto number = [&] {
    double v = 0;
    for (; i < name.size() && name[i] >= '0' && name[i] <= '9'; ++i) v = v * 10 + (name[i] - '0');
    return v;
  };
  whole = number();
  if (metric) return whole;
  if (i < name.size() && name[i] == '/') {
    part = whole, whole = 0;
    ++i;
    under = number();
  }
  return 25.4 * (under > 0 ? part / under : whole);
}

void draw_post_plate(Board& board, const PlanView& view, const Feature& f, const DeckData& deck,
                     bool from_above, Detailing detailing) {
  const bool symbol = detailing == Detailing::symbol;
  board.stroke(symbol ? PenUse::feature : PenUse::hidden,
               closed(view(turned_box(f, f.length / 2, f.width / 2))));
  if (symbol || !from_above || !deck.posts) return;
  const PostPlateData& p = deck.posts->plate;
  for (int i = 0; i < p.along; ++i)
    for (int j = 0; j < p.across; ++j)
      circle(board, view, PenUse::feature,
             turned_point(f, p.pitch_along.in_mm() * (i - (p.along - 1) / 2.0),
                          p.pitch_across.in_mm() * (j - (p.across - 1) / 2.0)),
             thread_diameter(p.thread));
  board.line(PenUse::centre, view(turned_point(f, -f.length * 0.62, 0)),
             view(turned_point(f, f.length * 0.62, 0)));
  board.line(PenUse::centre, view(turned_point(f, 0, -f.width * 0.75)),
             view(turned_point(f, 0, f.width * 0.75)));
}

void draw_grate(Board& board, const PlanView& view, const Feature& f, const ScuppersData& s) {
  const double a = s.grate_length.in_mm() / 2, b = s.grate_width.in_mm() / 2;
  board.stroke(PenUse::feature, closed(view(turned_box(f, a, b))));
  // Bars across the travel; as many as stay 1.4 mm apart on paper.
  const int bars = std::clamp(static_cast<int>(view.size(2 * a) / 1.4), 2, 14);
  for (int i = 1; i < bars; ++i) {
    const double u = -a + 2 * a * i / bars;
    board.line(PenUse::thin, view(turned_point(f, u, -b * 0.8)), view(turned_point(f, u, b * 0.8)));
  }
}

void draw_scupper(Board& board, const PlanView& view, const Feature& f, const DeckData& deck,
                  bool from_above, Detailing detailing) {
  if (!deck.scuppers) return;
  const ScuppersData& s = *deck.scuppers;
  if (detailing == Detailing::full) board.stroke(PenUse::hidden, closed(view(f.ring())));
  if (from_above) draw_grate(board, view, f, s);
  circle(board, view, from_above ? PenUse::hidden : PenUse::feature, f.at, s.outlet.in_mm());
  if (detailing == Detailing::full)
    centre_cross(board, view(f.at), view.size(s.outlet.in_mm()) * 0.8 + 1);
}

void draw_hatch_cover(Board& board, const PlanView& view, const Feature& f, const HatchData& h) {
  const double a = h.length.in_mm() / 2 + h.rebate.in_mm();
  const double b = h.width.in_mm() / 2 + h.rebate.in_mm();
  board.stroke(PenUse::feature, closed(view(turned_box(f, a, b))));
  const double u = a - h.rebate.in_mm() / 2, v = b - h.rebate.in_mm() / 2;
  const double size = std::max(thread_diameter(h.bolt), 6.0);
  const PanelPoint places[] = {{-u, -v}, {u, -v}, {u, v}, {-u, v},
                               {0, -v},  {u, 0},  {0, v}, {-u, 0}};
  for (int i = 0; i < std::min(h.bolts, 8); ++i)
    circle(board, view, PenUse::feature, turned_point(f, places[i].x, places[i].y), size);
}

void draw_hatch_opening(Board& board, const PlanView& view, const Feature& f, const DeckData& deck,
                        bool from_above, Detailing detailing) {
  const HatchData& h = deck.hatches[static_cast<std::size_t>(f.variant)];
  const Ring<PanelFrame> clear = turned_box(f, h.length.in_mm() / 2, h.width.in_mm() / 2);
  board.stroke(from_above ? PenUse::thin : PenUse::feature, closed(view(clear)));
  for (int i : {0, 1})  // the usual sign of an opening
    board.line(PenUse::centre, view(clear[static_cast<std::size_t>(i)]),
               view(clear[static_cast<std::size_t>(i + 2)]));
  if (!from_above) return;
  if (detailing == Detailing::full)
    draw_hatch_cover(board, view, f, h);
  else
    board.stroke(PenUse::feature, closed(view(turned_box(f, h.length.in_mm() / 2 + h.rebate.in_mm(),
                                                         h.width.in_mm() / 2 + h.rebate.in_mm()))));
}

void draw_round(Board& board, const PlanView& view, const Feature& f, PenUse pen,
                Detailing detailing) {
  circle(board, view, pen, f.at, f.length);
  if (detailing == Detailing::full)
    centre_cross(board, view(f.at), std::max(view.size(f.length) * 0.5 + 1.2, 1.8));
}

/// A ring round a solid dot: not to be taken for a plain hole or for the centre of gravity.
void draw_lifting(Board& board, const PlanView& view, const Feature& f, Detailing detailing) {
  const PaperPoint c = view(f.at);
  const double r = std::max(view.size(f.length) / 2, 1.2);
  Path dot, ring;
  dot.circle(c, r * 0.5);
  board.fill(paper::Ink::accent, std::move(dot));
  ring.circle(c, r);
  board.stroke(PenUse::feature, std::move(ring));
  if (detailing == Detailing::full) centre_cross(board, c, r + 1.2);
}

void draw_recess(Board& board, const PlanView& view, const Feature& f, bool from_above,
                 Detailing detailing, const PanelShape* within) {
  const Ring<PanelFrame> ring = within ? between_faces(*within, f.ring()) : f.ring();
  if (ring.size() < 3) return;
  board.stroke(from_above ? PenUse::hidden : PenUse::feature, closed(view(ring)));
  if (from_above || detailing == Detailing::symbol) return;
  centre_cross(board, view(f.at), 2.5);
}

void draw_tag(Board& board, const PlanView& view, const Feature& f) {
  const Ring<PanelFrame> ring = f.ring();
  board.stroke(PenUse::mark, closed(view(ring)));
  board.line(PenUse::mark, view(ring[0]), view(ring[2]));
}

bool shows(const Feature& f, bool from_above) {
  switch (f.kind) {
    case FeatureKind::notch:
      return false;  // the outline has it
    case FeatureKind::pad:
    case FeatureKind::tag:
      return !from_above;
    case FeatureKind::lifting_insert:
      return from_above;
    default:
      return true;
  }
}

void draw_kind(Board& board, const PlanView& view, const Feature& f, const DeckData& deck,
               bool from_above, Detailing detailing, const PanelShape* within) {
  switch (f.kind) {
    case FeatureKind::post_plate:
      return draw_post_plate(board, view, f, deck, from_above, detailing);
    case FeatureKind::scupper:
      return draw_scupper(board, view, f, deck, from_above, detailing);
    case FeatureKind::hatch:
      return draw_hatch_opening(board, view, f, deck, from_above, detailing);
    case FeatureKind::sleeve:
      return draw_round(board, view, f, PenUse::feature, detailing);
    case FeatureKind::hold_down:
      return draw_round(board, view, f, from_above ? PenUse::hidden : PenUse::feature, detailing);
    case FeatureKind::lifting_insert:
      return draw_lifting(board, view, f, detailing);
    case FeatureKind::recess:
      return draw_recess(board, view, f, from_above, detailing, within);
    case FeatureKind::pad:
      return board.stroke(PenUse::thin, closed(view(f.ring())));
    case FeatureKind::tag:
      return draw_tag(board, view, f);
    case FeatureKind::notch:
      return;
  }
}

Path open_line(const PlanView& view, const std::vector<PanelPoint>& points) {
  Path p;
  for (std::size_t i = 0; i < points.size(); ++i)
    i == 0 ? p.move(view(points[i])) : p.line(view(points[i]));
  return p;
}

void hatch_rings(Board& board, const paper::View<SectionFrame>& view,
                 const std::vector<Ring<SectionFrame>>& rings, const std::string& material) {
  if (rings.empty()) return;
  std::vector<std::vector<PaperPoint>> on_paper;
  for (const auto& r : rings) on_paper.push_back(view(r));
  paper::hatch(board, on_paper, material);
}

void stroke_rings(Board& board, const paper::View<SectionFrame>& view, PenUse pen,
                  const std::vector<Ring<SectionFrame>>& rings) {
  Path p;
  for (const auto& r : rings) p.append(closed(view(r)));
  if (!p.empty()) board.stroke(pen, std::move(p));
}

}  // namespace

void draw_section(Board& board, const paper::View<SectionFrame>& view,
                  const PanelSection& section) {
  hatch_rings(board, view, section.core, "core");
  hatch_rings(board, view, section.skins, "laminate");
  hatch_rings(board, view, section.curbs, "curb");
  hatch_rings(board, view, section.surface, "surface");
  hatch_rings(board, view, section.steel, "steel");
  stroke_rings(board, view, PenUse::thin, section.core);
  stroke_rings(board, view, PenUse::thin, section.surface);
  stroke_rings(board, view, PenUse::thin, section.pads);
  stroke_rings(board, view, PenUse::thin, section.steel);
  stroke_rings(board, view, PenUse::cut, section.curbs);
  stroke_rings(board, view, PenUse::cut, section.body);
}

void draw_feature(Board& board, const PlanView& view, const Feature& feature, const DeckData& deck,
                  bool from_above, Detailing detailing, const std::string& id,
                  const PanelShape* within) {
  if (!shows(feature, from_above)) return;
  std::string title = feature_name(feature.kind);
  if (!feature.source.empty()) title += " " + feature.source;
  std::optional<paper::Group> group;
  if (!id.empty()) group.emplace(board, id, "feature", title);
  draw_kind(board, view, feature, deck, from_above, detailing, within);
}

void draw_outline(Board& board, const PlanView& view, const PanelShape& shape, bool from_above) {
  for (const CurbRun& run : shape.curbs)
    board.stroke(from_above ? PenUse::thin : PenUse::hidden, open_line(view, inner_foot(run)));
  if (from_above && shape.fall == Fall::crown) {
    const double y = shape.high_line;
    const auto spans = across(shape.outline, shape.length / 2);
    if (!spans.empty() && y > spans.front().first + 1 && y < spans.back().second - 1)
      board.line(PenUse::centre, view(shape.back_x(y), y), view(shape.ahead_x(y), y));
  }
  for (const Ring<PanelFrame>& o : shape.openings) {
    const PanelPoint c = bounds(o).centre();
    const bool drawn_as_feature =
        std::any_of(shape.features.begin(), shape.features.end(), [&](const Feature& f) {
          return f.kind != FeatureKind::notch && std::hypot(f.at.x - c.x, f.at.y - c.y) < 1;
        });
    if (!drawn_as_feature) board.stroke(PenUse::outline, closed(view(o)));
  }
  board.stroke(PenUse::outline, closed(view(shape.outline)));
}

void gravity_symbol(Board& board, PaperPoint c, double r) {
  for (double s : {1.0, -1.0}) {
    Path quarter;
    const double k = 0.5523 * r;
    quarter.move(c);
    quarter.line({c.x + s * r, c.y});
    quarter.curve({c.x + s * r, c.y + s * k}, {c.x + s * k, c.y + s * r}, {c.x, c.y + s * r});
    quarter.close();
    board.fill(paper::Ink::black, quarter);
  }
  Path ring;
  ring.circle(c, r);
  board.stroke(PenUse::mark, ring);
}

}  // namespace deckquire::sheets
