// Roots and turning points of polynomials that were made from their roots.
#include "workings/polynomial.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "support/dice.h"

using namespace deckquire::workings;

namespace {

Polynomial times(const Polynomial& p, double root) {
  Polynomial q(p.size() + 1);
  for (std::size_t i = 0; i < p.size(); ++i) {
    q[i + 1] += p[i];
    q[i] -= p[i] * root;
  }
  return q;
}

}  // namespace

TEST_CASE("simple roots inside are found, and no others") {
  deckquire::testing::Dice dice{5};
  for (int i = 0; i < 500; ++i) {
    Polynomial p{dice.next() < 0.5 ? 2.5 : -0.01};
    std::vector<double> inside;
    const int degree = 1 + dice.upto(4);
    for (int k = 0; k < degree; ++k) {
      // Well apart, some of them outside 0 .. 10.
      const double root = -2 + 14.0 * (k + 0.2 + 0.6 * dice.next()) / degree;
      p = times(p, root);
      if (root > 0 && root < 10) inside.push_back(root);
    }
    const std::vector<double> found = sign_changes(p, 0, 10);
    REQUIRE(found.size() == inside.size());
    for (std::size_t k = 0; k < found.size(); ++k) CHECK(std::abs(found[k] - inside[k]) < 1e-9);
  }
}

TEST_CASE("where a polynomial only touches zero, or is zero, there is no change of sign") {
  CHECK(sign_changes(times(times({1}, 3), 3), 0, 10).empty());
  CHECK(sign_changes({0, 0, 0}, 0, 10).empty());
  CHECK(sign_changes({5}, 0, 10).empty());
  CHECK(sign_changes({-1, 1}, 2, 2).empty());
  // A threefold root changes the sign; three equal factors leave a third of the digits.
  const auto three = sign_changes(times(times(times({1}, 3), 3), 3), 0, 10);
  REQUIRE(three.size() == 1);
  CHECK(std::abs(three[0] - 3) < 1e-4);
  // A higher power without a share is no hindrance.
  CHECK(sign_changes({-2, 1, 0, 0}, 0, 10) == std::vector<double>{2});
}

TEST_CASE("the largest value lies at a turning point") {
  const Polynomial p = times(times(times({-1}, 1), 4), 8);
  double most = -1e300, sampled = -1e300;
  for (double s : turning_points(p, 0, 10)) most = std::max(most, value_at(p, s));
  for (int i = 0; i <= 10000; ++i) sampled = std::max(sampled, value_at(p, i / 1000.0));
  CHECK(most >= sampled);
  CHECK(most - sampled < 1e-4);
}
