// Post plates: their place in the curb, bolts to plate edges, threads.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "checks/parts.h"
#include "deck/site.h"

namespace deckquire {
namespace {

struct EdgeDistance {
  double bolt, least;  // mm
};

// Least distance of a standard hole's centre from the plate's edge: AISC 360-16 Tables J3.4 and
// J3.4M (quoted by a second text, the tables themselves not seen).
constexpr EdgeDistance edge_distances[] = {
    {12.7, 19.05}, {15.875, 22.225}, {16, 22}, {19.05, 25.4}, {20, 26},
    {22, 28},      {22.225, 28.575}, {24, 30}, {25.4, 31.75}, {30, 38},
};

std::optional<double> least_edge_distance(double bolt) {
  for (const EdgeDistance& e : edge_distances)
    if (std::abs(e.bolt - bolt) < 0.01) return e.least;
  return std::nullopt;
}

void check_bolt_edges(const FitCheck& c, const PostsData& posts) {
  const PostPlateData& p = posts.plate;
  const auto least = least_edge_distance(thread_diameter(p.thread));
  if (!least) return;
  const double along = (p.length - (p.along - 1) * p.pitch_along).in_mm() / 2;
  const double across = (p.width - (p.across - 1) * p.pitch_across).in_mm() / 2;
  const double actual = std::min(along, across);
  if (actual + 1e-6 >= *least) return;
  c.findings.warning(posts.place, "bolt-near-plate-edge",
                     fmt::format("the {} bolts are {} from the edge of the post plate", p.thread,
                                 c.length(actual)),
                     fmt::format("{} is the least for a standard hole (AISC 360-16 Table J3.4M, "
                                 "second hand)",
                                 c.length(*least)));
}

void check_threads(const FitCheck& c, const PostsData& posts) {
  const PostPlateData& p = posts.plate;
  const double bolt = thread_diameter(p.thread), depth = p.tap_depth.in_mm();
  if (p.tap_depth > p.thickness)
    c.findings.error(posts.place, "tapped-through",
                     fmt::format("the plate is {} thick, its holes are tapped {} deep",
                                 c.length(p.thickness.in_mm()), c.length(depth)),
                     "the thread cannot be longer than the plate is thick");
  if (depth + 1e-6 >= bolt) return;
  c.findings.warning(
      posts.place, "thread-short",
      fmt::format("the {} thread of the post plates is {} deep", p.thread, c.length(depth)),
      fmt::format("one diameter, {}, is the least (common practice, no source); the "
                  "anchorage itself is not checked",
                  c.length(bolt)));
}

/// From a plate, square to its side, to the nearer side of its curb's top; negative: beyond it.
double room_in_curb(const FitCheck& c, const Panel& p, const Feature& f) {
  const CurbData& curb = c.data().section.curb;
  const double cos = std::cos(f.angle), sin = std::sin(f.angle);
  const double outwards = f.variant == static_cast<int>(Side::left) ? 1 : -1;
  double least = 1e300;
  for (const bool outer : {true, false}) {
    Chain side;  // seen from the plate: x along it, y outwards from its middle
    for (PanelPoint v : outwards > 0 ? p.left_edge : p.right_edge) {
      if (!outer) v.y -= outwards * (curb.width - curb.batter).in_mm();
      const PanelPoint d = v - f.at;
      side.push_back({d.x * cos + d.y * sin, outwards * (d.y * cos - d.x * sin)});
    }
    const auto offer = [&](double y) { least = std::min(least, (outer ? y : -y) - f.width / 2); };
    for (double x : {-f.length / 2, f.length / 2}) offer(height_at(side, x));
    for (const PanelPoint& v : side)
      if (std::abs(v.x) < f.length / 2) offer(v.y);
  }
  return least;
}

/// An opening at the edge parts the curb: does a run of it reach from end to end of the plate?
bool on_curb(const PanelShape& s, const Feature& f) {
  const PanelPoint half{f.length / 2 * std::cos(f.angle), f.length / 2 * std::sin(f.angle)};
  return std::any_of(s.curbs.begin(), s.curbs.end(), [&](const CurbRun& run) {
    return contains(run.plan, f.at - half) && contains(run.plan, f.at + half);
  });
}

/// What another check says of a plate: it reaches into an opening, or over the end of its panel.
bool said_otherwise(const PanelShape& s, const Feature& f) {
  const Ring<PanelFrame> plate = f.ring();
  return std::any_of(plate.begin(), plate.end(),
                     [&](PanelPoint p) { return p.x < s.back_x(p.y) || p.x > s.ahead_x(p.y); }) ||
         std::any_of(s.features.begin(), s.features.end(), [&](const Feature& other) {
           return other.kind == FeatureKind::notch && distance(other.ring(), plate) <= 0;
         });
}

/// The first plate that an opening in the curb leaves without it.
void check_curb_runs(const FitCheck& c) {
  const Panel* panel = nullptr;
  const Feature* plate = nullptr;
  int count = 0;
  for (const Panel& p : c.deck.panels) {
    const auto opening = [](const Feature& f) { return f.kind == FeatureKind::notch; };
    if (std::none_of(p.shape.features.begin(), p.shape.features.end(), opening)) continue;
    for (const Feature& f : p.shape.features) {
      if (f.kind != FeatureKind::post_plate || on_curb(p.shape, f)) continue;
      if (said_otherwise(p.shape, f)) continue;
      if (count++ > 0) continue;
      panel = &p;
      plate = &f;
    }
  }
  if (count == 0) return;
  c.findings.error(c.place_of(*plate), "post-beside-curb",
                   fmt::format("post {} stands where an opening has taken the curb away, in panel "
                               "{} at {}{}",
                               plate->source, panel->position, c.position(*panel, plate->at),
                               and_more(count - 1)),
                   "write a post beside the opening, or use another spacing");
}

/// Laminate beside the plates in their curbs.
void check_plate_cover(const FitCheck& c, const PostsData& posts) {
  constexpr double least = 20;
  const CurbData& curb = c.data().section.curb;
  if (posts.plate.cover + posts.plate.thickness > curb.height)
    c.findings.error(posts.place, "plate-below-curb",
                     "the post plates with their cover are deeper than the curb is high",
                     "a higher curb, a thinner plate or less cover");
  double cover = 1e300;
  const Panel* panel = nullptr;
  const Feature* plate = nullptr;
  for (const Mark& m : c.deck.marks)
    for (const Feature& f : c.first_of(m).shape.features) {
      if (f.kind != FeatureKind::post_plate) continue;
      const double is = room_in_curb(c, c.first_of(m), f);
      if (is > cover - 1e-6) continue;
      cover = is;
      panel = &c.first_of(m);
      plate = &f;
    }
  if (cover + 1e-6 >= least) return;
  if (cover < -1e-4) {
    c.findings.error(c.place_of(*plate), "plate-outside-curb",
                     fmt::format("the plate of post {} reaches {} beyond its curb, in panel {} at "
                                 "{}",
                                 plate->source, c.length(-cover), panel->position,
                                 c.position(*panel, plate->at)),
                     "move the post away from the corner of the edge, or give it a smaller plate "
                     "or a wider curb");
    return;
  }
  c.findings.warning(
      posts.place, "plate-cover",
      fmt::format("a post plate has {} beside it in the curb", c.length(cover)),
      fmt::format("{} is the least (common practice, no source): a narrower plate or "
                  "a wider curb",
                  c.length(least)));
}

}  // namespace

void check_plates(const FitCheck& c) {
  if (!c.data().posts || c.deck.posts.empty()) return;
  check_bolt_edges(c, *c.data().posts);
  check_threads(c, *c.data().posts);
  check_plate_cover(c, *c.data().posts);
  check_curb_runs(c);
}

}  // namespace deckquire
