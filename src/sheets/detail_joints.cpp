// Details of the joints, cut along the bridge over a girder: x ahead to the right.
#include <fmt/format.h>

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

void draw_end(Draft& d, const DetailSite& site, const EndCut& e, double surface_stop) {
  const SectionData& s = site.section();
  const double ts = s.top_skin.in_mm(), bs = s.bottom_skin.in_mm(), es = s.edge_skin.in_mm();
  const double deep = 2 * reach;
  d.faces({part(e, es, deep, bs, e.top - ts)}, "core", PenUse::thin);
  d.faces({part(e, 0, deep, 0, bs), part(e, 0, deep, e.top - ts, e.top),
           part(e, 0, es, bs, e.top - ts)},
          "laminate", PenUse::thin);
  d.faces({part(e, 0, deep, 0, e.top)}, "", PenUse::cut);
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

void draw_filling(Draft& d, const DetailSite& site, double top) {
  const JointsData& j = site.deck().joints;
  const double g = j.gap.in_mm() / 2;
  if (j.kind == JointKind::sealed) {
    const double seal = j.seal.in_mm(), rod = j.rod.in_mm();
    // A rod wider than the gap is pressed to it: its height keeps its area.
    const double height = rod * rod / (2 * g) * pi / 4;
    d.faces({rectangle(-g, top - seal, g, top)}, "sealant", PenUse::thin, true);
    d.ring(PenUse::outline, rectangle(-g, top - seal - height, g, top - seal));
    d.note(Edge::right, {0, top - seal / 2},
           fmt::format("sealant {} wide, {} deep: {}", site.print(j.gap), site.print(j.seal),
                       site.material("sealant")));
    d.note(Edge::right, {0, top - seal - height / 2},
           fmt::format("backer rod {} diameter, pressed in", site.print(j.rod)));
    return;
  }
  if (j.kind == JointKind::open)
    return d.note(Edge::right, {0, top / 2},
                  "open joint: nothing in the gap, ends sealed with resin");
  const double t = j.tongue.in_mm() / 2, middle = top / 2, lap = j.lap.in_mm();
  d.faces({rectangle(-g, middle - t, g + lap, middle + t)}, "laminate", PenUse::cut, true);
  d.note(Edge::right, {g + lap / 2, middle},
         fmt::format("tongue {} thick, {} lap", site.print(j.tongue), site.print(j.lap)));
}

std::string gap_words(const DetailSite& site) {
  const std::string gap = site.print(site.deck().joints.gap);
  const auto& t = site.input.project.conditions.temperature_setting;
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
    draw_end(d, site, {g, 1, top}, stop);
    draw_filling(d, site, top);
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::above, 0, {{-g - stop, top}, {-g, top}, {g, top}, {g + stop, top}});
    d.chain(Edge::left, 0, {{-reach, -site.pad()}, {-reach, 0}, {-reach, top}});
    d.note(Edge::right, {0, top * 0.4}, gap_words(site));
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
