// Details of the joints, cut along the bridge over a girder: x ahead to the right.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sheets/deck_lines.h"
#include "sheets/detail_views.h"

namespace deckquire::sheets {

using paper::Board;
using paper::Heading;
using paper::PaperPoint;
using paper::PenUse;

namespace {

constexpr double reach = 130;  // mm of panel shown on either side

/// A panel's end over the girder, cut along the bridge.
struct EndCut {
  double face;  // x of its end
  double sign;  // +1: the panel lies ahead of the face
  double top;   // of the moulded panel
  double far() const { return face + sign * 2 * reach; }
};

Cut part(const EndCut& e, double from, double to, double z0, double z1) {
  const double a = e.face + e.sign * from, b = e.face + e.sign * to;
  return rectangle(std::min(a, b), z0, std::max(a, b), z1);
}

/// The part of a panel's end from `inset` within its faces: its foot stands back by `rebate` up to
/// `high`, where a tongue of the panel behind lies in it.
Cut end_part(const EndCut& e, double inset, double foot, double lid, double rebate, double high) {
  const auto at = [&](double from, double z) { return SectionPoint{e.face + e.sign * from, z}; };
  const double deep = 2 * reach;
  Cut out{at(inset, lid), at(deep, lid), at(deep, foot), at(rebate + inset, foot)};
  if (rebate > 0) out.insert(out.end(), {at(rebate + inset, high + foot), at(inset, high + foot)});
  if (e.sign > 0) std::reverse(out.begin(), out.end());
  return out;
}

/// The end of a panel with its skins.
void draw_end(Draft& d, const DetailSite& site, const EndCut& e, double surface_stop,
              double rebate = 0, double high = 0) {
  const SectionData& s = site.section();
  const double ts = s.top_skin.in_mm(), bs = s.bottom_skin.in_mm(), es = s.edge_skin.in_mm();
  const double deep = 2 * reach;
  const Cut whole = end_part(e, 0, 0, e.top, rebate, high);
  d.faces({whole}, "laminate", PenUse::thin);
  d.faces({end_part(e, es, bs, e.top - ts, rebate, high)}, "core", PenUse::thin, true);
  d.faces({whole}, "", PenUse::cut);
  if (site.deck().surfaces.empty()) return;
  const SurfaceData& w = site.deck().surfaces.front();
  d.faces({part(e, surface_stop, deep, e.top, e.top + w.thickness.in_mm())}, "surface",
          PenUse::thin);
}

/// Top of the panel over the first girder, and the bottom of what is drawn.
double top_over_girder(const DetailSite& site) {
  const auto& marks = site.input.deck.marks;
  const auto& girders = site.input.bridge.girders;
  const double y = girders.empty() ? 0 : girders.front().offset.in_mm();
  return marks.front().shape.top(y);
}

void draw_filling(Draft& d, const DetailSite& site, double top, Length gap) {
  const JointsData& j = site.deck().joints;
  const double g = gap.in_mm() / 2;
  if (j.kind == JointKind::sealed) {
    const double seal = j.seal.in_mm(), rod = j.rod.in_mm();
    // A rod wider than the gap is pressed to it: its height keeps its area.
    const double height = rod * rod / (2 * g) * pi / 4;
    d.faces({rectangle(-g, top - seal, g, top)}, "sealant", PenUse::thin, true);
    d.ring(PenUse::outline, rectangle(-g, top - seal - height, g, top - seal));
    d.note(Edge::right, {0, top - seal / 2},
           fmt::format("sealant {} wide, {} deep: {}", site.print(gap), site.print(j.seal),
                       site.material("sealant")));
    d.note(Edge::right, {0, top - seal - height / 2},
           fmt::format("backer rod {} diameter, pressed in", site.print(j.rod)));
    return;
  }
  if (j.kind == JointKind::open)
    return d.note(Edge::right, {0, top / 2},
                  "open joint: nothing in the gap, ends sealed with resin");
  // At the foot, so that the next panel is lowered onto it: a tongue half way up would have to be
  // slid in.
  const double t = j.tongue.in_mm(), lap = j.lap.in_mm();
  d.faces({rectangle(-g, 0, g + lap, t)}, "laminate", PenUse::cut, true);
  d.note(Edge::right, {g + lap / 2, t / 2},
         fmt::format("tongue of the panel set first, {} thick, {} lap; the next is lowered onto it",
                     site.print(j.tongue), site.print(j.lap)));
}

/// The girder that a row joint runs over: the nearest where the joint begins.
const Girder* girder_under(const Bridge& bridge, const RowJoint& joint) {
  const Girder* best = nullptr;
  const auto away = [&](const Girder& g) {
    return std::abs(girder_offset(bridge, g, joint.from.in_mm()) - joint.offset.in_mm());
  };
  for (const Girder& g : bridge.girders)
    if (g.from <= joint.from && g.to > joint.from && (!best || away(g) < away(*best))) best = &g;
  return best;
}

/// The panel at one side of a row joint.
struct RowSide {
  const PanelShape* shape = nullptr;
  bool left = false;  // of the joint
  double face() const { return left ? shape->right_back : shape->left_back; }
  double top() const { return shape->top(face()); }
  /// From the face to the near and the far edge of the pads close to it.
  std::vector<std::pair<double, double>> pads() const {
    std::vector<std::pair<double, double>> out;
    for (const Feature& f : shape->features) {
      if (f.kind != FeatureKind::pad) continue;
      const double middle = std::abs(f.at.y - face());
      if (middle < 2 * reach) out.push_back({middle - f.width / 2, middle + f.width / 2});
    }
    return out;
  }
};

/// The first panels left and right of the first row joint from the left.
std::array<RowSide, 2> beside(const Deck& deck) {
  std::array<RowSide, 2> out;
  for (const Panel& p : deck.panels) {
    const bool left = p.row == 0 && p.shape.right_joint, right = p.row == 1 && p.shape.left_joint;
    if (left && !out[0].shape) out[0] = {&p.shape, true};
    if (right && !out[1].shape) out[1] = {&p.shape, false};
  }
  return out;
}

std::string gap_words(const DetailSite& site, Length width) {
  const std::string gap =
      site.print(width) + (skew_reach(site.input) > 0 ? " square to the joint line" : "");
  const auto& t = site.input.project.conditions.temperature.setting;
  if (!t) return fmt::format("gap {}; the temperature it holds at is not stated", gap);
  return fmt::format("gap {} at the setting temperature, {}", gap,
                     print_temperature(*t, site.units()));
}

}  // namespace

Piece joint_detail(const DetailSite& site) {
  const int ratio = site.ratio(2);
  return measured(site.input, [site, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const double top = top_over_girder(site), g = site.deck().joints.gap.in_mm() / 2;
    const double under = site.pad() + drawn_flange + 12;
    const double stop =
        site.deck().surfaces.empty() ? 0 : site.deck().surfaces.front().stop.in_mm();
    Draft d(board, site.input, {{{-reach, -under}, {reach, top + 12}}, ratio}, at, use);
    draw_flange(d, site, -2 * reach, 2 * reach, true);
    draw_end(d, site, {-g, -1, top}, stop);
    const JointsData& j = site.deck().joints;
    const bool lapped = j.kind == JointKind::lapped;
    draw_end(d, site, {g, 1, top}, stop, lapped ? (j.lap + j.gap).in_mm() : 0,
             lapped ? j.tongue.in_mm() : 0);
    draw_filling(d, site, top, j.gap);
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::above, 0, {{-g - stop, top}, {-g, top}, {g, top}, {g + stop, top}});
    d.chain(Edge::left, 0, {{-reach, -site.pad()}, {-reach, 0}, {-reach, top}});
    d.note(Edge::right, {0, top * 0.4}, gap_words(site, site.deck().joints.gap));
    d.note(Edge::right, {60, -site.pad() / 2},
           site.deck().pads
               ? fmt::format("bearing pad {} thick, {} wide, {}",
                             site.print(site.deck().pads->thickness),
                             site.print(site.deck().pads->width), site.deck().pads->material)
               : "panel on the flange without a pad");
    d.note(Edge::right, {80, -site.pad() - drawn_flange / 2}, "girder flange by others");
    d.finish("");
  });
}

