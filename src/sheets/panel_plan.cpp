// The plan of a panel from above, and its soffit seen through from above.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "paper/callout.h"
#include "paper/leaders.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Group;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;
using PlanView = paper::View<PanelFrame>;

PaperBox paper_box(const std::vector<PaperPoint>& ring) {
  PaperBox b{ring[0], ring[0]};
  for (const PaperPoint& p : ring) {
    b.low.x = std::min(b.low.x, p.x), b.low.y = std::min(b.low.y, p.y);
    b.high.x = std::max(b.high.x, p.x), b.high.y = std::max(b.high.y, p.y);
  }
  return b;
}

void take_ring(Room& room, const std::vector<PaperPoint>& ring, double half) {
  for (std::size_t i = 0; i < ring.size(); ++i)
    room.take_line(ring[i], ring[(i + 1) % ring.size()], half);
}

/// One plan with what is known about its free room.
struct Plan {
  bool shows(const Feature& f) const { return plan_shows(f, from_above) && job.shows(f); }

  Board& board;
  const PanelJob& job;
  PlanView view;
  bool from_above;
  PaperBox box;
  Room room;
  std::vector<std::pair<PaperPoint, PaperPoint>> leaders;
  std::vector<PaperBox> pills;

  std::string id(const std::string& what, std::size_t i) const {
    return job.id(fmt::format("{}-{}{}", what, from_above ? "" : "soffit-", i + 1));
  }
};

PaperPoint box_size(const Board& board, LetterUse use, const std::string& text) {
  return {board.text_width(use, text) + 1.2, board.text_height(use) + 1.2};
}

// ---- wearing surface

void draw_surface(Plan& p) {
  const std::vector<PanelPoint> ring = drawn_surface(p.job);
  if (ring.size() < 3) return;
  const std::vector<PaperPoint> limit = p.view(ring);
  const double stop =
      p.job.deck.surfaces[static_cast<std::size_t>(p.job.shape().surface)].stop.in_mm();
  if (p.view.size(stop) >= 0.7) {
    Path path;
    path.polygon(limit);
    p.board.stroke(PenUse::stipple, path);
  }
  const PaperBox b = paper_box(limit);
  const double w = std::min(b.width() * 0.16, 28.0), h = std::min(b.height() * 0.14, 28.0);
  // Back left and ahead right, cut to the limit where an edge tapers or an end is skewed.
  for (const bool back : {true, false}) {
    if (back ? !p.job.shows_back() : !p.job.shows_ahead()) continue;
    const double low = back ? b.high.y - h : b.low.y;
    const auto strip_of = [&](const std::vector<PaperPoint>& points) {
      return clip<PaperFrame>(clip<PaperFrame>(points, {0, -1}, -low), {0, 1}, low + h);
    };
    const std::vector<PaperPoint> strip = p.job.shape().square() ? limit : strip_of(limit);
    if (strip.size() < 3) continue;
    const double from = back ? paper_box(strip).low.x : paper_box(strip).high.x - w;
    std::vector<PaperPoint> piece = clip<PaperFrame>(limit, {-1, 0}, -from);
    piece = strip_of(clip<PaperFrame>(piece, {1, 0}, from + w));
    if (piece.size() < 3) continue;
    paper::stipple(p.board, piece);
    p.room.take(paper_box(piece));
  }
}

// ---- what takes room

void take_outline(Plan& p) {
  const PanelShape& s = p.job.shape();
  take_ring(p.room, p.view(s.outline), 1);
  for (const auto& o : s.openings) p.room.take(paper_box(p.view(o)).grown(0.8));
  for (const CurbRun& run : s.curbs) take_ring(p.room, p.view(run.plan), 0.8);
  if (p.from_above && s.fall == Fall::crown)
    p.room.take_line(p.view(s.back_x(s.high_line), s.high_line),
                     p.view(s.ahead_x(s.high_line), s.high_line), 0.8);
}

/// Paper mm that a hatch's frame stands out around its clear opening.
double seat_around(const Plan& p, const Feature& f) {
  if (f.kind != FeatureKind::hatch || !p.from_above) return 0;
  return p.view.size(p.job.deck.hatches[static_cast<std::size_t>(f.variant)].rebate.in_mm());
}

/// Takes out what a broken plan does not show, its gaps with their zigzags.
void draw_breaks(Plan& p) {
  for (const paper::Shortening& s : p.job.breaks) {
    const double x0 = p.view(s.from, 0).x, x1 = p.view(s.to, 0).x;
    if (p.job.own.part)
      draw_match(p.board, p.job, s, {{x0, p.box.low.y}, {x1, p.box.high.y}}, true);
    else
      draw_break(p.board, p.job, s, x0, x1, p.box.low.y, p.box.high.y);
    p.room.take(PaperBox{{x0, p.box.low.y}, {x1, p.box.high.y}}.grown(4));
  }
}

