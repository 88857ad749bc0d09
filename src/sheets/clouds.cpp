#include "sheets/clouds.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include "sheets/cloud_ring.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;

constexpr double together = 16;  // mm; spots nearer than this share a number

bool near(const Cloud& a, const Cloud& b) {
  for (const PaperBox& p : a.boxes)
    for (const PaperBox& q : b.boxes)
      if (p.grown(together / 2).overlaps(q.grown(together / 2))) return true;
  return false;
}

/// A triangle on its base with letters in it; `low` is the left end of the base.
struct Delta {
  double side = 0, height = 0, letters = 0;
  Delta(const Board& board, const std::string& words) {
    letters = board.text_height(LetterUse::callout);
    const double air = 0.9;  // over and under the letters
    // At their upper edge the triangle is as wide as they are.
    side = board.text_width(LetterUse::callout, words) + 1.2 + 2 * (letters + air) / std::sqrt(3);
    height = side * std::sqrt(3) / 2;
  }
  PaperBox box(PaperPoint low) const { return {low, {low.x + side, low.y + height}}; }
  PaperBox words(PaperPoint low) const {
    const double width = side - 2 * (letters + 0.9) / std::sqrt(3);
    const double x = low.x + side / 2;
    return {{x - width / 2, low.y + 0.9}, {x + width / 2, low.y + 0.9 + letters}};
  }
};

/// Where a delta stands, and the line to its ring; none where it touches it.
struct Standing {
  PaperPoint low;
  std::vector<PaperPoint> line;
};

class Placer {
 public:
  Placer(const Board& board, const Obstacles& obstacles)
      : obstacles_(obstacles), room_(board.style().frame().grown(-1.5)) {}

  /// The cheapest place near the ring; ahead of all others the top right corner.
  std::optional<Standing> place(const Delta& delta, const std::vector<PaperPoint>& ring) const {
    PaperBox around{ring.front(), ring.front()};
    for (PaperPoint p : ring) {
      around.low = {std::min(around.low.x, p.x), std::min(around.low.y, p.y)};
      around.high = {std::max(around.high.x, p.x), std::max(around.high.y, p.y)};
    }
    for (double reach : {1.5 * delta.side, 60.0, 150.0}) {
      std::optional<Standing> best;
      double least = 1e9;
      const PaperBox field{{around.low.x - reach - delta.side, around.low.y - reach - delta.height},
                           {around.high.x + reach, around.high.y + reach}};
      for (double y = field.high.y; y > field.low.y; y -= step)
        for (double x = field.high.x; x > field.low.x; x -= step)
          consider(delta, ring, around, {x, y}, least, best);
      if (best) return best;
    }
    return std::nullopt;
  }

 private:
  static constexpr double step = 2.5;
  const Obstacles& obstacles_;
  PaperBox room_;

  void consider(const Delta& delta, const std::vector<PaperPoint>& ring, const PaperBox& around,
                PaperPoint low, double& least, std::optional<Standing>& best) const {
    const PaperBox box = delta.box(low);
    if (!room_.contains(box.low) || !room_.contains(box.high)) return;
    // The nearest point of the ring, cheap first.
    double near = 1e9;
    PaperPoint to;
    const PaperPoint c{box.centre().x, low.y + delta.height / 3};
    for (PaperPoint p : ring) {
      const double d = std::hypot(p.x - c.x, p.y - c.y);
      if (d < near) near = d, to = p;
    }
    const double corner = std::hypot(around.high.x - c.x, around.high.y - c.y);
    double cost = near + 0.02 * corner;
    if (cost >= least || obstacles_.letters(box.grown(0.8)) || obstacles_.rings(box.grown(0.8)))
      return;
    for (PaperPoint p : ring)
      if (box.grown(0.5).contains(p)) return;
    cost += 4 * static_cast<double>(obstacles_.lines(box));
    if (cost >= least) return;
    Standing standing{low, {}};
    if (near > delta.side / 2 + 1.5) {
      standing.line = line_to(delta, low, to, ring);
      if (standing.line.empty()) return;
    }
    least = cost;
    best = standing;
  }

  /// From the triangle to that point of the ring or, where letters are in the way, to another one.
  std::vector<PaperPoint> line_to(const Delta& delta, PaperPoint low, PaperPoint to,
                                  const std::vector<PaperPoint>& ring) const {
    const PaperPoint from = end_on(delta, low, to);
    if (!obstacles_.letters_on(from, to)) return {from, to};
    const std::size_t pace = std::max<std::size_t>(1, ring.size() / 24);
    for (std::size_t i = 0; i < ring.size(); i += pace) {
      const PaperPoint start = end_on(delta, low, ring[i]);
      if (!obstacles_.letters_on(start, ring[i])) return {start, ring[i]};
    }
    return {};
  }

