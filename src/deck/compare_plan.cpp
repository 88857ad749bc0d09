// Differences of outline, ends, section, surface and curbs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/comparing.h"
#include "deck/identity.h"

namespace deckquire {
namespace {

/// How far an edge leaves a parallel to the chord towards its outer side, from back to ahead.
double splay(const PanelShape& s, Side side) {
  return side == Side::left ? s.left_ahead - s.left_back : s.right_back - s.right_ahead;
}

std::string splay_words(const Comparing& c, double v) {
  if (!c.differ(v, 0)) return "runs straight ahead";
  return fmt::format("runs {} by {}", v > 0 ? "out" : "in", c.print(std::abs(v)));
}

void compare_edges(Comparing& c) {
  c.measure("width", "width at the back", c.a.left_back - c.a.right_back,
            c.b.left_back - c.b.right_back);
  for (Side side : {Side::left, Side::right}) {
    const double p = splay(c.a, side), q = splay(c.b, side);
    const std::string edge = side == Side::left ? "left edge" : "right edge";
    if (!c.differ(p, q)) continue;
    const std::string first = splay_words(c, p), second = splay_words(c, q);
    c.say(edge,
          first == second ? fmt::format("{} splays {}", edge, c.instead(p, q))
                          : fmt::format("{} {}, the other's {}", edge, first, second),
          p - q);
  }
}

std::string skew_words(double slope) {
  if (std::abs(slope) < 1e-9) return "square";
  return fmt::format("skewed by {}\u00b0, its {} corner ahead",
                     decimal(std::atan(std::abs(slope)) * 180 / pi, 2),
                     slope > 0 ? "left" : "right");
}

void compare_skew(Comparing& c, const char* end, double p, double q) {
  const double width = bounds(c.a.outline).height();
  if (c.differ(p * width, q * width))
    c.say("skew", fmt::format("{} end {} instead of {}", end, skew_words(p), skew_words(q)),
          (p - q) * width);
}

void compare_ends(Comparing& c) {
  c.measure("length", "length", drawn_length(c.a), drawn_length(c.b));
  compare_edges(c);
  compare_skew(c, "back", c.a.back_slope, c.b.back_slope);
  compare_skew(c, "ahead", c.a.ahead_slope, c.b.ahead_slope);
  const auto ends = [&](const char* end, EdgeEnd p, EdgeEnd q) {
    if (p != q)
      c.say("end", fmt::format("{} at its {} end instead of {}", end_name(p), end, end_name(q)));
  };
  ends("back", c.a.back, c.b.back);
  ends("ahead", c.a.ahead, c.b.ahead);
  const auto sides = [&](const char* side, bool p, bool q) {
    if (p == q) return;
    c.say("edge", fmt::format("{} on its {} instead of {}", p ? "a row joint" : "the deck's edge",
                              side, q ? "a row joint" : "the deck's edge"));
  };
  sides("left", c.a.left_joint, c.b.left_joint);
  sides("right", c.a.right_joint, c.b.right_joint);
}

/// Corners of the outline besides those of the two ends, which the lengths and widths describe.
std::vector<PanelPoint> inner_corners(const PanelShape& s) {
  const PanelPoint ends[] = {{s.back_x(s.left_back), s.left_back},
                             {s.back_x(s.right_back), s.right_back},
                             {s.ahead_x(s.left_ahead), s.left_ahead},
                             {s.ahead_x(s.right_ahead), s.right_ahead}};
  std::vector<PanelPoint> out;
  for (const PanelPoint& p : s.outline)
    if (std::none_of(std::begin(ends), std::end(ends),
                     [&](const PanelPoint& e) { return std::hypot(p.x - e.x, p.y - e.y) < 0.01; }))
      out.push_back(p);
  std::sort(out.begin(), out.end(), [](const PanelPoint& p, const PanelPoint& q) {
    return std::pair(std::llround(p.x * 100), std::llround(p.y * 100)) <
           std::pair(std::llround(q.x * 100), std::llround(q.y * 100));
  });
  return out;
}

void compare_corners(Comparing& c) {
  const std::vector<PanelPoint> mine = inner_corners(c.a);
  std::vector<PanelPoint> theirs = inner_corners(c.b);
  for (PanelPoint& p : theirs) p = p - c.shift();
  if (mine.size() != theirs.size())
    return c.say("outline", fmt::format("an outline of {} corners instead of {}",
                                        c.a.outline.size(), c.b.outline.size()));
  for (const PanelPoint& p : mine) {
    const auto nearest = std::min_element(
        theirs.begin(), theirs.end(), [&](const PanelPoint& q, const PanelPoint& r) {
          return std::hypot(q.x - p.x, q.y - p.y) < std::hypot(r.x - p.x, r.y - p.y);
        });
    if (c.differ(p, *nearest))
      c.say("outline", "a corner at " + c.places(p, *nearest),
            std::hypot(p.x - nearest->x, p.y - nearest->y));
    theirs.erase(nearest);
  }
}

const char* fall_words(Fall f) {
  switch (f) {
    case Fall::crown:
      return "to both sides";
    case Fall::left:
      return "to the left";
    case Fall::right:
      return "to the right";
    case Fall::none:
      break;
  }
  return "nowhere";
}

void compare_section(Comparing& c) {
  c.measure("depth", "depth", c.a.depth, c.b.depth);
  if (c.a.fall != c.b.fall)
    return c.say("fall", fmt::format("the top falls {} instead of {}", fall_words(c.a.fall),
                                     fall_words(c.b.fall)));
  if (std::abs(c.a.slope - c.b.slope) >= 1e-9)
    c.say("fall",
          fmt::format("the top falls by {} % instead of {} %", shortest_decimal(c.a.slope * 100, 3),
                      shortest_decimal(c.b.slope * 100, 3)));
  if (c.a.fall != Fall::none)
    c.measure("high line", "high line at y =", c.a.high_line - c.a.right_back,
              c.b.high_line - c.shift().y - c.a.right_back);
}

std::string surface_words(const Comparing& c, int surface) {
  if (surface < 0) return "no wearing surface";
  const SurfaceData& s = c.project.deck.surfaces[static_cast<std::size_t>(surface)];
  return fmt::format("{} surface {}, {} thick", s.colour, s.trade_class,
                     c.print(s.thickness.in_mm()));
}

void compare_surface(Comparing& c) {
  if (c.a.surface == c.b.surface) return;
  const std::string first = surface_words(c, c.a.surface), second = surface_words(c, c.b.surface);
  c.say("surface", first == second ? first + ", of another make than the other's"
                                   : first + " instead of " + second);
}

/// "from the back end to x = 1200, from x = 1600 to the ahead end", or "none".
std::string curb_words(const Comparing& c, const PanelShape& s, Side side, PanelPoint shift) {
  std::vector<std::pair<double, double>> runs;
  for (const CurbRun& r : s.curbs)
    if (r.side == side) runs.push_back({bounds(r.plan).low.x, bounds(r.plan).high.x});
  std::sort(runs.begin(), runs.end());
  const bool left = side == Side::left;
  const double back = s.back_x(left ? s.left_back : s.right_back);
  const double ahead = s.ahead_x(left ? s.left_ahead : s.right_ahead);
  const auto end = [&](double x, double border, double slope, const char* name) {
    constexpr double widest_curb = 500;  // a skewed end cuts its two faces at different x
    if (std::abs(x - border) <= 0.5 + std::abs(slope) * widest_curb)
      return fmt::format("the {} end", name);
    return "x = " + c.print(c.on_sheet(PanelPoint{x, 0} - shift).x);
  };
  std::vector<std::string> said;
  for (const auto& [from, to] : runs)
    said.push_back(fmt::format("from {} to {}", end(from, back, s.back_slope, "back"),
                               end(to, ahead, s.ahead_slope, "ahead")));
  return said.empty() ? "none" : join(said, ", ");
}

void compare_curbs(Comparing& c) {
  for (Side side : {Side::left, Side::right}) {
    const std::string curb = side == Side::left ? "left curb" : "right curb";
    const std::string first = curb_words(c, c.a, side, {}),
                      second = curb_words(c, c.b, side, c.shift());
    if (first == second) continue;
    if (second == "none")
      c.say(curb, "a " + curb + ", which the other has not");
    else if (first == "none")
      c.say(curb, "no " + curb);
    else
      c.say(curb, fmt::format("{} {} instead of {}", curb, first, second));
  }
}

}  // namespace

void compare_plan(Comparing& c) {
  compare_ends(c);
  compare_corners(c);
  compare_section(c);
  compare_surface(c);
  compare_curbs(c);
}

}  // namespace deckquire
