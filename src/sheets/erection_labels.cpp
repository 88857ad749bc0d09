#include <algorithm>
#include <cmath>
#include <iterator>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

constexpr double step = 1.0;      // mm between tried places
constexpr double on_solid = 400;  // per mm2 of overlap
constexpr double on_quiet = 2;
constexpr double forbidden = 1e9;

double overlap(const paper::PaperBox& a, const paper::PaperBox& b) {
  const double w = std::min(a.high.x, b.high.x) - std::max(a.low.x, b.low.x);
  const double h = std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
  return w > 0 && h > 0 ? w * h : 0;
}

}  // namespace

bool LabelField::on_text(const paper::PaperBox& b) const {
  return std::any_of(texts_.begin(), texts_.end(),
                     [&](const paper::PaperBox& t) { return overlap(b.grown(0.8), t) > 0; });
}

double LabelField::cost(const paper::PaperBox& b) const {
  if (on_text(b)) return forbidden;
  double sum = 0;
  for (const auto& s : solids_) sum += on_solid * overlap(b.grown(0.4), s);
  for (const auto& q : quiets_) sum += on_quiet * overlap(b, q);
  return sum;
}

LabelField LabelField::part(const paper::PaperBox& box) const {
  LabelField out;
  const auto keep = [&](const auto& from, auto& to) {
    std::copy_if(from.begin(), from.end(), std::back_inserter(to),
                 [&](const paper::PaperBox& b) { return b.overlaps(box); });
  };
  keep(texts_, out.texts_);
  keep(solids_, out.solids_);
  keep(quiets_, out.quiets_);
  return out;
}

std::optional<paper::PaperPoint> LabelField::best(paper::PaperPoint size,
                                                  const paper::PaperBox& region,
                                                  paper::PaperPoint ideal, double worst) const {
  const LabelField near = part(region.grown(1));  // the rest cannot matter to any place tried
  std::optional<paper::PaperPoint> found;
  double least = worst;
  const paper::PaperPoint half = size * 0.5;
  for (double y = region.low.y + half.y; y <= region.high.y - half.y + 1e-9; y += step)
    for (double x = region.low.x + half.x; x <= region.high.x - half.x + 1e-9; x += step) {
      const double away = std::hypot(x - ideal.x, y - ideal.y);
      if (away >= least) continue;
      const double c = away + near.cost({{x - half.x, y - half.y}, {x + half.x, y + half.y}});
      if (c < least) {
        least = c;
        found = paper::PaperPoint{x, y};
      }
    }
  return found;
}

std::optional<paper::PaperPoint> LabelField::place(paper::PaperPoint size,
                                                   const paper::PaperBox& region,
                                                   paper::PaperPoint ideal) const {
  return best(size, region, ideal, forbidden);
}

std::optional<paper::PaperPoint> LabelField::clear_place(paper::PaperPoint size,
                                                         const paper::PaperBox& region,
                                                         paper::PaperPoint ideal) const {
  return best(size, region, ideal, 140);
}

}  // namespace deckquire::sheets
