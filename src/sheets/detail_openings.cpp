// Details of what goes through a panel: scupper, hatch, sleeve.
#include <fmt/format.h>

#include <algorithm>

#include "deck/site.h"
#include "sheets/detail_views.h"

namespace deckquire::sheets {

using paper::Board;
using paper::Heading;
using paper::PaperPoint;
using paper::PenUse;

namespace {

Piece scupper_section(const DetailSite& site, const Found& f, int ratio) {
  return measured(site.input, [site, f, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const ScuppersData& s = *site.deck().scuppers;
    const double x = -f.feature->at.y, top = f.shape->top(f.feature->at.y);
    const double half = s.body_width.in_mm() / 2, grate = s.grate_width.in_mm() / 2;
    const double pipe = s.outlet.in_mm() / 2, wall = s.outlet_wall.in_mm(),
                 below = s.outlet_below.in_mm();
    const double floor = top - s.cavity.in_mm();
    // A long pipe is shortened: the break says so, its dimension tells its true length.
    const double shown = std::min(below, 150.0);
    Draft d(board, site.input, {{{x - half - 90, -shown}, {x + half + 90, top + 30}}, ratio}, at,
            use);
    d.section(cut_across(*f.shape, site.deck(), f.feature->at.x));
    d.faces({rectangle(x - pipe, -shown, x - pipe + wall, floor),
             rectangle(x + pipe - wall, -shown, x + pipe, floor)},
            "laminate", PenUse::outline);
    if (shown < below) d.broken_edge(Edge::below, x - pipe, x + pipe);
    d.faces({rectangle(x - grate, top - s.grate.in_mm(), x + grate, top)}, "steel", PenUse::outline,
            true);
    const double bolt = thread_diameter(s.bolt), pitch = s.bolt_width_pitch.in_mm() / 2;
    for (double side : {-1.0, 1.0})
      draw_bolt(d, x + side * pitch, bolt, top - s.grate.in_mm() - bolt, top, true);
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::above, 0, {{x - pitch, top}, {x + pitch, top}});
    d.chain(Edge::above, 1, {{x - half, top}, {x - grate, top}, {x + grate, top}, {x + half, top}});
    for (double side : {-1.0, 1.0})
      d.line(PenUse::hidden, {x + side * half, floor}, {x + side * half, top});
    d.chain(Edge::left, 0, {{x - half, 0}, {x - half, floor}, {x - half, top}});
    d.chain(Edge::below, 0, {{x - pipe, -shown}, {x + pipe, -shown}});
    d.note(Edge::right, {x + grate * 0.6, top - s.grate.in_mm() / 2},
           fmt::format("grate {} × {} × {}, {} bolts {}, flush", site.print(s.grate_length),
                       site.print(s.grate_width), site.print(s.grate), s.bolts, s.bolt));
    const double cavity = grate - (s.grate_width - s.bolt_width_pitch).in_mm();
    d.note(Edge::right, {x + cavity + s.wall.in_mm() / 2, top - s.cavity.in_mm() * 0.75},
           fmt::format("moulded body {} × {} (its edge dashed), wall {}, cavity {} deep",
                       site.print(s.body_length), site.print(s.body_width), site.print(s.wall),
                       site.print(s.cavity)));
    d.note(
        Edge::right, {x + pipe - wall / 2, -shown * 0.5},
        fmt::format("outlet pipe {} diameter, wall {}, ends {} below the soffit",
                    site.print(s.outlet), site.print(s.outlet_wall), site.print(s.outlet_below)));
    d.finish("ACROSS THE DECK");
  });
}

Piece scupper_plan(const DetailSite& site, const Found& f, int ratio) {
  return measured(site.input, [site, f, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const ScuppersData& s = *site.deck().scuppers;
    const double l = s.body_length.in_mm() / 2, w = s.body_width.in_mm() / 2;
    const double gl = s.grate_length.in_mm() / 2, gw = s.grate_width.in_mm() / 2;
    Draft d(board, site.input, {{{-l, -w}, {l, w}}, ratio}, at, use);
    d.ring(PenUse::hidden, rectangle(-l, -w, l, w));
    d.ring(PenUse::outline, rectangle(-gl, -gw, gl, gw));
    d.circle(PenUse::hidden, {0, 0}, s.outlet.in_mm());
    d.centre_cross({0, 0}, s.outlet.in_mm() * 0.62);
    for (const Hole& h : list_holes(*f.shape, site.deck())) {
      if (h.kind != HoleKind::bolt ||
          &f.shape->features[static_cast<std::size_t>(h.feature)] != f.feature)
        continue;
      const SectionPoint c{h.at.x - f.feature->at.x, h.at.y - f.feature->at.y};
      d.circle(PenUse::outline, c, h.diameter);
      d.centre_cross(c, h.diameter);
    }
    const double pl = s.bolt_length_pitch.in_mm() / 2, pw = s.bolt_width_pitch.in_mm() / 2;
    d.chain(Edge::below, 0, {{-gl, -gw}, {-pl, -pw}, {pl, -pw}, {gl, -gw}});
    d.chain(Edge::below, 1, {{-l, -w}, {l, -w}});
    d.chain(Edge::right, 0, {{gl, -gw}, {pl, -pw}, {pl, pw}, {gl, gw}});
    d.chain(Edge::right, 1, {{l, -w}, {l, w}});
    d.note(
        Edge::left, {-gl * 0.55, gw * 0.3},
        fmt::format(
            "openings of the grate {} at most across the way people walk: the owner's rules decide",
            site.print(mm(12.7))));
    d.finish("PLAN OF THE GRATE, ALONG THE BRIDGE");
  });
}

const HatchData& hatch_of(const DetailSite& site, const Found& f) {
  return site.deck().hatches[static_cast<std::size_t>(f.feature->variant)];
}

Piece hatch_section(const DetailSite& site, const Found& f, int ratio) {
  return measured(site.input, [site, f, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const HatchData& h = hatch_of(site, f);
    const double x = -f.feature->at.y, half = h.width.in_mm() / 2, seat = half + h.rebate.in_mm();
    const double top = f.shape->top(f.feature->at.y), floor = top - h.rebate_depth.in_mm();
    const double cover = floor + h.cover.in_mm();
    Draft d(board, site.input, {{{x - seat - 110, -2}, {x + seat + 110, top + 16}}, ratio}, at,
            use);
    d.section(cut_across(*f.shape, site.deck(), f.feature->at.x));
    const double play = 3;  // all round: the cover lifts out
    d.faces({rectangle(x - seat + play, floor, x + seat - play, cover)}, "laminate",
            PenUse::outline, true);
    const double bolt = thread_diameter(h.bolt), at_bolt = half + h.rebate.in_mm() / 2;
    for (double side : {-1.0, 1.0})
      draw_bolt(d, x + side * at_bolt, bolt, floor - 2 * bolt, cover, true);
    if (h.lift > Length()) {
      const double lift = x - half * 0.7, r = h.lift.in_mm() / 2;
      d.clear({{lift - r, floor}, {lift + r, cover}});
      d.line(PenUse::outline, {lift - r, floor}, {lift - r, cover});
      d.line(PenUse::outline, {lift + r, floor}, {lift + r, cover});
    }
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::below, 0, {{x - seat, 0}, {x - half, 0}, {x + half, 0}, {x + seat, 0}});
    d.chain(Edge::left, 0, {{x - seat, 0}, {x - seat, floor}, {x - seat, top}});
    d.chain(Edge::above, 0, {{x - at_bolt, top}, {x + at_bolt, top}});
    d.note(Edge::right, {x + half * 0.5, (floor + cover) / 2},
           fmt::format("cover {} thick, {}, {} bolts {}", site.print(h.cover),
                       site.material("cover"), h.bolts, h.bolt));
    d.note(Edge::right, {x + seat - 5, floor - 4},
           fmt::format("rebate {} wide, {} deep, lined with laminate", site.print(h.rebate),
                       site.print(h.rebate_depth)));
    d.finish("ACROSS THE DECK");
  });
}

