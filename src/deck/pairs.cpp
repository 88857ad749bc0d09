// Which feature of one panel answers to which of another.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "deck/differences.h"
#include "deck/identity.h"

namespace deckquire {
namespace {

/// A post plate or scupper of the other side is another thing; other variants are worse partners.
bool may_pair(const Feature& a, const Feature& b) {
  const bool sided = a.kind == FeatureKind::post_plate || a.kind == FeatureKind::scupper;
  return a.kind == b.kind && (!sided || a.variant == b.variant);
}

struct Candidate {
  double distance;
  std::size_t a, b;
};

std::vector<Candidate> candidates(const std::vector<const Feature*>& fa,
                                  const std::vector<const Feature*>& fb, PanelPoint shift) {
  std::vector<Candidate> all;
  for (std::size_t i = 0; i < fa.size(); ++i)
    for (std::size_t k = 0; k < fb.size(); ++k) {
      const Feature &a = *fa[i], &b = *fb[k];
      if (!may_pair(a, b)) continue;
      const PanelPoint d = b.at - shift - a.at;
      const double size =
          std::abs(a.length - b.length) + std::abs(a.width - b.width) + std::abs(a.depth - b.depth);
      const double other = a.round != b.round || a.variant != b.variant ? 1000 : 0;
      all.push_back({std::hypot(d.x, d.y) + size + other, i, k});
    }
  // Whole hundredths: equal distances must not be told apart by rounding.
  std::sort(all.begin(), all.end(), [](const Candidate& p, const Candidate& q) {
    return std::tuple(std::llround(p.distance * 100), p.a, p.b) <
           std::tuple(std::llround(q.distance * 100), q.a, q.b);
  });
  return all;
}

}  // namespace

bool follows(FeatureKind kind) {
  return kind == FeatureKind::hold_down || kind == FeatureKind::lifting_insert ||
         kind == FeatureKind::pad;
}

std::vector<FeaturePair> pair_features(const PanelShape& a, const PanelShape& b) {
  const auto fa = features_of_type(a), fb = features_of_type(b);
  const PanelPoint shift = bounds(b.outline).low - bounds(a.outline).low;
  std::vector<FeaturePair> pairs(fa.size());
  for (std::size_t i = 0; i < fa.size(); ++i) pairs[i].a = fa[i];
  std::vector<char> taken(fb.size(), 0);
  for (const Candidate& c : candidates(fa, fb, shift)) {
    if (pairs[c.a].b || taken[c.b]) continue;
    taken[c.b] = 1;
    pairs[c.a].b = fb[c.b];
    pairs[c.a].move = fb[c.b]->at - shift - fa[c.a]->at;
  }
  for (std::size_t k = 0; k < fb.size(); ++k)
    if (!taken[k]) pairs.push_back({nullptr, fb[k], {}});
  return pairs;
}

}  // namespace deckquire
