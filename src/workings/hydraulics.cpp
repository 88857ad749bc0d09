#include "workings/hydraulics.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace deckquire::hydraulics {
namespace {

constexpr double foot = 0.3048;

/// The x in [low, high] at which a rising function reaches the target: halved until the doubles on
/// both sides are neighbours.
template <class Function>
Root rising_root(double low, double high, double target, Function f) {
  Root r;
  while (r.halvings < 200) {
    const double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    (f(middle) < target ? low : high) = middle;
    ++r.halvings;
  }
  r.value = high;
  r.residual = std::abs(f(high) - target) / target;
  return r;
}

double wetted_angle(double D, double y) {
  return 2 * std::acos(1 - 2 * y / D);
}

}  // namespace

double gutter_flow(const Gutter& g, double T) {
  return g.Kg / g.n * std::pow(g.Sx, 5.0 / 3) * std::sqrt(g.SL) * std::pow(T, 8.0 / 3);
}

double gutter_spread(const Gutter& g, double Q) {
  return std::pow(Q * g.n / (g.Kg * std::pow(g.Sx, 5.0 / 3) * std::sqrt(g.SL)), 3.0 / 8);
}

double gutter_velocity(const Gutter& g, double T) {
  return 2 * g.Kg / g.n * std::pow(g.Sx, 2.0 / 3) * std::sqrt(g.SL) * std::pow(T, 2.0 / 3);
}

double backwater_spread(const Gutter& g, double T, double Q2, double dx) {
  // In U = T^(19/3): dU/dx = 19/(3 Sx) (Q^2 k - SL T^(16/3)), x up the gutter.
  const double k = std::pow(g.n / (g.Kg * std::pow(g.Sx, 5.0 / 3)), 2);
  const double c = 19 / (3 * g.Sx) * dx;
  const double pool = std::max(0.0, T - g.SL * dx / g.Sx);  // were the water still
  const double after = std::pow(std::pow(pool, 19.0 / 3) + c * k * Q2, 3.0 / 19);
  if (g.SL <= 0) return after;
  // Either way is too wide by an error of the step: the first is true for still water, the second
  // for uniform flow.
  const double R = std::pow(T, 19.0 / 3) + c * k * Q2;
  double t = std::pow(R, 3.0 / 19);
  // t^(19/3) + c SL t^(16/3) = R: a convex rising function, met from above.
  for (int i = 0; i < 60; ++i) {
    const double a = std::pow(t, 16.0 / 3);
    const double step = (a * (t + c * g.SL) - R) * t / (a * (19.0 / 3 * t + 16.0 / 3 * c * g.SL));
    t -= step;
    if (std::abs(step) <= 1e-15 * t) break;
  }
  return std::min(t, after);
}

double critical_spread(double Sx, double Q) {
  return std::pow(8 * Q * Q / (gravity * Sx * Sx * Sx), 1.0 / 5);
}

double inflow(double C, double rain, double w) {
  return C * rain * w;
}

CompositeFlow composite_flow(const Gutter& g, const Strip& s, double T) {
  CompositeFlow out{};
  out.Sw = g.Sx + s.a / s.W;
  if (T <= s.W) {
    const Gutter strip{g.n, out.Sw, g.SL, g.Kg};
    out.Eo = 1;
    out.Q = gutter_flow(strip, T);
    out.area = out.Sw * T * T / 2;
    out.d = out.Sw * T;
  } else {
    const double r = out.Sw / g.Sx;
    const double X = std::pow(1 + r / (T / s.W - 1), 8.0 / 3) - 1;
    out.Qs = gutter_flow(g, T - s.W);
    out.Eo = 1 / (1 + r / X);
    out.Q = out.Qs * (1 + X / r);
    out.area = g.Sx * T * T / 2 + s.a * s.W / 2;
    out.d = g.Sx * T + s.a;
  }
  out.V = out.Q / out.area;
  return out;
}

Root composite_spread(const Gutter& g, const Strip& s, double Q) {
  // The strip carries more than the plain cross slope would: its spread is the smaller one.
  const double most = std::max(gutter_spread(g, Q), s.W);
  return rising_root(0, most, Q, [&](double T) { return composite_flow(g, s, T).Q; });
}

double parabolic_depth(double H, double B, double T) {
  return 2 * H / B * T - H / (B * B) * (T * T);
}

double parabolic_conveyance(double H, double B, double n, double T, int strips, double km) {
  const double dx = T / strips, d = parabolic_depth(H, B, T);
  double sum = 0;
  for (int i = 0; i < strips; ++i) {
    const double mean = (parabolic_depth(H, B, i * dx) + parabolic_depth(H, B, (i + 1) * dx)) / 2;
    sum += std::pow(d - mean, 5.0 / 3);
  }
  return km / n * dx * sum;
}

