#include "workings/polynomial.h"

#include <cmath>

namespace deckquire::workings {

double value_at(const Polynomial& p, double s) {
  double v = 0;
  for (std::size_t i = p.size(); i-- > 0;) v = v * s + p[i];
  return v;
}

namespace {
double slope_at(const Polynomial& p, double s) {
  double v = 0;
  for (std::size_t i = p.size(); i-- > 1;) v = v * s + p[i] * static_cast<double>(i);
  return v;
}
}  // namespace

Polynomial derivative(const Polynomial& p) {
  Polynomial d;
  for (std::size_t i = 1; i < p.size(); ++i) d.push_back(p[i] * static_cast<double>(i));
  return d;
}

std::vector<double> turning_points(const Polynomial& p, double lo, double hi) {
  std::vector<double> places{lo};
  for (double s : sign_changes(derivative(p), lo, hi)) places.push_back(s);
  places.push_back(hi);
  return places;
}

namespace {

/// The root in (a, b), where p runs one way and changes sign: Newton's steps, halving where one
/// would leave what is left of (a, b).
double root_between(const Polynomial& p, double a, double b) {
  const bool rises = value_at(p, b) > 0;
  double x = a + (b - a) / 2;
  for (int i = 0; i < 200; ++i) {
    const double v = value_at(p, x);
    if (v == 0) break;
    ((v < 0) == rises ? a : b) = x;
    const double slope = slope_at(p, x);
    double next = slope != 0 ? x - v / slope : a;
    if (!(next > a && next < b)) next = a + (b - a) / 2;
    // Newton's step has come to rest, or nothing lies between a and b.
    const bool rests = std::abs(next - x) <= 4e-16 * std::abs(x);
    x = next;
    if (rests) break;
  }
  return x;
}

}  // namespace

std::vector<double> sign_changes(const Polynomial& p, double lo, double hi) {
  std::vector<double> roots;
  if (p.size() < 2 || !(lo < hi)) return roots;
  if (p.size() == 2) {
    const double s = -p[0] / p[1];
    if (s > lo && s < hi) roots.push_back(s);
    return roots;
  }
  const std::vector<double> places = turning_points(p, lo, hi);
  double before = value_at(p, lo);
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double after = value_at(p, places[i]);
    if (after == 0) continue;  // judged with the next place beyond it
    if (before != 0 && (before < 0) != (after < 0)) {
      const bool at_turn = value_at(p, places[i - 1]) == 0;
      const double s = at_turn ? places[i - 1] : root_between(p, places[i - 1], places[i]);
      if (s > lo && s < hi) roots.push_back(s);
    }
    before = after;
  }
  return roots;
}

}  // namespace deckquire::workings