Piece row_joint_detail(const DetailSite& site) {
  const auto& joints = site.input.deck.row_joints;
  const RowJoint joint =
      *std::max_element(joints.begin(), joints.end(),
                        [](const RowJoint& a, const RowJoint& b) { return a.offset < b.offset; });
  const Girder* girder = girder_under(site.input.bridge, joint);
  const auto sides = beside(site.input.deck);
  if (girder == nullptr || !sides[0].shape || !sides[1].shape) return {};
  const int ratio = site.ratio(2);
  return measured(site.input, [=](Board& board, PaperPoint at, DetailUse* use) {
    const double g = joint.gap.in_mm() / 2, half = girder->flange.in_mm() / 2;
    const double middle =
        joint.offset.in_mm() - girder_offset(site.input.bridge, *girder, joint.from.in_mm());
    const double top = sides[0].top(), under = site.pad() + drawn_flange + 12;
    const double wide = std::max(half + std::abs(middle) + 30, reach);
    const double stop =
        site.deck().surfaces.empty() ? 0 : site.deck().surfaces.front().stop.in_mm();
    Draft d(board, site.input, {{{-wide, -under}, {wide, top + 12}}, ratio}, at, use);
    // Seen looking ahead: what lies left is drawn at the left.
    d.faces({rectangle(middle - half, -site.pad() - drawn_flange, middle + half, -site.pad())},
            "steel", PenUse::thin);
    for (const RowSide& s : sides) {
      const double way = s.left ? -1 : 1;
      for (const auto& [near, far] : s.pads())
        d.faces({rectangle(way > 0 ? g + near : -g - far, -site.pad(),
                           way > 0 ? g + far : -g - near, 0)},
                "bearing", PenUse::thin);
      draw_end(d, site, {way * g, way, s.top()}, stop);
    }
    draw_filling(d, site, top, joint.gap);
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::above, 0, {{-g - stop, top}, {-g, top}, {g, top}, {g + stop, top}});
    d.chain(Edge::below, 0,
            {{middle - half, -site.pad()},
             {-g, -site.pad()},
             {g, -site.pad()},
             {middle + half, -site.pad()}});
    d.chain(Edge::left, 0, {{-wide, 0}, {-wide, top}});
    d.note(Edge::right, {0, top * 0.4},
           fmt::format("{}, {}", joint.name, gap_words(site, joint.gap)));
    d.note(
        Edge::right, {middle + half - 15, -site.pad() - drawn_flange / 2},
        fmt::format("flange of {} by others, {} wide", girder->name, site.print(girder->flange)));
    d.finish("");
  });
}