Piece hatch_plan(const DetailSite& site, const Found& f, int ratio) {
  return measured(site.input, [site, f, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const HatchData& h = hatch_of(site, f);
    const double l = h.length.in_mm() / 2, w = h.width.in_mm() / 2, rebate = h.rebate.in_mm();
    Draft d(board, site.input, {{{-l - rebate, -w - rebate}, {l + rebate, w + rebate}}, ratio}, at,
            use);
    d.ring(PenUse::hidden, rectangle(-l, -w, l, w));
    d.ring(PenUse::outline, rectangle(-l - rebate, -w - rebate, l + rebate, w + rebate));
    for (const Hole& hole : list_holes(*f.shape, site.deck())) {
      if (hole.kind != HoleKind::bolt ||
          &f.shape->features[static_cast<std::size_t>(hole.feature)] != f.feature)
        continue;
      const SectionPoint c{hole.at.x - f.feature->at.x, hole.at.y - f.feature->at.y};
      d.circle(PenUse::outline, c, hole.diameter);
      d.centre_cross(c, 1.4 * hole.diameter);
    }
    if (h.lift > Length()) {
      d.circle(PenUse::outline, {0, w * 0.7}, h.lift.in_mm());
      d.note(Edge::left, {-h.lift.in_mm() / 2, w * 0.7},
             fmt::format("finger lift, {} diameter", site.print(h.lift)));
    }
    const double bl = l + rebate / 2, bw = w + rebate / 2;
    d.chain(Edge::below, 0, {{-bl, -bw}, {bl, -bw}});
    d.chain(Edge::below, 1,
            {{-l - rebate, -w - rebate}, {-l, -w}, {l, -w}, {l + rebate, -w - rebate}});
    d.chain(Edge::right, 0, {{bl, -bw}, {bl, bw}});
    d.chain(Edge::right, 1, {{l + rebate, -w - rebate}, {l, -w}, {l, w}, {l + rebate, w + rebate}});
    d.note(Edge::left, {-l * 0.4, 0},
           fmt::format("clear opening {} × {}{}", site.print(h.length), site.print(h.width),
                       h.use.empty() ? "" : ", over " + h.use));
    d.finish("PLAN, ALONG THE BRIDGE");
  });
}

}  // namespace