/// The extension lines of running dimensions, near the panel's edges.
void take_extensions(Plan& p) {
  for (const bool lower : {true, false}) {
    if (!p.from_above && !lower) continue;
    const auto half = p.from_above ? std::optional<bool>(lower) : std::nullopt;
    for (double x : feature_places(p.job, p.from_above, true, half)) {
      const auto spans = across(p.job.shape().outline, x);
      if (spans.empty()) continue;
      const PaperPoint edge = p.view(x, lower ? spans.front().first : spans.back().second);
      p.room.take_line(edge, {edge.x, edge.y + (lower ? -12 : 12)}, 0.5);
    }
  }
}

void take_features(Plan& p) {
  for (const Feature& f : p.job.shape().features) {
    if (!p.shows(f)) continue;
    const std::vector<PaperPoint> ring = p.view(between_faces(p.job.shape(), f.ring()));
    if (ring.empty()) continue;
    if (f.kind == FeatureKind::pad || f.kind == FeatureKind::recess)
      take_ring(p.room, ring, 0.7);
    else
      p.room.take(paper_box(ring).grown(0.8 + seat_around(p, f)));
  }
}

void draw_features(Plan& p) {
  const PanelShape& s = p.job.shape();
  for (std::size_t i = 0; i < s.features.size(); ++i)
    if (p.shows(s.features[i]))
      draw_feature(p.board, p.view, s.features[i], p.job.deck, p.from_above, Detailing::full,
                   p.id("feature", i), &s);
}

// ---- numbers and letters

/// Labels of holes, where each finds room close by; the table lists them all.
void label_holes(Plan& p) {
  for (const Hole& hole : p.job.mark.holes) {
    if (hole.from_top != p.from_above || !p.job.shows(hole.at.x)) continue;
    const PaperPoint at = p.view(hole.at);
    const PaperPoint size = box_size(p.board, LetterUse::caption, hole.label);
    const double near = size.x / 2 + p.view.size(hole.diameter) / 2 + 2.5;
    const auto place = p.room.place(size, at, p.box.grown(6), near + 4);
    if (!place) continue;
    p.board.masked_text(LetterUse::caption, *place, hole.label);
    p.room.take({{place->x - size.x / 2, place->y - size.y / 2},
                 {place->x + size.x / 2, place->y + size.y / 2}});
  }
}

/// Where a leader meets a feature: its middle, or the near end of something long.
PaperPoint site_of(const Plan& p, const Feature& f) {
  if (f.kind == FeatureKind::pad || f.kind == FeatureKind::recess) {
    const PaperBox b = paper_box(p.view(between_faces(p.job.shape(), f.ring())));
    double x = b.low.x + b.width() * 0.3;
    for (const paper::Shortening& s : p.job.breaks)  // clear of gaps
      if (std::abs(x - p.view((s.from + s.to) / 2, 0).x) < 8) x = p.view(s.from, 0).x - 8;
    return {x, b.high.y - std::min(b.height() * 0.3, 3.0)};
  }
  return p.view(f.at);
}

/// A box has no inside beyond its diagonals: what runs through it crosses one of them.
bool runs_through(PaperPoint a, PaperPoint b, const PaperBox& box) {
  return paper::segments_cross(a, b, box.low, box.high) ||
         paper::segments_cross(a, b, {box.low.x, box.high.y}, {box.high.x, box.low.y});
}

void draw_pill(Plan& p, std::size_t i) {
  const Feature& f = p.job.shape().features[i];
  const std::string number = std::to_string(p.job.number_of(i));
  const PaperPoint site = site_of(p, f), size = paper::pill_size(p.board, number);
  const PaperPoint air{size.x + 1.4, size.y + 1.4};
  const auto uncrossed = [&](PaperPoint c) {
    return std::none_of(
               p.leaders.begin(), p.leaders.end(),
               [&](const auto& l) { return paper::segments_cross(site, c, l.first, l.second); }) &&
           std::none_of(p.pills.begin(), p.pills.end(),
                        [&](const PaperBox& b) { return runs_through(site, c, b); });
  };
  auto place = p.room.place(air, site, p.box, 60, uncrossed);
  if (!place) place = p.room.place(air, site, p.box.grown(12), 80, uncrossed);
  if (!place) place = p.room.place(air, site, p.box.grown(12), 80);
  const PaperPoint at = place.value_or(site);
  const Group group(p.board, p.id("callout", i), "callout", feature_name(f.kind));
  const PaperPoint d = at - site;
  const double length = std::hypot(d.x, d.y);
  if (length > 0.1) {
    p.board.line(PenUse::dimension, site, at);  // the pill covers its end
    Path dot;
    dot.circle(site, 0.5);
    p.board.fill(paper::Ink::black, dot);
    p.room.take_line(site, at, 0.4);
    p.leaders.push_back({site, at});
  }
  p.pills.push_back(paper::pill(p.board, at, number));
  p.room.take({{at.x - air.x / 2, at.y - air.y / 2}, {at.x + air.x / 2, at.y + air.y / 2}});
}

