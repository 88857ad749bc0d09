// The panels of a strip: outline, features, mark, serial, position, arrow, names.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "schedules/schedules.h"
#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double arrow_length = 9;
constexpr double line_air = 1.4;  // between mark and serial

PaperBox centred(PaperPoint c, PaperPoint size) {
  return {c - size * 0.5, c + size * 0.5};
}

bool is_drawn(FeatureKind kind) {
  return kind != FeatureKind::pad && kind != FeatureKind::tag && kind != FeatureKind::notch;
}

std::string id_of(const Feature& f, const Panel& p, std::size_t index) {
  std::string kind = feature_name(f.kind);
  std::replace(kind.begin(), kind.end(), ' ', '-');
  // Posts, scuppers, hatches and sleeves have names of their own; the rest is counted.
  const bool unique = f.kind == FeatureKind::post_plate || f.kind == FeatureKind::scupper ||
                      f.kind == FeatureKind::hatch || f.kind == FeatureKind::sleeve;
  if (unique && !f.source.empty()) return fmt::format("{}-{}", kind, f.source);
  return fmt::format("{}-{}-{}", kind, p.position, index);
}

/// What the text of a panel takes, and how it is put.
struct MarkBlock {
  PaperPoint size;
  bool turned = false;  // reads from the right
  double width = 0;     // of the wider line
  double height = 0;    // of both lines
};

MarkBlock mark_block(const StripDrawing& s, const Panel& p, bool turned) {
  const Mark& mark = s.input.deck.marks[static_cast<std::size_t>(p.mark)];
  MarkBlock b;
  b.turned = turned;
  b.width = std::max(s.board.text_width(LetterUse::mark, mark.name),
                     s.board.text_width(LetterUse::serial, p.serial));
  b.height = s.letters(LetterUse::mark) + line_air + s.letters(LetterUse::serial);
  b.size = turned ? PaperPoint{b.height, b.width} : PaperPoint{b.width, b.height};
  return b;
}

PaperBox reading_box(const StripDrawing& s, const Panel& p, const PaperBox& room) {
  // Mark texts keep off the curbs.
  const double curb = s.view.size(s.input.project.deck.section.curb.width.in_mm());
  const double left = p.shape.left_joint ? 0 : curb, right = p.shape.right_joint ? 0 : curb;
  return {{room.low.x + 0.8, room.low.y + right + 0.8},
          {room.high.x - 0.8, room.high.y - left - 0.8}};
}

void draw_mark_text(const StripDrawing& s, const Panel& p, const MarkBlock& b, PaperPoint c) {
  const Mark& mark = s.input.deck.marks[static_cast<std::size_t>(p.mark)];
  const double up = (b.height - s.letters(LetterUse::mark)) / 2;
  const double down = (b.height - s.letters(LetterUse::serial)) / 2;
  const PaperPoint first = b.turned ? PaperPoint{c.x - up, c.y} : PaperPoint{c.x, c.y + up};
  const PaperPoint second = b.turned ? PaperPoint{c.x + down, c.y} : PaperPoint{c.x, c.y - down};
  {
    const paper::Group link(s.board, "", "mark", "", s.plan.panel_sheet(p.mark));
    s.board.masked_text(LetterUse::mark, first, mark.name, Align::centre, Stand::middle, !b.turned,
                        paper::Ink::accent);
  }
  s.board.masked_text(LetterUse::serial, second, p.serial, Align::centre, Stand::middle, !b.turned);
  s.labels.text(centred(c, b.size));
}

/// Mark and serial inside the panel, turned when it is narrow, below the deck with a leader when
/// there is no room at all.
void place_mark(const StripDrawing& s, const Panel& p, const PaperBox& room) {
  const PaperBox inside = reading_box(s, p, room);
  for (bool turned : {false, true}) {
    const MarkBlock b = mark_block(s, p, turned);
    if (b.size.x > inside.width() || b.size.y > inside.height()) continue;
    // In a low panel the position stands beside the mark, not above it.
    const double above = s.letters(LetterUse::serial) + 4, beside = arrow_length + 10;
    const bool low = b.size.y + above > inside.height() && b.size.x + beside < inside.width();
    const PaperPoint ideal =
        low ? PaperPoint{room.centre().x + beside / 2, inside.centre().y} : room.centre();
    if (const auto c = s.labels.place(b.size, inside, ideal)) {
      draw_mark_text(s, p, b, *c);
      return;
    }
  }
  const MarkBlock b = mark_block(s, p, true);
  const PaperBox outside{{room.centre().x - 25, s.y(s.frame.supports) - 1},
                         {room.centre().x + 25, room.low.y - 2}};
  const PaperPoint ideal{room.centre().x, room.low.y - 4 - b.size.y / 2};
  const PaperPoint c = s.labels.place(b.size, outside, ideal).value_or(ideal);
  s.board.line(PenUse::dimension, {room.centre().x, room.low.y + 3},
               {c.x, c.y + b.size.y / 2 + 0.5});
  draw_mark_text(s, p, b, c);
}

