// What several drainage workings share: their inputs in one wording, their sources, their checks.
#pragma once

#include <string>
#include <vector>

#include "workings/hydraulics.h"
#include "workings/reckoner.h"

namespace deckquire::workings::drainage {

// Sources, as they are printed.
extern const std::string hec22_4;  // "FHWA HEC-22, Urban Drainage Design Manual, 4th ed. 2024"
extern const std::string hec22_3;

/// Inputs.
InputSpec flow();              // Q
InputSpec spread();            // T
InputSpec roughness();         // n, of the gutter
InputSpec cross_slope();       // Sx
InputSpec grade();             // SL > 0
InputSpec half_width();        // w, if known: room for the water
InputSpec draining_width();    // w: what brings water
InputSpec curb_height();       // hc, if known
InputSpec allowable_spread();  // Tmax, if known
InputSpec runoff_coefficient();
InputSpec rain();
InputSpec bore();
std::vector<InputSpec> joined(std::vector<std::vector<InputSpec>> lists);

/// Units of length, flow and velocity in which the formulas of this run are.
std::string length_unit(const Reckoner& r);
std::string flow_unit(const Reckoner& r);
std::string velocity_unit(const Reckoner& r);

/// Kg of the triangular gutter; g.
void gutter_constant(Reckoner& r);
void gravity_constant(Reckoner& r);
/// The gutter of the symbols n, Sx, SL, Kg, in the units of this run.
hydraulics::Gutter gutter_of(const Reckoner& r);

/// Steps T (from Q) or Q (from T), one of which was given, else a WorkingError.
void flow_and_spread(Reckoner& r);
/// Steps d and V from T.
void depth_and_velocity(Reckoner& r);
/// T <= `most`, T <= w, the depth at the curb <= hc, as far as these were given.
void gutter_limits(Reckoner& r, const std::string& depth = "d", const std::string& most = "Tmax");

/// Inputs and steps of a grate on grade: L, W, type, own splash-over velocity, clogging.
std::vector<InputSpec> grate_inputs();
/// The grate of the inputs in SI, for the functions of hydraulics.h; faults are WorkingErrors.
hydraulics::Grate grate_of(const Reckoner& r);
/// Steps from Eo to Qb for symbols Q, T, V; cautions of the grate.
void grate_steps(Reckoner& r);

/// The lists of the files drainage_*.cpp.
std::vector<WorkingKind> runoff();
std::vector<WorkingKind> gutters();
std::vector<WorkingKind> inlets();
std::vector<WorkingKind> pipes();
std::vector<WorkingKind> spacing();

}  // namespace deckquire::workings::drainage