/// Of many alike (one number, one row of the table) only the first and the last are numbered: the
/// table lists the places of all.
bool is_numbered(const Plan& p, std::size_t i) {
  constexpr std::size_t many = 12;
  const auto& features = p.job.shape().features;
  std::size_t alike = 0, before = 0;
  for (std::size_t k = 0; k < features.size(); ++k)
    if (p.shows(features[k]) && features[k].kind == features[i].kind) {
      ++alike;
      before += k < i ? 1 : 0;
    }
  return alike <= many || before == 0 || before + 1 == alike;
}

void number_features(Plan& p) {
  const PanelShape& s = p.job.shape();
  for (std::size_t i = 0; i < s.features.size(); ++i)
    if (p.shows(s.features[i]) && is_numbered(p, i)) draw_pill(p, i);
}

// ---- words in the middle

/// Puts a word or a small figure where there is room near `ideal`; draws nothing when there is
/// none.
template <class Draw>
bool settle(Plan& p, PaperPoint size, PaperPoint ideal, Draw draw) {
  const auto place = p.room.place(size, ideal, p.box, 90);
  if (!place) return false;
  p.room.take({{place->x - size.x / 2, place->y - size.y / 2},
               {place->x + size.x / 2, place->y + size.y / 2}});
  draw(*place);
  return true;
}

/// Mark and face one above the other; `in_line`: one beside the other, for narrow panels.
bool draw_name(Plan& p, bool in_line) {
  const std::string face = p.from_above ? "TOP FACE" : "SOFFIT";
  const std::string& name = p.job.mark.name;
  const double big = p.board.text_height(LetterUse::mark);
  const double small = p.board.text_height(LetterUse::heading);
  const double first = p.board.text_width(LetterUse::mark, name);
  const double second = p.board.text_width(LetterUse::heading, face);
  const PaperPoint size = in_line ? PaperPoint{first + second + 6, big + 2}
                                  : PaperPoint{std::max(first, second) + 3, big + small + 5};
  return settle(p, size, p.box.centre() + PaperPoint{0, size.y}, [&](PaperPoint c) {
    const Group group(p.board, p.from_above ? p.job.id("panel") : "", "panel", name);
    if (in_line) {
      const PaperPoint at{c.x - size.x / 2 + 1.5, c.y - big / 2};
      p.board.text(LetterUse::mark, at, name);
      p.board.text(LetterUse::heading, {at.x + first + 3, at.y}, face);
      return;
    }
    p.board.text(LetterUse::mark, {c.x, c.y + size.y / 2 - 1}, name, Align::centre, Stand::top);
    p.board.text(LetterUse::heading, {c.x, c.y - size.y / 2 + 1.2}, face, Align::centre);
  });
}

/// Where there is room for neither, each by itself.
void draw_name_apart(Plan& p) {
  const auto word = [&](LetterUse use, const std::string& text, const std::string& id) {
    const PaperPoint size = box_size(p.board, use, text);
    settle(p, size, p.box.centre() + PaperPoint{0, size.y}, [&](PaperPoint c) {
      const Group group(p.board, id, "panel", p.job.mark.name);
      p.board.text(use, c, text, Align::centre, Stand::middle);
    });
  };
  word(LetterUse::mark, p.job.mark.name, p.from_above ? p.job.id("panel") : "");
  word(LetterUse::heading, p.from_above ? "TOP FACE" : "SOFFIT", "");
}

void draw_ahead(Plan& p) {
  const std::string word = "AHEAD";
  const PaperPoint text = box_size(p.board, LetterUse::heading, word);
  const PaperPoint size{std::max(text.x + 4, 22.0), text.y + 5};
  settle(p, size, p.box.centre() + PaperPoint{p.box.width() * 0.25, 10}, [&](PaperPoint c) {
    const Group group(p.board, "", "orientation", "Direction of rising stations");
    p.board.text(LetterUse::heading, {c.x, c.y + 0.6}, word, Align::centre);
    paper::arrow(p.board, PenUse::mark, {c.x - size.x / 2 + 1, c.y - 1.6},
                 {c.x + size.x / 2 - 1, c.y - 1.6}, 3.5);
  });
}