Piece scupper_detail(const DetailSite& site) {
  const auto f = find_feature(site.input, FeatureKind::scupper);
  if (!f) return {};
  const int ratio = site.ratio(5);
  return site.arranged({scupper_section(site, *f, ratio), scupper_plan(site, *f, ratio)});
}

Piece hatch_detail(const DetailSite& site) {
  const auto f = find_feature(site.input, FeatureKind::hatch);
  if (!f) return {};
  return site.arranged(
      {hatch_section(site, *f, site.ratio(5)), hatch_plan(site, *f, site.ratio(10))});
}

Piece sleeve_detail(const DetailSite& site) {
  const auto f = find_feature(site.input, FeatureKind::sleeve);
  if (!f) return {};
  const int ratio = site.ratio(5);
  return measured(site.input, [site, f = *f, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const SleeveData& s = site.deck().sleeves[static_cast<std::size_t>(f.feature->variant)];
    const double x = -f.feature->at.y, top = f.shape->top(f.feature->at.y),
                 r = s.diameter.in_mm() / 2;
    Draft d(board, site.input, {{{x - r - 120, -6}, {x + r + 120, top + 10}}, ratio}, at, use);
    d.section(cut_across(*f.shape, site.deck(), f.feature->at.x));
    d.line(PenUse::centre, {x, -6}, {x, top + 10});
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::below, 0, {{x - r, 0}, {x + r, 0}});
    d.chain(Edge::left, 0, {{x - r, 0}, {x - r, top}});
    d.note(Edge::right, {x + r + s.wall.in_mm() / 2, top / 2},
           fmt::format("sleeve {} clear diameter, wall {}, bonded in, ends sealed{}",
                       site.print(s.diameter), site.print(s.wall),
                       s.use.empty() ? "" : "; for " + s.use));
    d.finish("");
  });
}

}  // namespace deckquire::sheets