Piece end_joint_detail(const DetailSite& site) {
  const int ratio = site.ratio(2);
  return measured(site.input, [site, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const JointsData& j = site.deck().joints;
    const double top = top_over_girder(site), g = j.end_gap.in_mm() / 2;
    const double half = j.cover_width.in_mm() / 2, t = j.cover_thickness.in_mm();
    const double wide = std::max(half + 80, reach), under = site.pad() + drawn_flange + 25;
    Draft d(board, site.input, {{{-wide, -under}, {wide, top + t + 12}}, ratio}, at, use);
    d.faces({rectangle(-2 * wide, -2 * under, -g, top)}, "concrete", PenUse::thin);
    draw_flange(d, site, g + 30, 2 * wide, true);
    draw_end(d, site, {g, 1, top}, half - g + 5);
    if (half > 0 && t > 0) {
      d.faces({rectangle(-half, top, half, top + t)}, "steel", PenUse::cut, true);
      d.chain(Edge::above, 1, {{-half, top + t}, {half, top + t}});
      d.note(Edge::right, {half - 6, top + t / 2},
             fmt::format("cover plate {} × {}, {}, fixed to the panel as the engineer states, free "
                         "to slide on "
                         "the other side",
                         site.print(j.cover_width), site.print(j.cover_thickness),
                         site.material("steel")));
    }
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::above, 0, {{-g, top + t}, {g, top + t}});
    d.chain(Edge::right, 0, {{wide, 0}, {wide, top}});
    d.note(Edge::left, {-g - 25, top * 0.6},
           "abutment by others; at a pier the next panel, in the same way");
    d.note(Edge::left, {0, top * 0.25},
           fmt::format("end gap {}, open, drained below", site.print(j.end_gap)));
    d.note(Edge::right, {g + 70, -site.pad() - drawn_flange / 2},
           site.pad() > 0 ? "girder flange by others, pad as at the joints"
                          : "girder flange by others");
    d.finish("");
  });
}

}  // namespace deckquire::sheets