void fall_arrow(Plan& p, double from, double to) {
  const double slope = std::abs(p.job.shape().slope) * 100;
  const std::string text = shortest_decimal(slope, 2) + " %";
  const PaperPoint words = box_size(p.board, LetterUse::note, text);
  const double length = 14;
  const PaperPoint size{words.x + 4, length + 2};
  const PaperPoint ideal = p.view(p.job.shape().length * 0.3, (from + to) / 2);
  const double down = to > from ? 1 : -1;  // towards rising y: up on paper
  settle(p, size, ideal, [&](PaperPoint c) {
    const Group group(p.board, "", "fall", "Fall of the top");
    const double x = c.x - size.x / 2 + 1.5;
    paper::arrow(p.board, PenUse::water, {x, c.y - down * length / 2}, {x, c.y + down * length / 2},
                 2.5);
    p.board.text(LetterUse::note, {x + 1.8, c.y}, text, Align::left, Stand::middle);
  });
}

void draw_falls(Plan& p) {
  const PanelShape& s = p.job.shape();
  const auto spans = across(s.outline, s.length * 0.5);
  if (spans.empty() || s.slope == 0) return;
  const double right = spans.front().first, left = spans.back().second;
  if (s.fall == Fall::crown) {
    if (left > s.high_line + 1) fall_arrow(p, s.high_line, left);
    if (right < s.high_line - 1) fall_arrow(p, s.high_line, right);
    const PaperPoint words = box_size(p.board, LetterUse::note, "HIGH LINE");
    const bool inside = right < s.high_line - 1 && s.high_line + 1 < left;
    if (inside)
      settle(p, words, p.view(s.length * 0.86, s.high_line) + PaperPoint{0, 3}, [&](PaperPoint c) {
        p.board.text(LetterUse::note, c, "HIGH LINE", Align::centre, Stand::middle);
      });
  }
  if (s.fall == Fall::left) fall_arrow(p, right, left);
  if (s.fall == Fall::right) fall_arrow(p, left, right);
}

/// Quartered circle at the centre of gravity.
void draw_gravity(Plan& p) {
  const Masses& m = p.job.mark.masses;
  if (!p.job.shows(m.x)) return;
  const PaperPoint c = p.view(m.x, m.y);
  const double r = 2.2;
  p.room.take({{c.x - r - 0.6, c.y - r - 0.6}, {c.x + r + 0.6, c.y + r + 0.6}});
  const Group group(p.board, "", "gravity", "Centre of gravity");
  gravity_symbol(p.board, c, r);
  const PaperPoint words = box_size(p.board, LetterUse::note, "CG");
  settle(p, words, c + PaperPoint{r + words.x / 2 + 0.4, -r - 0.6}, [&](PaperPoint at) {
    p.board.text(LetterUse::note, at, "CG", Align::centre, Stand::middle);
  });
}

void draw_datum(Plan& p) {
  const PaperPoint c = p.view(datum_corner(p.job.shape()));
  const Group group(p.board, "", "datum", "Datum corner: x ahead, y to the left");
  Path square;
  square.box({{c.x - 1.4, c.y - 1.4}, {c.x + 1.4, c.y + 1.4}});
  p.board.fill(paper::Ink::black, square);
  const bool left = datum_on_left(p.job.shape());  // the text stands outside the panel
  p.room.take(p.board
                  .text(LetterUse::heading, {c.x - 2.4, c.y + (left ? 2.2 : -2.2)}, "0,0",
                        Align::right, left ? Stand::base : Stand::top)
                  .grown(0.3));
}