  /// The corner of the triangle nearest to a point.
  static PaperPoint end_on(const Delta& delta, PaperPoint low, PaperPoint to) {
    const PaperPoint corners[] = {
        low, {low.x + delta.side, low.y}, {low.x + delta.side / 2, low.y + delta.height}};
    return *std::min_element(
        std::begin(corners), std::end(corners), [&](PaperPoint a, PaperPoint b) {
          return std::hypot(a.x - to.x, a.y - to.y) < std::hypot(b.x - to.x, b.y - to.y);
        });
  }
};

void draw_delta(Board& board, const Delta& delta, const Standing& standing,
                const std::string& words, bool masked) {
  const paper::Group group(board, "delta-" + words, "delta");
  Path triangle;
  const PaperPoint low = standing.low;
  triangle.polygon(
      {low, {low.x + delta.side, low.y}, {low.x + delta.side / 2, low.y + delta.height}});
  board.stroke(PenUse::revision, triangle);
  if (!standing.line.empty())
    board.line(PenUse::revision, standing.line.front(), standing.line.back());
  const PaperPoint at = delta.words(low).centre();
  if (masked)
    board.masked_text(LetterUse::callout, at, words, paper::Align::centre, paper::Stand::middle,
                      true, paper::Ink::red);
  else
    board.text(LetterUse::callout, at, words, paper::Align::centre, paper::Stand::middle, true,
               paper::Ink::red);
}

}  // namespace

std::vector<Cloud> clouds_of(const std::vector<history::Spot>& spots) {
  std::vector<Cloud> out;
  for (const history::Spot& s : spots) {
    Cloud next{0, {{{s.left, s.low}, {s.right, s.high}}}};
    for (std::size_t i = out.size(); i-- > 0;) {
      if (!near(out[i], next)) continue;
      next.boxes.insert(next.boxes.end(), out[i].boxes.begin(), out[i].boxes.end());
      out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
      i = out.size();  // larger now: those passed over may be near
    }
    out.push_back(std::move(next));
  }
  const auto first = [](const Cloud& c) {
    std::pair<double, double> best{1e9, 1e9};
    for (const PaperBox& b : c.boxes) best = std::min(best, {-b.high.y, b.low.x});
    return best;
  };
  std::sort(out.begin(), out.end(),
            [&](const Cloud& a, const Cloud& b) { return first(a) < first(b); });
  int number = 0;
  for (Cloud& c : out) c.number = ++number;
  return out;
}

std::vector<history::Spot> spots_of(const std::vector<PaperBox>& boxes) {
  std::vector<history::Spot> out;
  for (const PaperBox& b : boxes) out.push_back({b.low.x, b.low.y, b.high.x, b.high.y});
  return out;
}

int draw_clouds(paper::Sheet& sheet, const std::string& revision,
                const std::vector<history::Spot>& spots, const paper::Style& style,
                const paper::Lettering& lettering, CloudParts parts) {
  Obstacles obstacles(sheet);
  const std::vector<Cloud> clouds = clouds_of(spots);
  std::vector<CloudRing> rings;
  for (const Cloud& c : clouds) rings.push_back(ring_around(c.boxes, obstacles, style.frame()));
  if (parts == CloudParts::ring_and_delta)
    for (const CloudRing& r : rings) obstacles.add(r);
  Board board(sheet, style, lettering);
  int homeless = 0;
  for (std::size_t i = 0; i < clouds.size(); ++i) {
    const std::string words = revision + std::to_string(clouds[i].number);
    const paper::Group group(board, "cloud-" + words, "cloud",
                             fmt::format("Revision {}, change {}", revision, clouds[i].number));
    if (parts == CloudParts::ring_and_delta) board.stroke(PenUse::revision, rings[i].arcs);
    const Delta delta(board, words);
    const auto standing = Placer(board, obstacles).place(delta, rings[i].points);
    if (!standing) {
      ++homeless;
      continue;
    }
    const bool masked = obstacles.lines(delta.words(standing->low).grown(0.1)) > 0;
    draw_delta(board, delta, *standing, words, masked);
    obstacles.add(delta.box(standing->low));
  }
  return homeless;
}

}  // namespace deckquire::sheets