/// Position in a square box; the arrow beside it points to the panel's own ahead end.
void place_position(const StripDrawing& s, const Panel& p, const PaperBox& room) {
  const std::string text = std::to_string(p.position);
  const double h = s.letters(LetterUse::serial) + 2;
  const double w = std::max(h, s.board.text_width(LetterUse::serial, text) + 2);
  const double reach = std::min(arrow_length, std::max(4.0, room.width() - w - 4));
  const PaperPoint size{w + reach + 1.5, h};
  const bool beside = size.x < room.width() - 1.6;
  const PaperPoint taken = beside ? size : PaperPoint{std::max(w, reach), h + 4};
  const PaperPoint ideal = room.centre() + PaperPoint{0, s.letters(LetterUse::mark) * 1.9};
  auto found = s.labels.place(taken, reading_box(s, p, room), ideal);
  if (!found) found = s.labels.place(taken, room, ideal);
  const PaperPoint c = found.value_or(room.centre());
  const PaperBox all = centred(c, taken);
  const PaperBox box{{all.low.x, all.high.y - h}, {all.low.x + w, all.high.y}};
  paper::Path white;
  white.box(box);
  s.board.fill(paper::Ink::white, std::move(white));
  s.board.masked_text(LetterUse::serial, box.centre(), text);
  s.board.box(PenUse::dimension, box);
  const double y = beside ? c.y : all.low.y + 1.5;
  const double low = beside ? box.high.x + 1.5 : all.low.x, high = low + reach;
  {
    const paper::Group group(s.board, "", "orientation",
                             p.turned ? "turned end for end" : "as drawn, pointing ahead");
    paper::arrow(s.board, PenUse::mark, {p.turned ? high : low, y}, {p.turned ? low : high, y}, 4);
  }
  s.labels.text(all);
}

/// Small solid square on the panel's own datum corner, as its shop sheet has it.
void draw_datum(const StripDrawing& s, const Panel& p, const PanelMap& view) {
  const PaperPoint at = view(datum_corner(p.shape, p.turned));
  const PaperPoint in = view(p.shape.length / 2, (p.shape.left_back + p.shape.right_back) / 2);
  const double dx = std::copysign(1.6, in.x - at.x), dy = std::copysign(1.6, in.y - at.y);
  paper::Path square;
  square.polygon({at, {at.x + dx, at.y}, {at.x + dx, at.y + dy}, {at.x, at.y + dy}});
  s.board.fill(paper::Ink::accent, std::move(square));
}

void draw_features(const StripDrawing& s, const Panel& p, const PanelMap& view) {
  for (std::size_t i = 0; i < p.shape.features.size(); ++i) {
    const Feature& f = p.shape.features[i];
    if (!is_drawn(f.kind)) continue;
    view.draw([&](paper::Board& board, const paper::View<PanelFrame>& straight) {
      draw_feature(board, straight, f, s.input.project.deck, true, Detailing::symbol,
                   id_of(f, p, i));
    });
    const PaperBox box = around(view(f.ring()));
    const bool ringed = f.kind == FeatureKind::hatch || f.kind == FeatureKind::scupper ||
                        f.kind == FeatureKind::sleeve;
    f.kind == FeatureKind::recess ? s.labels.quiet(box)
                                  : s.labels.solid(box.grown(ringed ? 1.3 : 0.3));
  }
}

void name_near(const StripDrawing& s, const std::string& name, PaperPoint at,
               const PaperBox& region) {
  if (name.empty()) return;
  const PaperPoint size{s.board.text_width(LetterUse::dimension, name),
                        s.letters(LetterUse::dimension)};
  const auto c = s.labels.place(size, region, at);
  if (!c) return;
  s.labels.text(s.board.masked_text(LetterUse::dimension, *c, name));
}

void name_features(const StripDrawing& s, const Panel& p, const PanelMap& view,
                   const PaperBox& room) {
  for (const Feature& f : p.shape.features) {
    const bool named = f.kind == FeatureKind::scupper || f.kind == FeatureKind::hatch ||
                       f.kind == FeatureKind::sleeve;
    if (named) name_near(s, f.source, view(f.at), room.grown(-0.8));
  }
}