/// The angle between the square line through the datum corner and a skewed back end, where it is
/// wide enough for its figure; the table of the outline has them all.
void draw_angle(Plan& p) {
  const double slope = p.job.shape().back_slope;
  const bool down = datum_on_left(p.job.shape());
  const PaperPoint c = p.view(datum_corner(p.job.shape()));
  const double skew = std::abs(std::atan(slope)), radius = 30;
  const std::string text = shortest_decimal(skew * 180 / pi, 2) + "\u00b0";
  constexpr double legible = 0.07;  // 4 degrees
  if (skew < legible || radius * 1.4 > p.box.height()) return;
  const auto at = [&](double turn, double r) {
    return PaperPoint{c.x + r * std::sin(turn), c.y + (down ? -r : r) * std::cos(turn)};
  };
  const Group group(p.board, "", "angle", "Skew of the back end");
  Path arc;
  arc.move(at(0, radius));
  constexpr int steps = 12;
  for (int i = 1; i <= steps; ++i) arc.line(at(skew * i / steps, radius));
  p.board.stroke(PenUse::dimension, arc);
  const double width = p.board.text_width(LetterUse::dimension, text);
  const bool inside = width + 2 < 1.35 * radius * std::tan(skew);
  const PaperPoint mid = at(skew / 2, 1.35 * radius);
  p.board.text(LetterUse::dimension, inside ? mid : PaperPoint{c.x - 1.5, mid.y}, text,
               inside ? Align::centre : Align::right, Stand::middle);
}

// ---- section marks

void mark_section(Plan& p, PanelView v, const PanelLayout& layout) {
  const bool there = layout[v].drawn || on_other_sheet(p.job, v);
  const bool whole = v == PanelView::section;
  const SectionWindow w = section_window(p.job, v);
  const double x = whole ? typical_cut(p.job.shape()) : w.x;
  if (!there || !p.job.shows(x)) return;
  const auto spans = across(p.job.shape().outline, x);
  if (spans.empty()) return;
  const double low = whole ? spans.front().first : w.low;
  const double high = whole ? spans.back().second : w.high;
  // A local cut is marked from its outer side only as far as it goes.
  PaperPoint a = p.view(x, low), b = p.view(x, high);
  a.y -= 3, b.y += 3;
  // Where its bar would lie on the panel's edge a local cut has one at its other end only.
  const double half = 6, reach = 13;
  const double right = p.view(x, spans.front().first).y, left = p.view(x, spans.back().second).y;
  const bool bar_at_a = whole || a.y - reach > right + 1,
             bar_at_b = whole || !bar_at_a || b.y + reach < left - 1;
  const std::string letter = section_letter(p.job, v);
  const Group group(p.board, "", "section-mark", "Section " + letter);
  paper::section_mark(p.board, a, b, {1, 0}, letter, sheet_of(p.job, v), bar_at_a, bar_at_b);
  p.room.take({{a.x - half, a.y - reach}, {a.x + 9, a.y + 9}});
  p.room.take({{b.x - half, b.y - 9}, {b.x + 9, b.y + reach}});
}

void draw_plan_view(Board& board, const PanelJob& job, const PanelLayout& layout, bool from_above) {
  const PanelView v = from_above ? PanelView::top : PanelView::soffit;
  const Box<PanelFrame> box = bounds(job.shape().outline);
  PlanView view;
  view.origin = layout[v].at;
  view.base = {job.shape().square() ? 0 : box.low.x, box.low.y};
  view.ratio = layout[v].ratio;
  view.shortenings = job.breaks;
  const auto [first, last] = job.shown();
  Plan p{board, job, view, from_above, {view(first, box.low.y), view(last, box.high.y)},
         {},    {},  {}};
  const Group group(board, job.id(from_above ? "view-top" : "view-soffit"), "view",
                    from_above ? "Plan from above" : "Soffit, seen through from above");
  take_outline(p);
  take_extensions(p);
  take_features(p);
  if (from_above) draw_surface(p);
  draw_outline(board, view, job.shape(), from_above);
  draw_features(p);
  draw_breaks(p);
  plan_dimensions(board, job, view, from_above);
  if (from_above) {
    mark_section(p, PanelView::section, layout);
    mark_section(p, PanelView::scupper, layout);
    draw_gravity(p);
  } else {
    mark_section(p, PanelView::recess, layout);
  }
  if (job.shows_back()) draw_datum(p);
  if (from_above && job.shape().back_slope != 0) draw_angle(p);
  number_features(p);
  label_holes(p);
  const bool named = draw_name(p, false);
  draw_ahead(p);
  if (!named && !draw_name(p, true)) draw_name_apart(p);
  if (from_above) draw_falls(p);
  const Margins m = view_margins(board, job, v);
  const double below = p.box.low.y - m.bottom + board.text_height(LetterUse::view_title) * 0.8;
  paper::view_title(board, {p.box.low.x, below}, title_of(job, v), layout[v].ratio);
}

}  // namespace

void draw_top_plan(Board& board, const PanelJob& job, const PanelLayout& layout) {
  draw_plan_view(board, job, layout, true);
}

void draw_soffit_plan(Board& board, const PanelJob& job, const PanelLayout& layout) {
  draw_plan_view(board, job, layout, false);
}

}  // namespace deckquire::sheets
