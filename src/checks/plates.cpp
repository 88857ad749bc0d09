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

/// Laminate beside a plate: measured square to it in its curb, at the plate's upper face.
void check_plate_cover(const FitCheck& c, const PostsData& posts) {
  constexpr double least = 20;
  const CurbData& curb = c.data().section.curb;
  if (posts.plate.cover + posts.plate.thickness > curb.height)
    c.findings.error(posts.place, "plate-below-curb",
                     "the post plates with their cover are deeper than the curb is high",
                     "a higher curb, a thinner plate or less cover");
  double cover = 1e300;
  for (const Mark& m : c.deck.marks)
    for (const Feature& f : m.shape.features)
      if (f.kind == FeatureKind::post_plate)
        cover =
            std::min(cover, ((curb.width - curb.batter).in_mm() * std::cos(f.angle) - f.width) / 2);
  if (cover + 1e-6 >= least) return;
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
}

}  // namespace deckquire