/// Post names outside the edge: all of them where they have room, else first and last of the strip
/// and every fifth.
void name_posts(const StripDrawing& s) {
  std::vector<const Post*> posts;
  for (const Post& post : s.input.deck.posts)
    if (post.panel >= s.strip().first && post.panel < s.strip().first + s.strip().count)
      posts.push_back(&post);
  const double h = s.letters(LetterUse::dimension);
  for (Side side : {Side::left, Side::right}) {
    double used = -1e9;
    for (std::size_t i = 0; i < posts.size(); ++i) {
      const Post& post = *posts[i];
      if (post.side != side) continue;
      const Length edge = side == Side::left ? s.input.bridge.edges.left(post.station)
                                             : -s.input.bridge.edges.right(post.station);
      const PaperPoint at = s.view(post.station.in_mm(), edge.in_mm());
      const double half = s.board.text_width(LetterUse::dimension, post.name) / 2;
      if (at.x - half < used) continue;
      used = at.x + half + 1.5;
      const double y = side == Side::left ? at.y + 1.6 + h / 2 : at.y - 1.6 - h / 2;
      const PaperBox box{{at.x - half, y - h / 2}, {at.x + half, y + h / 2}};
      // On a taper the name moves outwards.
      PaperBox region = box.grown(0.05);
      // Beside the stem of a skewed joint it gives way along the edge.
      if (s.frame.skew > 0) region.low.x -= 4, region.high.x += 4;
      (side == Side::left ? region.high.y : region.low.y) += side == Side::left ? 5 : -5;
      const auto c = s.labels.clear_place({2 * half, h}, region, {at.x, y});
      if (c) s.labels.text(s.board.masked_text(LetterUse::dimension, *c, post.name));
    }
  }
}

/// A splice is named once, though a joint may cut its recess in two.
void name_splices(const StripDrawing& s) {
  for (const Splice& splice : s.input.bridge.splices) {
    if (splice.station < s.strip().from || splice.station >= s.strip().to) continue;
    const PaperBox box = around(s.view(splice_plan(s.input.bridge, splice)));
    PaperBox region = box.grown(14);
    region.low.x = std::max(region.low.x, s.from() + 1);
    region.high.x = std::min(region.high.x, s.to() - 1);
    name_near(s, splice.name, box.centre(), region);
  }
}

/// Names keep off the panel's edges, on a taper too.
void keep_off_edges(const StripDrawing& s, const Panel& p, const PanelMap& view) {
  std::vector<PaperPoint> ring = view(p.shape.outline);
  ring.push_back(ring.front());
  keep_off(s, ring, 0.4);
}

void name_obstructions(const StripDrawing& s) {
  for (const Obstruction& o : s.input.bridge.obstructions) {
    if (o.station < s.strip().from || o.station >= s.strip().to) continue;
    const PaperBox box = around(s.view(o.kept_free));
    name_near(s, o.kind + " " + o.name, box.centre(), box.grown(25));
  }
}

void draw_panel_lines(const StripDrawing& s, const Panel& p) {
  const PanelMap view(s, p);
  const paper::Group group(s.board, fmt::format("panel-{}", p.position), "panel",
                           fmt::format("position {}, serial {}, {}{}", p.position, p.serial,
                                       s.input.deck.marks[static_cast<std::size_t>(p.mark)].name,
                                       p.turned ? ", turned" : ""),
                           s.plan.panel_sheet(p.mark));
  view.draw([&](paper::Board& board, const paper::View<PanelFrame>& straight) {
    draw_outline(board, straight, p.shape, true);
  });
  draw_features(s, p, view);
  keep_off_edges(s, p, view);
  draw_datum(s, p, view);
}

/// The box of a panel, less half of what skewed ends reach beyond it.
PaperBox room_of(const StripDrawing& s, const Panel& p, const PanelMap& view) {
  PaperBox room = around(view(p.shape.outline));
  const double tall = s.view.size(p.shape.left_back - p.shape.right_back) / 2;
  room.low.x += std::abs(p.shape.back_slope) * tall;
  room.high.x -= std::abs(p.shape.ahead_slope) * tall;
  return room;
}

void letter_panel(const StripDrawing& s, const Panel& p) {
  const PanelMap view(s, p);
  const PaperBox room = room_of(s, p, view);
  place_mark(s, p, room);
  place_position(s, p, room);
  name_features(s, p, view, room);
}

/// The line where the wearing surface changes, named in the panels at both sides.
void draw_surface_changes(const StripDrawing& s) {
  const auto& surfaces = s.input.project.deck.surfaces;
  for (int i = 1; i < s.strip().count; ++i) {
    const int a = s.panel(i - 1).shape.surface, b = s.panel(i).shape.surface;
    if (a == b || a < 0 || b < 0) continue;
    const PaperPoint foot =
        s.view(joint_end(s.input.bridge, s.joint(s.panel(i).joint_back), Side::right));
    const double low = foot.y, y = s.y(s.frame.supports), x = foot.x;
    const std::string before = surfaces[static_cast<std::size_t>(a)].trade_class;
    const std::string after = surfaces[static_cast<std::size_t>(b)].trade_class;
    s.board.line(PenUse::feature, {x, low - 1}, {x, y - 0.5});
    s.labels.text(s.board.masked_text(LetterUse::dimension, {x - 1.5, y}, "surface " + before,
                                      Align::right, Stand::base));
    s.labels.text(s.board.masked_text(LetterUse::dimension, {x + 1.5, y}, "surface " + after,
                                      Align::left, Stand::base));
  }
}

