// Details where the panel meets the steel: recess over a splice, hold-down, lifting insert.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/site.h"
#include "sheets/detail_views.h"

namespace deckquire::sheets {

using paper::Board;
using paper::Heading;
using paper::PaperPoint;
using paper::PenUse;

void draw_flange(Draft& d, const DetailSite& site, double from, double to, bool with_pad) {
  const double pad = site.pad();
  if (with_pad && pad > 0) d.faces({rectangle(from, -pad, to, 0)}, "bearing", PenUse::thin);
  d.faces({rectangle(from, -pad - drawn_flange, to, -pad)}, "steel", PenUse::thin);
}

void draw_bolt(Draft& d, double x, double diameter, double z0, double z1, bool head_up) {
  const double r = diameter / 2, head = 0.65 * diameter, wide = 0.8 * diameter;  // about ISO 4014
  const double low = head_up ? z1 - head : z0, high = head_up ? z1 : z0 + head;
  d.clear({{x - r, z0}, {x + r, z1}});
  d.ring(PenUse::thin, rectangle(x - r, z0, x + r, z1));
  d.clear({{x - wide, low}, {x + wide, high}});
  d.ring(PenUse::outline, rectangle(x - wide, low, x + wide, high));
  d.line(PenUse::centre, {x, z0 - 6}, {x, z1 + 6});
}

namespace {

/// The splice that a recess is over, with the panel's levels there.
struct SpliceSite {
  const Splice* splice;
  const Girder* girder;
  double top;     // of the panel over the girder
  double depth;   // of the recess
  double around;  // clearance
};

std::optional<SpliceSite> splice_site(const DetailSite& site) {
  const auto found = find_feature(site.input, FeatureKind::recess);
  const Bridge& bridge = site.input.bridge;
  if (!found || bridge.splices.empty()) return std::nullopt;
  for (const Splice& s : bridge.splices) {
    const double depth = recess_depth(s, site.deck());
    if (std::abs(depth - found->feature->depth) > 0.01) continue;
    const Girder& g = bridge.girders[static_cast<std::size_t>(s.girder)];
    return SpliceSite{&s, &g, found->shape->top(g.offset.in_mm()), depth,
                      site.section().recess_around.in_mm()};
  }
  return std::nullopt;
}

/// The panel with its hollow, half width `half` of the hollow, out to `reach` on both sides.
void draw_hollow_panel(Draft& d, const DetailSite& site, const SpliceSite& p, double half,
                       double reach) {
  const double ts = site.section().top_skin.in_mm(), bs = site.section().bottom_skin.in_mm();
  const double z = p.depth, top = p.top;
  d.faces({{{-reach, bs},
            {-half - bs, bs},
            {-half - bs, z + bs},
            {half + bs, z + bs},
            {half + bs, bs},
            {reach, bs},
            {reach, top - ts},
            {-reach, top - ts}}},
          "core", PenUse::thin);
  d.faces({rectangle(-reach, top - ts, reach, top),
           {{-reach, 0},
            {-half, 0},
            {-half, z},
            {half, z},
            {half, 0},
            {reach, 0},
            {reach, bs},
            {half + bs, bs},
            {half + bs, z + bs},
            {-half - bs, z + bs},
            {-half - bs, bs},
            {-reach, bs}}},
          "laminate", PenUse::thin);
  d.faces({{{-reach, 0},
            {-half, 0},
            {-half, z},
            {half, z},
            {half, 0},
            {reach, 0},
            {reach, top},
            {-reach, top}}},
          "", PenUse::cut);
}

void draw_splice(Draft& d, const DetailSite& site, const SpliceSite& p, double half, int bolts) {
  const double pad = site.pad(), plate = p.splice->plate.in_mm();
  d.faces({rectangle(-half, -pad, half, -pad + plate)}, "steel", PenUse::outline);
  const double bolt = p.splice->bolt.in_mm(), high = -pad + plate + p.splice->projection.in_mm();
  const int n = std::max(bolts, 2);
  const double edge = std::max(1.5 * bolt, half * 0.12);
  for (int i = 0; i < n && bolt > 0; ++i)
    draw_bolt(d, -half + edge + (2 * half - 2 * edge) * i / (n - 1), bolt,
              -pad - drawn_flange - bolt, high, true);
}

std::string splice_words(const DetailSite& site, const SpliceSite& p) {
  const Splice& s = *p.splice;
  std::string words = fmt::format("splice plate {} × {} × {} by others", site.print(s.length),
                                  site.print(s.width), site.print(s.plate));
  if (s.bolt > Length())
    words += fmt::format(", bolts {} projecting {}", site.print(s.bolt), site.print(s.projection));
  if (s.rows > 0 && s.lines > 0) return words + fmt::format(", {} × {}", s.rows, s.lines);
  return words + ", their number not stated";
}

Piece recess_along(const DetailSite& site, const SpliceSite& p, int ratio) {
  return measured(site.input, [site, p, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const double half = p.splice->length.in_mm() / 2, hollow = half + p.around, pad = site.pad();
    const double reach = hollow + 160, under = pad + drawn_flange + 30;
    Draft d(board, site.input, {{{-reach, -under}, {reach, p.top + 4}}, ratio}, at, use);
    d.faces({rectangle(-reach, -pad - drawn_flange, reach, -pad)}, "steel", PenUse::thin);
    if (pad > 0)
      d.faces({rectangle(-reach, -pad, -hollow, 0), rectangle(hollow, -pad, reach, 0)}, "bearing",
              PenUse::thin);
    draw_splice(d, site, p, half, p.splice->rows);
    draw_hollow_panel(d, site, p, hollow, reach);
    d.broken_edge(Edge::left, 0, p.top);
    d.broken_edge(Edge::right, 0, p.top);
    d.chain(Edge::below, 0, {{-hollow, 0}, {-half, -pad}, {half, -pad}, {hollow, 0}});
    d.chain(Edge::below, 1, {{-hollow, 0}, {hollow, 0}});
    d.chain(Edge::left, 0, {{-reach, -pad}, {-reach, 0}, {-reach, p.depth}, {-reach, p.top}});
    const double high = -pad + (p.splice->plate + p.splice->projection).in_mm();
    d.chain(
        Edge::right, 0,
        {{reach, -pad}, {half, -pad + p.splice->plate.in_mm()}, {half, high}, {hollow, p.depth}});
    d.finish("ALONG THE GIRDER");
  });
}

Piece recess_across(const DetailSite& site, const SpliceSite& p, int ratio) {
  return measured(site.input, [site, p, ratio](Board& board, PaperPoint at, DetailUse* use) {
    const double half = p.splice->width.in_mm() / 2, hollow = half + p.around, pad = site.pad();
    const double flange = p.girder->flange.in_mm() / 2, reach = std::max(hollow, flange) + 110;
    const double under = pad + drawn_flange + 30;
    Draft d(board, site.input, {{{-reach, -under}, {reach, p.top + 4}}, ratio}, at, use);
    d.faces({rectangle(-flange, -pad - drawn_flange, flange, -pad)}, "steel", PenUse::thin);
    draw_splice(d, site, p, half, p.splice->lines);
    draw_hollow_panel(d, site, p, hollow, reach);
    d.broken_edge(Edge::left, 0, p.top);
    d.broken_edge(Edge::right, 0, p.top);
    d.chain(Edge::below, 0, {{-hollow, 0}, {-half, -pad}, {half, -pad}, {hollow, 0}});
    d.chain(Edge::below, 1, {{-flange, -pad}, {flange, -pad}});
    d.note(Edge::right, {hollow - 10, p.depth + 3}, "hollow lined with the bottom skin");
    d.note(Edge::right, {half - 2, -pad + p.splice->plate.in_mm() / 2}, splice_words(site, p));
    d.note(Edge::right, {flange - 6, -pad - drawn_flange / 2}, "girder flange by others");
    d.finish("ACROSS THE GIRDER");
  });
}

}  // namespace

Piece recess_detail(const DetailSite& site) {
  const auto p = splice_site(site);
  if (!p) return {};
  const int ratio = site.ratio(5);
  return site.arranged({recess_along(site, *p, ratio), recess_across(site, *p, ratio)});
}

Piece hold_down_detail(const DetailSite& site) {
  const auto found = find_feature(site.input, FeatureKind::hold_down);
  if (!found) return {};
  const int ratio = site.ratio(2);
  return measured(site.input, [site, f = *found, ratio](Board& board, PaperPoint at,
                                                        DetailUse* use) {
    const HoldDownData& data = *site.deck().hold_downs;
    const Girder* g = &site.input.bridge.girders.front();
    for (const Girder& other : site.input.bridge.girders)
      if (other.name == f.feature->source) g = &other;
    const double x = -f.feature->at.y, pad = site.pad(), half = g->flange.in_mm() / 2;
    const double middle = -g->offset.in_mm(), out = x < middle ? -1 : 1, edge = middle + out * half;
    const double bolt = thread_diameter(data.bolt), clip = 12, under = pad + drawn_flange + clip;
    const double a = edge - out * 110, b = x + out * 90;
    const double high = data.insert_depth.in_mm() + 30;
    const CutBox box{{std::min(a, b), -under - bolt - 8}, {std::max(a, b), high}};
    Draft d(board, site.input, {box, ratio}, at, use);
    d.section(cut_across(*f.shape, site.deck(), typical_cut(*f.shape)));
    d.faces({rectangle(std::min(edge, middle - out * 400), -pad - drawn_flange,
                       std::max(edge, middle - out * 400), -pad)},
            "steel", PenUse::outline, true);
    // The clip: under the flange, up to the soffit beyond its edge.
    const double inner = edge - out * 35, outer = x + out * 1.6 * bolt;
    d.faces({rectangle(std::min(inner, outer), -under, std::max(inner, outer), -under + clip)},
            "steel", PenUse::outline, true);
    const double heel = outer - out * clip;
    d.faces({rectangle(std::min(heel, outer), -under + clip, std::max(heel, outer), 0)}, "steel",
            PenUse::outline, true);
    const double r = bolt, depth = data.insert_depth.in_mm();
    d.faces({rectangle(x - r, 0, x + r, depth)}, "steel", PenUse::outline, true);
    draw_bolt(d, x, bolt, -under - 0.65 * bolt, depth * 0.75, false);
    d.broken_edge(Edge::above, box.low.x, box.high.x);
    d.chain(Edge::below, 0, {{edge, -pad}, {x, -under}});
    d.chain(out < 0 ? Edge::left : Edge::right, 0, {{x, 0}, {x, depth}});
    const Edge side = out < 0 ? Edge::right : Edge::left;
    d.note(side, {x - out * bolt * 0.7, -under - 0.3 * bolt},
           fmt::format("bolt {} from below, {} from the flange's edge", data.bolt,
                       site.print(data.gauge)));
    d.note(side, {x + r * 0.9, depth - 6},
           fmt::format("insert {}, {} deep, moulded in", data.bolt, site.print(data.insert_depth)));
    d.note(side, {inner + out * 12, -under + clip / 2},
           "clip by the contractor, slotted across the bridge; tightened as the engineer states");
    d.note(side, {edge - out * 60, -pad - drawn_flange / 2},
           fmt::format("flange of {} by others, {} wide", g->name, site.print(g->flange)));
    const auto& pads = site.deck().pads;
    const double pad_edge = pads ? std::min(pads->width, g->flange).in_mm() / 2 : half;
    const double on_pad = std::max(pad_edge - 8, half - 100);  // inside the window
    d.note(side, {middle + out * std::min(on_pad, half - 15), -pad / 2},
           pad > 0 && on_pad < pad_edge ? "bearing pad" : "panel over the flange");
    d.finish("");
  });
}

Piece lifting_detail(const DetailSite& site) {
  const auto found = find_feature(site.input, FeatureKind::lifting_insert);
  if (!found) return {};
  const int ratio = site.ratio(2);
  return measured(site.input, [site, f = *found, ratio](Board& board, PaperPoint at,
                                                        DetailUse* use) {
    const LiftingData& data = site.deck().lifting;
    const double x = -f.feature->at.y, top = f.shape->top(f.feature->at.y),
                 depth = data.depth.in_mm();
    const double r = f.feature->length / 2, bore = thread_diameter(data.thread) / 2;
    Draft d(board, site.input, {{{x - 110, -2}, {x + 110, top + 14}}, ratio}, at, use);
    d.section(cut_across(*f.shape, site.deck(), typical_cut(*f.shape)));
    d.faces({rectangle(x - r, top - depth, x + r, top)}, "steel", PenUse::outline, true);
    d.clear({{x - bore, top - depth * 0.8}, {x + bore, top + 6}});
    d.ring(PenUse::outline, rectangle(x - bore, top - depth * 0.8, x + bore, top));
    d.line(PenUse::centre, {x, top - depth - 8}, {x, top + 14});
    d.broken_edge(Edge::left, 0, top);
    d.broken_edge(Edge::right, 0, top);
    d.chain(Edge::left, 0, {{x, top - depth}, {x, top}});
    d.note(Edge::right, {x + r - 2, top - depth / 2},
           fmt::format("insert {}, {} deep, moulded in; plugged after the lift", data.thread,
                       site.print(data.depth)));
    d.note(Edge::right, {x + r - 2, top - depth + 6},
           data.capacity_kn > 0
               ? fmt::format("capacity {} kN as stated: {}", shortest_decimal(data.capacity_kn, 2),
                             data.source.empty() ? "source not stated" : data.source)
               : "capacity not stated: not checked");
    d.note(Edge::right, {x + r - 2, top - depth / 2 - 20},
           "all four inserts together, sling angles as in the lifting plan of a qualified person");
    d.finish("");
  });
}

}  // namespace deckquire::sheets
