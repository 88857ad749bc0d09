// The formulas of deck drainage as plain functions of numbers, for the deck's own scuppers and for
// iterations inside workings. SI throughout: m, m3/s, m/s, rain in m/s; slopes as ratios. Each
// formula with its source is in the working of the same subject (drainage_*.cpp), and a test proves
// that both give the same. Exponents are exact fractions (5/3, 8/3 ...), constants as FHWA HEC-22
// prints them.
#pragma once

#include <string_view>
#include <vector>

namespace deckquire::hydraulics {

constexpr double gravity = 9.81;  // as HEC-22 uses it

// Triangular gutter ------------------------------------------------------------------------------
/// Kg: 0.376 (m, m3/s); 0.56 with lengths in ft and flows in ft3/s.
struct Gutter {
  double n, Sx, SL;
  double Kg = 0.376;
};
double gutter_flow(const Gutter& g, double T);
double gutter_spread(const Gutter& g, double Q);
double gutter_velocity(const Gutter& g, double T);
/// Below this grade the water's own slope counts (HEC-22 4th ed., §5.2.2, allows none flatter).
constexpr double flat = 0.003;
/// Spread at the upper end of a length dx of gutter, from that at its lower end: the surface falls
/// with the friction, SL + Sx dT/dx = Sf (kinetic head neglected); `Q2` is the mean of Q^2 over the
/// length. On a level gutter exact, and the form of level_spacing; SL is negative where the gutter
/// rises along the flow.
double backwater_spread(const Gutter& g, double T, double Q2, double dx);
/// Spread where water falls freely over the end of a flat gutter: critical depth.
double critical_spread(double Sx, double Q);
/// Flow into one gutter per length of deck: runoff coefficient, rain, tributary width.
double inflow(double C, double rain, double w);

// Composite gutter: a strip of width W beside the curb, lowered by a at the curb -----------------
struct Strip {
  double W, a;
};
struct CompositeFlow {
  double Sw, Qs, Eo, Q, area, V, d;
};
/// For any T > 0; where T <= W the water stays in the strip (Eo 1).
CompositeFlow composite_flow(const Gutter& g, const Strip& s, double T);
/// A value found by halving an interval: how often, and what was left of the target.
struct Root {
  double value = 0;
  int halvings = 0;
  double residual = 0;  // relative to the target
};
Root composite_spread(const Gutter& g, const Strip& s, double Q);

// Parabolic crown: rise H over the half width B; conveyance of `strips` equal strips --------------
/// km 1 (SI) or 1.49 (US, as HEC-22 prints it).
double parabolic_depth(double H, double B, double T);
double parabolic_conveyance(double H, double B, double n, double T, int strips, double km = 1);

// Grates -----------------------------------------------------------------------------------------
struct GrateType {
  std::string_view name;
  std::string_view words;
  double a, b, c, e;  // splash-over velocity: a + b L - c L^2 + e L^3, ft/s and ft
  double opening;     // clear share of the area; 0: not tested
};
/// EPA SWMM Reference Manual II, table 7-6; openings HEC-22 4th ed., table 7.5.
const std::vector<GrateType>& grate_types();
/// nullptr when there is none.
const GrateType* find_grate(std::string_view name);
/// Lengths that HEC-22 figure 7.8 covers, m: no splash-over velocity outside.
constexpr double shortest_grate = 0.4 * 0.3048, longest_grate = 4.8 * 0.3048;
double splash_over_velocity(const GrateType& grate, double L);

/// How debris on a grate on grade is allowed for.
enum class Clogging {
  none,
  length,  // the length is (1 - c) L (Guo)
  flow     // the flow caught is (1 - c) of the clean grate's: severe
};
struct Grate {
  double W, L;  // across and along the flow
  const GrateType* type = nullptr;
  double Vo = 0;  // splash-over velocity of a grate with its own test; used where type is null
  Clogging clogging = Clogging::none;
  double blocked = 0;
  double gap = 0;  // between curb and grate
};
struct Caught {
  double Eo, Vo, Rf, Rs, E, Qi, Qb;
};
/// Kf, Ks: 0.295, 0.0828 (m); 0.09, 0.15 (ft, own Vo only).
Caught grate_on_grade(const Gutter& g, const Grate& grate, double Q, double Kf = 0.295,
                      double Ks = 0.0828);

struct Ponding {
  double P, A, weir, orifice, d, curb, T;  // d: mean depth over the grate; curb: at the curb
};
/// In a sag, one side against the curb; `blocked` of the width from there. `gap` between curb and
/// grate counts for the depth at the curb only.
Ponding grate_in_sag(double Q, double Sx, double W, double L, double opening, double blocked,
                     double Cw = 1.66, double gap = 0);

// Curb openings ----------------------------------------------------------------------------------
double curb_opening_full_length(const Gutter& g, double Q, double KL = 0.817);
double curb_opening_efficiency(double L, double LT);

// Pipes ------------------------------------------------------------------------------------------
struct Pipe {
  double D, n, S;
  double km = 1;  // 1.486 with lengths in ft
};
double pipe_full_flow(const Pipe& p);
double pipe_full_velocity(const Pipe& p);
double pipe_part_flow(const Pipe& p, double y);
double pipe_part_velocity(const Pipe& p, double y);
/// Depth as share of the bore at which a pipe carries most.
constexpr double fullest = 0.938;
/// The lower of the two depths. Q at most the flow at `fullest`.
Root pipe_depth(const Pipe& p, double Q);
/// Vertical pipe by Wyly-Eaton in the form of EN 12056-3: bore and roughness in m, filling ratio.
double downpipe_flow(double bore, double filling, double kb = 0.25e-3);
/// Head over an outlet in a flat sole, EN 12056-3 table 7. kO 1 open, 0.5 with a grating.
double outlet_flow(double D, double h, double kO);
double outlet_head(double D, double Q, double kO);

// Scuppers along a deck --------------------------------------------------------------------------
/// Length from a high point, or between clean inlets, that fills the gutter to T.
double first_scupper(const Gutter& g, double q, double T);
/// Spacing on a level deck.
double level_spacing(double n, double Sx, double q, double T, double Kg = 0.376);

}  // namespace deckquire::hydraulics
