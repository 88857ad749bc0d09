#include "workings/polynomial.h"

namespace deckquire::workings {

double value_at(const Polynomial& p, double s) {
  double v = 0;
  for (std::size_t i = p.size(); i-- > 0;) v = v * s + p[i];
  return v;
}

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

// Between two turning points p runs one way, so halving finds its one root there to the last digit.
std::vector<double> sign_changes(const Polynomial& p, double lo, double hi) {
  std::vector<double> roots;
  if (p.size() < 2 || !(lo < hi)) return roots;
  const std::vector<double> places = turning_points(p, lo, hi);
  double before = value_at(p, lo);
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double after = value_at(p, places[i]);
    if (after == 0) continue;  // judged with the next place beyond it
    if (before != 0 && (before < 0) != (after < 0)) {
      double a = places[i - 1], b = places[i];
      if (value_at(p, a) == 0) b = a;  // the root is the turning point itself
      while (b > a) {
        const double m = a + (b - a) / 2;
        if (m <= a || m >= b) break;
        ((value_at(p, m) < 0) == (before < 0) ? a : b) = m;
      }
      if (a > lo && a < hi) roots.push_back(a);
    }
    before = after;
  }
  return roots;
}

}  // namespace deckquire::workings