/// A reference to a detail of the fixing, once a sheet.
void refer(const StripDrawing& s, Detail detail, const PaperBox& spot) {
  const DetailRef* ref = s.plan.find(detail);
  if (ref == nullptr || std::find(s.referred.begin(), s.referred.end(), detail) != s.referred.end())
    return;
  const PaperPoint size{s.board.text_width(LetterUse::callout, ref->sheet) + 3,
                        s.letters(LetterUse::heading) + s.letters(LetterUse::callout) + 4.5};
  const PaperBox region{{std::max(s.from() + 3, spot.low.x - 16),
                         std::max(s.y(s.frame.deck_bottom) + 1, spot.low.y - 14)},
                        {std::min(s.to() - 3, spot.high.x + 16),
                         std::min(s.y(s.frame.deck_top) - 1, spot.high.y + 14)}};
  if (s.labels.on_text(spot)) return;  // the ring would run through it
  s.labels.solid(spot);
  const auto c = s.labels.clear_place(size, region, spot.centre());
  if (!c) return;
  s.referred.push_back(detail);
  paper::detail_mark(s.board, spot, *c, ref->letter, ref->sheet);
  s.labels.text(centred(*c, size));
}

/// Boxes of all features of a kind, from the third panel on first: the ends of a strip are crowded.
std::vector<PaperBox> spots(const StripDrawing& s, FeatureKind kind) {
  std::vector<PaperBox> out;
  const int n = s.strip().count, skip = n > 4 ? 2 : 0;
  for (int k = 0; k < n; ++k) {
    const Panel& p = s.panel((k + skip) % n);
    for (const Feature& f : p.shape.features)
      if (f.kind == kind) out.push_back(around(PanelMap(s, p)(f.ring())).grown(1));
  }
  return out;
}

PaperBox joint_spot(const StripDrawing& s, const Joint& joint) {
  const double offset = -s.input.bridge.edges.right(joint.station).in_mm() * 0.35;
  return centred(s.view(on_joint(s.input.bridge, joint, offset)), {5, 5});
}

void refer_details(const StripDrawing& s) {
  const std::pair<FeatureKind, Detail> kinds[] = {
      {FeatureKind::recess, Detail::recess},       {FeatureKind::scupper, Detail::scupper},
      {FeatureKind::hatch, Detail::hatch},         {FeatureKind::sleeve, Detail::sleeve},
      {FeatureKind::hold_down, Detail::hold_down}, {FeatureKind::lifting_insert, Detail::lifting}};
  for (const auto& [kind, detail] : kinds)
    for (const PaperBox& spot : spots(s, kind)) refer(s, detail, spot);
  // Beside a panel's middle, from the third bay on: the ends of a strip are crowded.
  for (const RowJoint& r : s.input.deck.row_joints)
    for (int k = std::min(4, s.strip().count - 1); k < s.strip().count; ++k) {
      const Length middle = (s.panel(k).start + s.panel(k).end) / 2;
      if (r.from < middle && r.to > middle)
        refer(s, Detail::row_joint, centred(s.view(middle.in_mm(), r.offset.in_mm()), {5, 5}));
    }
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const Joint& joint = s.joint(j);
    const bool match = (j == s.first_joint() && !s.first()) || (j == s.last_joint() && !s.last());
    if (!match) refer(s, joint.end ? Detail::end_joint : Detail::joint, joint_spot(s, joint));
  }
}

}  // namespace

void draw_panels(const StripDrawing& s) {
  for (int i = 0; i < s.strip().count; ++i) draw_panel_lines(s, s.panel(i));
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    std::vector<PaperPoint> line = joint_on_strip(s, s.joint(j));
    line.insert(line.begin(), {line.front().x, s.y(s.frame.supports)});
    line.push_back({line.back().x, s.y(s.frame.joint_bar)});
    s.joint(j).skew == 0 ? s.labels.solid(around({line.front(), line.back()}).grown(0.5))
                         : keep_off(s, line, 0.5);
  }
  draw_surface_changes(s);
  draw_skews(s);
  name_obstructions(s);  // first: a name far from its mast would be read as a joint's
  for (int i = 0; i < s.strip().count; ++i) letter_panel(s, s.panel(i));
  refer_details(s);
  name_posts(s);
  name_splices(s);
  draw_water(s);
}

}  // namespace deckquire::sheets