const std::vector<GrateType>& grate_types() {
  static const std::vector<GrateType> all{
      {"P-1-7/8", "parallel bars at 48 mm (1 7/8 in)", 2.22, 4.03, 0.65, 0.06, 0.90},
      {"P-1-7/8-4", "parallel bars at 48 mm, rods at 102 mm", 0.74, 2.44, 0.27, 0.02, 0.80},
      {"P-1-1/8", "parallel bars at 29 mm (1 1/8 in)", 1.76, 3.12, 0.45, 0.03, 0.60},
      {"curved-vane", "curved vanes, 83 x 108 mm", 0.3, 4.85, 1.31, 0.15, 0.35},
      {"45-tilt-bar", "bars tilted 45°", 0.99, 2.64, 0.36, 0.03, 0},
      {"30-tilt-bar", "bars tilted 30°", 0.51, 2.34, 0.2, 0.01, 0.34},
      {"reticuline", "honeycomb of bars", 0.28, 2.28, 0.18, 0.01, 0.80}};
  return all;
}

const GrateType* find_grate(std::string_view name) {
  for (const GrateType& t : grate_types())
    if (t.name == name) return &t;
  return nullptr;
}

double splash_over_velocity(const GrateType& t, double L) {
  const double l = L / foot;
  return (t.a + t.b * l - t.c * std::pow(l, 2) + t.e * std::pow(l, 3)) * foot;
}

Caught grate_on_grade(const Gutter& g, const Grate& grate, double Q, double Kf, double Ks) {
  const double T = gutter_spread(g, Q), V = gutter_velocity(g, T);
  const double L = grate.clogging == Clogging::length ? (1 - grate.blocked) * grate.L : grate.L;
  Caught c{};
  c.Eo = std::pow(1 - std::min(1.0, grate.gap / T), 8.0 / 3) -
         std::pow(1 - std::min(1.0, (grate.gap + grate.W) / T), 8.0 / 3);
  c.Vo = grate.type ? splash_over_velocity(*grate.type, L) : grate.Vo;
  c.Rf = std::max(0.0, std::min(1.0, 1 - Kf * (V - c.Vo)));
  c.Rs = 1 / (1 + Ks * std::pow(V, 1.8) / (g.Sx * std::pow(L, 2.3)));
  c.E = c.Rf * c.Eo + c.Rs * (1 - c.Eo);
  if (grate.clogging == Clogging::flow) c.E *= 1 - grate.blocked;
  c.Qi = c.E * Q;
  c.Qb = Q - c.Qi;
  return c;
}

Ponding grate_in_sag(double Q, double Sx, double W, double L, double opening, double blocked,
                     double Cw, double gap) {
  Ponding p{};
  p.P = L + 2 * W * (1 - blocked);
  p.A = (1 - blocked) * opening * L * W;
  p.weir = std::pow(Q / (Cw * p.P), 2.0 / 3);
  p.orifice = std::pow(Q / (0.67 * p.A), 2) / (2 * gravity);
  p.d = std::max(p.weir, p.orifice);
  p.curb = p.d + (gap + W / 2) * Sx;
  p.T = p.curb / Sx;
  return p;
}

double curb_opening_full_length(const Gutter& g, double Q, double KL) {
  return KL * std::pow(Q, 0.42) * std::pow(g.SL, 0.3) * std::pow(1 / (g.n * g.Sx), 0.6);
}

double curb_opening_efficiency(double L, double LT) {
  return 1 - std::pow(1 - std::min(1.0, L / LT), 1.8);
}

double pipe_full_velocity(const Pipe& p) {
  return p.km / p.n * std::pow(p.D / 4, 2.0 / 3) * std::sqrt(p.S);
}

double pipe_full_flow(const Pipe& p) {
  return pi * p.D * p.D / 4 * pipe_full_velocity(p);
}

double pipe_part_velocity(const Pipe& p, double y) {
  const double theta = wetted_angle(p.D, y);
  const double R = p.D / 4 * (1 - std::sin(theta) / theta);
  return p.km / p.n * std::pow(R, 2.0 / 3) * std::sqrt(p.S);
}

double pipe_part_flow(const Pipe& p, double y) {
  const double theta = wetted_angle(p.D, y);
  return p.D * p.D * (theta - std::sin(theta)) / 8 * pipe_part_velocity(p, y);
}

Root pipe_depth(const Pipe& p, double Q) {
  return rising_root(0, fullest * p.D, Q, [&](double y) { return pipe_part_flow(p, y); });
}

double downpipe_flow(double bore, double filling, double kb) {
  // Exponents as the standard prints them.
  return 2.5e-4 * std::pow(kb * 1e3, -0.167) * std::pow(bore * 1e3, 2.667) *
         std::pow(filling, 1.667) * 1e-3;
}

double outlet_flow(double D, double h, double kO) {
  const double d = D * 1e3, head = h * 1e3;
  return std::min(kO * d * std::pow(head, 1.5) / 7500, kO * d * d * std::sqrt(head) / 15000) * 1e-3;
}

double outlet_head(double D, double Q, double kO) {
  const double d = D * 1e3, q = Q * 1e3;
  return std::max(std::pow(7500 * q / (kO * d), 2.0 / 3), std::pow(15000 * q / (kO * d * d), 2)) *
         1e-3;
}

double first_scupper(const Gutter& g, double q, double T) {
  return gutter_flow(g, T) / q;
}

double level_spacing(double n, double Sx, double q, double T, double Kg) {
  return 2 * std::pow(9.0 / 19, 1.0 / 3) * std::pow(Sx, 13.0 / 9) * std::pow(T, 19.0 / 9) *
         std::pow(Kg / (q * n), 2.0 / 3);
}

}  // namespace deckquire::hydraulics
