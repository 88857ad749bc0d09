#include "deck/posts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "deck/post_rules.h"
#include "deck/rail_line.h"

namespace deckquire {
namespace {

struct PostSite {
  const Project& project;
  const Bridge& bridge;
  const Division& division;
  bool square;  // no joint is skewed
  Findings& findings;
};

const char* side_word(Side side) {
  return side == Side::left ? "left" : "right";
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
  // In the middle of the curb's top, turned as the edge runs beside its whole length.
  const double inset = sign(post.side) * post_inset(curb);
  double x = site.edge_point(post.side, post.station).x;
  f.at = {x, site.edge(post.side, x) - inset};
  if (!site.frame.straight) {  // square to the chord is not along the radius
    x += (post.station - site.station(f.at)).in_mm();
    f.at = {x, site.edge(post.side, x) - inset};
  }
  const double ahead = site.edge(post.side, x + f.length / 2);
  const double back = site.edge(post.side, x - f.length / 2);
  f.angle = std::atan2(ahead - back, f.length);
  if (std::abs(f.angle) < 1e-9) f.angle = 0;
  return f;
}

/// Room between a plate and the panel's nearer end face, square to it.
Length room(const PanelSite& site, const PlacedPost& post) {
  double least = 1e300;
  for (const PanelPoint& corner : plate_of(site, post).ring())
    least = std::min(least, site.from_end(corner));
  return mm(least);
}

/// Posts too near to a joint: the first, its room and how many there are.
struct NearJoint {
  const PlacedPost* first = nullptr;
  Length room;
  int count = 0;
  void add(const PlacedPost& post, Length its_room) {
    ++count;
    if (first && first->station <= post.station) return;
    first = &post;
    room = its_room;
  }
};

void say_near_joint(const PostSite& s, const NearJoint& near) {
  if (!near.first) return;
  const UnitSystem units = s.project.units;
  const PlacedPost& post = *near.first;
  const Joint& joint = nearest_joint(s.division, post.station);
  s.findings.error(
      post.place, "post-near-joint",
      fmt::format("the plate of post {} at {} is {} from the end of panel {} at joint {}{}",
                  post.name, print_station(post.station, units), print_length(near.room, units),
                  post.piece + 1, joint.name,
                  near.count > 1 ? fmt::format(", and {} more like it", near.count - 1) : ""),
      fmt::format("keep {} clear: use the half-bay rule, another spacing or another first station",
                  print_length(s.project.deck.posts->clear, units)));
}

/// A post that a rule places too near to a joint, or one over it, is an error; of one written out
/// that still fits on its panel the clearance check warns.
void report_near_joint(const PostSite& s, const std::vector<PlacedPost>& posts) {
  const PostsData& data = *s.project.deck.posts;
  // Nearer to a joint than this a post is looked at closely.
  const Length doubt = data.clear + data.plate.length + data.plate.width;
  NearJoint errors;
  for (const PlacedPost& p : posts) {
    const Division::Piece& piece = s.division.pieces[static_cast<std::size_t>(p.piece)];
    if (std::min(p.station - piece.start, piece.end - p.station) > doubt && s.square) continue;
    Findings unheard;
    const PanelSite site(s.project, s.bridge, s.division, p.piece, unheard);
    const Length is = room(site, p);
    if (is + mm(1e-3) >= data.clear) continue;
    if (!p.given || is < Length()) errors.add(p, is);
  }
  say_near_joint(s, errors);
}

void report_no_curb(const PostSite& s, const std::vector<PlacedPost>& posts) {
  const CurbData& curb = s.project.deck.section.curb;
  const bool any = curb.width > Length() && curb.height > Length();
  for (const PlacedPost& p : posts) {
    if (any && on_side(curb.sides, p.side)) continue;
    s.findings.error(
        p.place, "post-without-curb",
        fmt::format("post {} stands on the {} side, which has no curb", p.name, side_word(p.side)),
        "give that side a curb, or take its posts out");
    return;
  }
}

}  // namespace

void place_posts(const Project& project, const Bridge& bridge, Division& division,
                 Findings& findings) {
  if (!project.deck.posts || division.pieces.empty()) return;
  for (Side side : {Side::left, Side::right}) {
    int number = 0;
    for (const Stand& s : stands_of(project, bridge, division, side, findings)) {
      ++number;
      const int near = owner(division, s.station, edge_offset(bridge, side, s.station));
      const int bay = division.pieces[static_cast<std::size_t>(near)].bay;
      const int piece = outermost(division, bay, side);
      division.pieces[static_cast<std::size_t>(piece)].posts.push_back(
          static_cast<int>(division.posts.size()));
      division.posts.push_back(
          {s.name.empty() ? fmt::format("{}{}", number, side == Side::left ? "L" : "R") : s.name,
           side, s.station, piece, s.place, s.origin == PostOrigin::given});
    }
  }
  const bool square = std::all_of(division.joints.begin(), division.joints.end(),
                                  [](const Joint& j) { return j.skew == 0; });
  const PostSite site{project, bridge, division, square, findings};
  report_no_curb(site, division.posts);
  report_near_joint(site, division.posts);
}

void add_post_plates(const PanelSite& site, PanelShape& shape) {
  for (int n : site.here().posts) {
    const PlacedPost& post = site.division.posts[static_cast<std::size_t>(n)];
    if (site.has_curb(post.side)) shape.features.push_back(plate_of(site, post));
  }
}

}  // namespace deckquire
