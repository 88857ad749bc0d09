// The direct stiffness method with Timoshenko's element, in long double: an independent road to
// what workings/strip.h finds from the three-moment equation. Element matrix and fixed-end forces
// as in J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), 5.6 (from memory).
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "workings/strip.h"

namespace deckquire::workings {

#ifdef __SIZEOF_FLOAT128__
__extension__ typedef __float128 Real;
#else
using Real = long double;
#endif

struct StiffnessAnswer {
  std::vector<double> x, w, rotation, V_left, V_right, M_left, M_right;  // at the nodes
};

/// Nodes wherever something changes, and at `more`. Supports that have lifted off are left out.
inline StiffnessAnswer stiffness_method(const Strip& strip, const std::vector<StripLoad>& loads,
                                        const std::vector<double>& more,
                                        const std::vector<bool>& lifted = {}) {
  std::vector<double> x{0, strip.length};
  x.insert(x.end(), more.begin(), more.end());
  for (const auto& s : strip.stretches) x.push_back(s.to);
  for (const auto& s : strip.supports) x.push_back(s.x);
  for (const auto& l : loads) x.insert(x.end(), {l.from, l.to});
  std::sort(x.begin(), x.end());
  x.erase(std::unique(x.begin(), x.end()), x.end());
  const int n = static_cast<int>(x.size());
  std::vector<std::vector<Real>> K(2 * n, std::vector<Real>(4));  // upper band, diagonal first
  std::vector<Real> f(2 * n), u(2 * n), nodal(2 * n);
  struct Element {
    Real k[4][4], f[4];
  };
  std::vector<Element> elements;
  for (int e = 0; e + 1 < n; ++e) {
    const Real h = static_cast<Real>(x[e + 1]) - x[e];
    const double middle = (x[e] + x[e + 1]) / 2;
    std::size_t s = 0;
    while (strip.stretches[s].to < middle) ++s;
    const Real D = strip.stretches[s].D, phi = 12 * D / (strip.stretches[s].S * h * h);
    const Real c = D / (h * h * h * (1 + phi));
    Real q = 0;
    for (const auto& l : loads) {
      if (l.kind == StripLoad::Kind::uniform && l.from < middle && middle < l.to) q += l.size;
    }
    Element el{{{12, 6 * h, -12, 6 * h},
                {6 * h, (4 + phi) * h * h, -6 * h, (2 - phi) * h * h},
                {-12, -6 * h, 12, -6 * h},
                {6 * h, (2 - phi) * h * h, -6 * h, (4 + phi) * h * h}},
               {q * h / 2, q * h * h / 12, q * h / 2, -q * h * h / 12}};
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j < 4; ++j) {
        el.k[i][j] *= c;
        if (j >= i) K[2 * e + i][j - i] += el.k[i][j];
      }
      f[2 * e + i] += el.f[i];
    }
    elements.push_back(el);
  }
  const auto node = [&](double at) {
    return static_cast<int>(std::lower_bound(x.begin(), x.end(), at) - x.begin());
  };
  for (const auto& l : loads) {
    if (l.kind == StripLoad::Kind::point) f[2 * node(l.from)] += l.size;
    if (l.kind == StripLoad::Kind::couple) f[2 * node(l.from) + 1] += l.size;
  }
  for (std::size_t i = 0; i < strip.supports.size(); ++i) {
    if (i < lifted.size() && lifted[i]) continue;
    const int r = 2 * node(strip.supports[i].x);
    for (int j = 1; j < 4; ++j) {
      K[r][j] = 0;
      if (r - j >= 0) K[r - j][j] = 0;
    }
    K[r][0] = 1, f[r] = 0;
  }
  for (int i = 0; i < 2 * n; ++i) {
    for (int j = 1; j < 4 && i + j < 2 * n; ++j) {
      const Real m = K[i][j] / K[i][0];
      for (int k = j; k < 4; ++k) K[i + j][k - j] -= m * K[i][k];
      f[i + j] -= m * f[i];
    }
  }
  for (int i = 2 * n; i-- > 0;) {
    for (int j = 1; j < 4 && i + j < 2 * n; ++j) f[i] -= K[i][j] * u[i + j];
    u[i] = f[i] / K[i][0];
  }
  StiffnessAnswer a;
  a.x = x;
  a.V_left.resize(n), a.V_right.resize(n), a.M_left.resize(n), a.M_right.resize(n);
  for (int i = 0; i < n; ++i) {
    a.w.push_back(static_cast<double>(u[2 * i]));
    a.rotation.push_back(static_cast<double>(u[2 * i + 1]));
  }
  for (int e = 0; e + 1 < n; ++e) {
    Real end[4];
    for (int i = 0; i < 4; ++i) {
      end[i] = -elements[e].f[i];
      for (int j = 0; j < 4; ++j) end[i] += elements[e].k[i][j] * u[2 * e + j];
    }
    a.V_right[e] = static_cast<double>(-end[0]), a.M_right[e] = static_cast<double>(end[1]);
    a.V_left[e + 1] = static_cast<double>(end[2]), a.M_left[e + 1] = static_cast<double>(-end[3]);
  }
  return a;
}

}  // namespace deckquire::workings
