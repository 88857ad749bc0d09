// Polynomials of low degree on an interval: where they vanish, and how large they get. Only + - * /
// are used, so that results are the same on every machine.
#pragma once

#include <vector>

namespace deckquire::workings {

/// Lowest power first.
using Polynomial = std::vector<double>;

double value_at(const Polynomial& p, double s);
Polynomial derivative(const Polynomial& p);

/// Places inside (lo, hi) where p changes sign, ascending. A root without change of sign is left
/// out, and so is what vanishes everywhere.
std::vector<double> sign_changes(const Polynomial& p, double lo, double hi);

/// lo, hi and the places in between where p may be largest or smallest, ascending.
std::vector<double> turning_points(const Polynomial& p, double lo, double hi);

}  // namespace deckquire::workings
