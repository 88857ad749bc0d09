// Details at the deck's edge: the curb and the post plate in it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/site.h"
#include "sheets/detail_views.h"

namespace deckquire::sheets {

using paper::Align;
using paper::Board;
using paper::Heading;
using paper::PaperPoint;
using paper::PenUse;

namespace {

/// The curb at the left edge of the first panel type that has one there, at a clear place.
struct Edge0 {
  const PanelShape* shape = nullptr;
  CurbCut curb;
  double x = 0;
  /// Section x of a distance inwards from the outer face.
  double in(double distance) const {
    return -curb.outer + (curb.side == Side::left ? distance : -distance);
  }
  double foot() const { return std::abs(curb.outer - curb.inner); }
};

std::optional<Edge0> edge_at(const DetailSite& site) {
  for (const Mark& m : site.input.deck.marks) {
    const double x = typical_cut(m.shape);
    for (const CurbCut& c : curbs_at(m.shape, site.deck(), x))
      if (c.side == Side::left) return Edge0{&m.shape, c, x};
  }
  return std::nullopt;
}

std::string surface_words(const DetailSite& site, const PanelShape& shape) {
  if (shape.surface < 0) return "";
  const SurfaceData& s = site.deck().surfaces[static_cast<std::size_t>(shape.surface)];
  const SectionData& cut = site.section();
  const std::string fall = cut.fall == Fall::none || cut.slope == 0
                               ? "level across"
                               : "falls " + shortest_decimal(100 * cut.slope, 2) + " %";
  return fmt::format("wearing surface, {}, {} thick, ends {} from the curb; deck {}", s.trade_class,
                     site.print(s.thickness), site.print(s.stop), fall);
}

void curb_notes(Draft& d, const DetailSite& site, const Edge0& e) {
  const SectionData& s = site.section();
  const double inside = e.in(e.foot() + 85), top = e.shape->top(e.curb.inner);
  d.note(Edge::right, {e.in(e.foot() * 0.5), e.curb.top - 25},
         fmt::format("curb, {} above the deck at its inner face, moulded on: {}",
                     site.print(e.curb.top - top), site.material("curb")));
  if (e.shape->surface >= 0) {
    const auto n = static_cast<std::size_t>(e.shape->surface);
    const double half = site.deck().surfaces[n].thickness.in_mm() / 2;
    d.note(Edge::right, {inside - 30, e.shape->top(e.curb.inner) + half},
           surface_words(site, *e.shape));
  }
  d.note(Edge::right, {inside, top - s.top_skin.in_mm() / 2},
         fmt::format("top skin {}, {}", site.print(s.top_skin), site.material("laminate")));
  d.note(Edge::right, {inside, top / 2}, fmt::format("core: {}", site.material("core")));
  // All at the right: a leader to the left would run through the heights of the edge.
  std::string below = fmt::format("bottom skin {}, edge skin {}", site.print(s.bottom_skin),
                                  site.print(s.edge_skin));
  if (s.drip)
    below += fmt::format(", drip groove {} × {} deep", site.print(s.drip->width),
                         site.print(s.drip->depth));
  d.note(Edge::right, {inside, s.bottom_skin.in_mm() / 2}, below);
}

}  // namespace

Piece curb_detail(const DetailSite& site) {
  const auto e = edge_at(site);
  if (!e) return {};
  const int ratio = site.ratio(2);
  return measured(site.input, [site, e = *e, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const SectionData& s = site.section();
    const double outer = e.in(0), top = e.shape->top(e.curb.outer);
    Draft d(board, site.input, {{{outer - 1, -2}, {e.in(e.foot() + 110), e.curb.top + 1}}, ratio},
            at, use);
    d.section(cut_across(*e.shape, site.deck(), e.x));
    d.broken_edge(Edge::right, 0, e.shape->top(e.curb.inner));
    d.chain(Edge::left, 0, {{outer, 0}, {outer, top}, {outer, e.curb.top}});
    const double lean = std::abs(e.curb.lean);
    d.chain(
        Edge::above, 0,
        {{outer, e.curb.top}, {e.in(e.foot() - lean), e.curb.top}, {e.in(e.foot()), e.curb.top}});
    if (lean > 0) d.chain(Edge::above, 1, {{outer, e.curb.top}, {e.in(e.foot()), e.curb.top}});
    if (s.drip)
      d.chain(Edge::below, 0,
              {{outer, 0},
               {e.in(s.drip->inset.in_mm()), 0},
               {e.in((s.drip->inset + s.drip->width).in_mm()), 0}});
    curb_notes(d, site, e);
    d.finish("");
  });
}

namespace {

struct PlateSite {
  const PanelShape* shape;
  const Feature* plate;
  CurbCut curb;
};

std::optional<PlateSite> plate_site(const DetailSite& site) {
  for (const Mark& m : site.input.deck.marks)
    for (const Feature& f : m.shape.features) {
      if (f.kind != FeatureKind::post_plate || f.angle != 0) continue;
      for (const CurbCut& c : curbs_at(m.shape, site.deck(), f.at.x))
        if (c.side == static_cast<Side>(f.variant)) return PlateSite{&m.shape, &f, c};
    }
  return std::nullopt;
}

void plate_section(Draft& d, const DetailSite& site, const PlateSite& p) {
  const PostPlateData& data = site.deck().posts->plate;
  const double x0 = -p.plate->at.y, top = p.curb.top - data.cover.in_mm();
  const double low = top - data.thickness.in_mm(), half = data.width.in_mm() / 2;
  d.faces({rectangle(x0 - half, low, x0 + half, top)}, "steel", PenUse::cut, true);
  const double thread = thread_diameter(data.thread);
  const double outer = -p.curb.outer;
  std::vector<SectionPoint> chain{{outer, p.curb.top}, {x0 - half, p.curb.top}};
  for (int j = 0; j < data.across; ++j) {
    const double x = x0 + (j - (data.across - 1) / 2.0) * data.pitch_across.in_mm();
    const double r = thread / 2, end = top - data.tap_depth.in_mm();
    const double foot = std::max(end, low), core = r * drawn_core;
    d.clear({{x - r, top}, {x + r, p.curb.top}});
    d.clear({{x - core, foot}, {x + core, top}});
    for (double side : {-1.0, 1.0}) {
      d.line(PenUse::outline, {x + side * r, top}, {x + side * r, p.curb.top});
      d.line(PenUse::outline, {x + side * core, foot}, {x + side * core, top});
      d.line(PenUse::thin, {x + side * r, foot}, {x + side * r, top});
    }
    if (foot > low) d.line(PenUse::outline, {x - core, foot}, {x + core, foot});
    d.line(PenUse::centre, {x, low - 8}, {x, p.curb.top + 18});
    chain.push_back({x, p.curb.top});
  }
  chain.push_back({x0 + half, p.curb.top});
  d.path(PenUse::steel, {{x0 - half - 10, p.curb.top},
                         {x0 - half - 10, p.curb.top + 12},
                         {x0 + half + 10, p.curb.top + 12},
                         {x0 + half + 10, p.curb.top}});
  d.chain(Edge::above, 0, chain);
  const bool left = p.curb.side == Side::left;
  d.chain(left ? Edge::left : Edge::right, 0, {{outer, low}, {outer, top}, {outer, p.curb.top}});
  d.note(left ? Edge::right : Edge::left, {x0, p.curb.top + 8},
         "base plate and post by the railing supplier");
  d.note(left ? Edge::right : Edge::left, {x0 + (left ? half - 3 : 3 - half), (low + top) / 2},
         fmt::format("post plate {} × {} × {}, {}", site.print(data.length), site.print(data.width),
                     site.print(data.thickness), site.material("steel")));
  d.note(left ? Edge::right : Edge::left, {x0 + (left ? half + 12 : -half - 12), low - 15},
         "anchorage of plate and curb is not checked here: the engineer shows it by calculation or "
         "test");
}

Piece plate_plan(const DetailSite& site, int ratio) {
  return measured(site.input, [site, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const PostPlateData& data = site.deck().posts->plate;
    const double l = data.length.in_mm() / 2, w = data.width.in_mm() / 2;
    Draft d(board, site.input, {{{-l, -w}, {l, w}}, ratio}, at, use);
    d.ring(PenUse::outline, rectangle(-l, -w, l, w));
    std::vector<SectionPoint> along{{-l, -w}}, over{{l, -w}};
    const auto place = [](int i, int n, Length pitch) {
      return (i - (n - 1) / 2.0) * pitch.in_mm();
    };
    const double thread = thread_diameter(data.thread);
    for (int i = 0; i < data.along; ++i)
      along.push_back({place(i, data.along, data.pitch_along), -w});
    for (int j = 0; j < data.across; ++j)
      over.push_back({l, place(j, data.across, data.pitch_across)});
    for (int i = 0; i < data.along; ++i)
      for (int j = 0; j < data.across; ++j) {
        const SectionPoint c{place(i, data.along, data.pitch_along),
                             place(j, data.across, data.pitch_across)};
        d.tapped_hole(c, thread);
        d.centre_cross(c, thread);
      }
    along.push_back({l, -w});
    over.push_back({l, w});
    d.chain(Edge::below, 0, along);
    d.chain(Edge::right, 0, over);
    d.note(Edge::left,
           {place(0, data.along, data.pitch_along),
            place(data.across - 1, data.across, data.pitch_across)},
           fmt::format("{} × {} tapped, {} deep", data.along * data.across, data.thread,
                       site.print(data.tap_depth)));
    d.finish("PLAN OF THE PLATE, ALONG THE EDGE");
  });
}

}  // namespace

Piece post_plate_detail(const DetailSite& site) {
  const auto p = plate_site(site);
  if (!p) return {};
  const int ratio = site.ratio(2);
  const Piece section =
      measured(site.input, [site, p = *p, ratio](Board& board, PaperPoint at, DetailUse* use) {
        const bool left = p.curb.side == Side::left;
        const double outer = -p.curb.outer,
                     inner = outer + (left ? 1 : -1) * (std::abs(p.curb.outer - p.curb.inner) + 30);
        const CutBox box{{std::min(outer - 1, inner), 60},
                         {std::max(outer + 1, inner), p.curb.top + 13}};
        Draft d(board, site.input, {box, ratio}, at, use);
        d.section(cut_across(*p.shape, site.deck(), p.plate->at.x));
        plate_section(d, site, p);
        d.broken_edge(Edge::below, box.low.x, box.high.x);
        d.finish("SECTION ACROSS THE CURB");
      });
  return site.arranged({section, plate_plan(site, ratio)});
}

}  // namespace deckquire::sheets
