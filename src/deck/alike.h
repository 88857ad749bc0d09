// Places inside panels that earlier panels of the same length have already: a thing moved there
// makes no new type. Used inside deck/ only.
#pragma once

#include <iterator>
#include <map>
#include <optional>
#include <set>

#include "deck/deck.h"

namespace deckquire {

class SeenPlaces {
 public:
  /// x is from the panel's back face, on one side of it. The panel turned end for end counts too.
  void add(Length panel, Side side, Length x) {
    const Side other = side == Side::left ? Side::right : Side::left;
    seen_[{panel, side}].insert(x);
    seen_[{panel, other}].insert(panel - x);
  }

  /// The seen place nearest to x, of two the lower, from x - back to x + ahead, for which
  /// `fits(place)` holds.
  template <class Fits>
  std::optional<Length> nearest(Length panel, Side side, Length x, Length back, Length ahead,
                                Fits fits) const {
    const auto found = seen_.find({panel, side});
    if (found == seen_.end()) return std::nullopt;
    std::optional<Length> best;
    for (auto i = found->second.lower_bound(x - back); i != found->second.end(); ++i) {
      if (*i > x + ahead || (best && *i - x >= abs(*best - x))) break;
      if ((!best || abs(*i - x) < abs(*best - x)) && fits(*i)) best = *i;
    }
    return best;
  }

 private:
  std::map<std::pair<Length, Side>, std::set<Length>> seen_;
};

}  // namespace deckquire
