// Check cases E5 and E6 of the algorithms reference, part 7; the chance for uniform errors by an exact
// convolution as well (a sum of uniform variables is piecewise polynomial; Feller, An Introduction to
// Probability Theory and Its Applications, vol. 2, I.9).
#include "schedules/closure.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

namespace deckquire {
namespace {

/// P(|sum a_i (2 u_i - 1)| <= c), u uniform: inclusion and exclusion over all corners of the box,
/// those of equal sums taken together.
double exact(int panels, double tp, int gaps, double tg, double c) {
  const int n = panels + gaps;
  const auto choose = [](int m, int k) {
    double v = 1;
    for (int i = 0; i < k; ++i) v = v * (m - i) / (i + 1);
    return v;
  };
  const auto below = [&](double x) {  // P(sum <= x)
    long double sum = 0;
    const long double start = static_cast<long double>(x) + panels * tp + gaps * tg;
    for (int i = 0; i <= panels; ++i)
      for (int k = 0; k <= gaps; ++k) {
        const long double left = start - 2 * (i * tp + k * tg);
        if (left <= 0) continue;
        const long double sign = (i + k) % 2 == 0 ? 1 : -1;
        long double term = sign * choose(panels, i) * choose(gaps, k);
        for (int j = 1; j <= n; ++j)
          term *= left / (j * 2 * static_cast<long double>(j <= panels ? tp : tg));
        sum += term;
      }
    return static_cast<double>(sum);
  };
  return below(c) - below(-c);
}

}  // namespace

TEST_CASE("closure: worst case, root sum square and chances of the check cases E5 and E6") {
  const ClosurePrediction p = predict_closure({12, 12, 3, 2, 0}, 0, 10, 100000, 20240601);
  CHECK(p.worst == 60);
  CHECK(p.root_sum_square == doctest::Approx(12.490).epsilon(1e-4));
  CHECK(p.within_normal == doctest::Approx(0.983691).epsilon(1e-6));
  CHECK(p.within_simulated * 100000 == doctest::Approx(83473).epsilon(1e-12));
  CHECK(exact(12, 3, 12, 2, 10) == doctest::Approx(0.833365).epsilon(1e-5));
  CHECK(std::abs(p.within_simulated - exact(12, 3, 12, 2, 10)) < 3 * p.standard_error);
}

// Check case 20 of the strength reference: ten panels 2394 +-3, nine gaps 6 +-2, and a layout of +-5 that
// does not belong to the run: worst case 53.00, root of the sum of squares 12.29.
TEST_CASE("closure: the tolerance stack of check case 20") {
  const ClosurePrediction p = predict_closure({10, 9, 3, 2, 0}, 0, 10, 0, 1);
  CHECK(p.worst + 5 == 53);
  CHECK(std::hypot(p.root_sum_square, 5) == doctest::Approx(12.29).epsilon(4e-4));
}

TEST_CASE("closure: the engine gives the numbers that the standard fixes") {
  std::mt19937_64 engine;
  engine.discard(9999);
  CHECK(engine() == 9981545732273789042U);  // ISO/IEC 14882, [rand.predef]
  std::mt19937_64 seeded(20240601);
  CHECK(static_cast<double>(seeded() >> 11) * 0x1p-53 == doctest::Approx(0.11554143888446278).epsilon(1e-15));
}

TEST_CASE("closure: drift and the bias of a mould move the whole prediction") {
  const ClosurePrediction p = predict_closure({4, 4, 1, 1, 0.75}, 9, 10, 20000, 1);
  CHECK(p.drift == 12);
  CHECK(p.within_normal < 0.1);
  // Half of all sums lie beyond the middle: drift 10 leaves one half.
  CHECK(predict_closure({4, 4, 1, 1, 0}, 10, 10, 40000, 5).within_simulated ==
        doctest::Approx(0.5).epsilon(0.02));
  CHECK(predict_closure({0, 0, 1, 1, 0}, 9, 10, 10, 5).within_normal == 1);
  CHECK(predict_closure({0, 0, 1, 1, 0}, 11, 10, 10, 5).within_simulated == 0);
}

TEST_CASE("closure: where each panel of a measured run has got to") {
  CHECK(drift_along({1, -2, 3.5}) == std::vector<double>{1, -1, 2.5});
}

}  // namespace deckquire
