#include "deck/posts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

/// A post on each side; of panels side by side on the outer ones.
void add_sides(std::vector<PlacedPost>& posts, const Division& division, const PlacedPost& post,
               CurbSides sides) {
  const int bay = division.pieces[static_cast<std::size_t>(post.piece)].bay;
  for (Side side : {Side::left, Side::right}) {
    if (!on_side(sides, side)) continue;
    posts.push_back(post);
    posts.back().side = side;
    posts.back().piece = outermost(division, bay, side);
    if (!post.name.empty() && sides == CurbSides::both)
      posts.back().name += side == Side::left ? "L" : "R";
  }
}

void add_half_bays(const PostsData& data, const Division& division, Length gap,
                   std::vector<PlacedPost>& posts) {
  const std::int64_t greatest = data.greatest->in_nanometres();
  if (greatest <= 0) return;
  for (std::size_t i = 0; i < division.pieces.size(); ++i) {
    const auto& p = division.pieces[i];
    if (p.row > 0) continue;
    const Length pitch = p.end - p.start + gap;
    const std::int64_t k = (pitch.in_nanometres() + greatest - 1) / greatest;
    for (std::int64_t j = 0; j < k; ++j) {
      const Length at = pitch * (2 * j + 1) / static_cast<double>(2 * k);
      add_sides(posts, division, {"", {}, p.start - gap / 2 + at, static_cast<int>(i), data.place},
                data.sides);
    }
  }
}

void add_constant(const PostsData& data, const Division& division, std::vector<PlacedPost>& posts) {
  if (*data.spacing <= Length() || division.pieces.empty()) return;
  const Length last = division.pieces.back().end;
  for (Length s = data.first; s <= last; s += *data.spacing)
    add_sides(posts, division, {"", {}, s, owner(division, s, {}), data.place}, data.sides);
}

void number_posts(std::vector<PlacedPost>& posts) {
  std::stable_sort(posts.begin(), posts.end(), [](const PlacedPost& a, const PlacedPost& b) {
    return a.side != b.side ? a.side == Side::left : a.station < b.station;
  });
  int left = 0, right = 0;
  for (PlacedPost& p : posts) {
    const int n = p.side == Side::left ? ++left : ++right;
    if (p.name.empty()) p.name = fmt::format("{}{}", n, p.side == Side::left ? "L" : "R");
  }
}

/// Room between the plate's nearer end and the panel's end, along the alignment.
Length room(const Division& division, const PlacedPost& post, Length plate) {
  const auto& p = division.pieces[static_cast<std::size_t>(post.piece)];
  return std::min(post.station - p.start, p.end - post.station) - plate / 2;
}

void report_near_joint(const PanelSite& site, const std::vector<PlacedPost>& posts) {
  const PostsData& data = *site.deck().posts;
  const PlacedPost* first = nullptr;
  int count = 0;
  for (const PlacedPost& p : posts) {
    if (room(site.division, p, data.plate.length) >= data.clear) continue;
    if (!first || p.station < first->station) first = &p;
    ++count;
  }
  if (!first || first->piece != site.piece) return;
  const Joint& joint = nearest_joint(site.division, first->station);
  site.findings.error(
      first->place, "post-near-joint",
      fmt::format("the plate of post {} at {} is {} from the end of panel {} at joint {}{}",
                  first->name, site.printed_station(first->station),
                  site.printed(room(site.division, *first, data.plate.length)), site.piece + 1,
                  joint.name, count > 1 ? fmt::format(", and {} more like it", count - 1) : ""),
      fmt::format("keep {} clear: use the half-bay rule, another spacing or another first station",
                  site.printed(data.clear)));
}

void report_no_curb(const PanelSite& site, const std::vector<PlacedPost>& posts) {
  for (const PlacedPost& p : posts) {
    if (site.has_curb(p.side)) continue;
    if (p.piece == site.piece)
      site.findings.error(p.place, "post-without-curb",
                          fmt::format("post {} stands on the {} side, which has no curb", p.name,
                                      p.side == Side::left ? "left" : "right"),
                          "give that side a curb, or take its posts out");
    return;
  }
}

Feature plate_of(const PanelSite& site, const PlacedPost& post) {
  const PostPlateData& plate = site.deck().posts->plate;
  const CurbData& curb = site.deck().section.curb;
  Feature f;
  f.kind = FeatureKind::post_plate;
  f.length = plate.length.in_mm();
  f.width = plate.width.in_mm();
  f.depth = plate.thickness.in_mm();
  f.variant = static_cast<int>(post.side);
  f.source = post.name;
  f.place = post.place;
  const PanelPoint on_edge = site.edge_point(post.side, post.station);
  // In the middle of the curb's top, turned parallel to the edge.
  f.at = {on_edge.x, on_edge.y - sign(post.side) * (curb.width - curb.batter).in_mm() / 2};
  constexpr double step = 1;
  const Chain& edge = site.edge(post.side);
  const double ahead = site.edge(post.side, std::min(on_edge.x + step, edge.back().x));
  const double back = site.edge(post.side, std::max(on_edge.x - step, edge.front().x));
  f.angle = std::atan2(ahead - back, 2 * step);
  if (std::abs(f.angle) < 1e-9) f.angle = 0;
  return f;
}

}  // namespace

std::vector<PlacedPost> place_posts(const Project& project, const Division& division) {
  std::vector<PlacedPost> posts;
  if (!project.deck.posts || division.pieces.empty()) return posts;
  const PostsData& data = *project.deck.posts;
  if (data.greatest) add_half_bays(data, division, project.deck.joints.gap, posts);
  if (data.spacing) add_constant(data, division, posts);
  for (const PostData& p : data.posts)
    add_sides(posts, division, {p.name, {}, p.station, owner(division, p.station, {}), p.place},
              p.sides);
  number_posts(posts);
  return posts;
}

void add_post_plates(const PanelSite& site, PanelShape& shape) {
  const std::vector<PlacedPost>& posts = site.division.posts;
  if (posts.empty()) return;
  report_near_joint(site, posts);
  report_no_curb(site, posts);
  for (const PlacedPost& p : posts)
    if (p.piece == site.piece && site.has_curb(p.side)) shape.features.push_back(plate_of(site, p));
}

}  // namespace deckquire
