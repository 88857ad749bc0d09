// What the deck must bear, drain and follow, as the project states it. All SI. A value that is not
// there is not guessed: the check that needs it says so.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/findings.h"
#include "base/units.h"

namespace deckquire {

/// <load>: a load as the bridge designer states it, printed only.
struct LoadData {
  std::string name, value, code;
  Place place;
};

struct PedestrianData {
  Pressure load;
  std::string code;
  Place place;
};

/// One wheel of a maintenance vehicle on its patch; the two wheels of an axle stand `gauge` apart
/// across the bridge.
struct VehicleData {
  Force wheel;
  Length gauge, patch_along, patch_across;
  Length effective;  // length of panel, along the bridge, that carries one wheel
  std::string code;
  Place place;
};

struct WindData {
  Pressure uplift;
  std::string code;
  Place place;
};

struct RailLoadData {
  double line = 0;  // N/m
  Force point;
  Length height;  // of the load above the deck
  std::string code;
  Place place;
};

/// Load factors of the strength checks; serviceability takes 1 for all.
struct FactorsData {
  double dead = 1, pedestrian = 1, vehicle = 1, wind = 1, dead_against_wind = 1, rail = 1;
  std::string code;
  Place place;
};

/// Span over deflection under the pedestrian load or the vehicle.
struct DeflectionData {
  double span = 0, arm = 0;
  std::string code;
  Place place;
};

struct RainDuration {
  double seconds = 0, intensity = 0;  // m/s
  Place place;
};

enum class ClogModel { none, length, flow };

struct RainData {
  std::string words;                // as the owner states it; may be empty
  std::optional<double> intensity;  // m/s, at the shortest time of concentration
  std::vector<RainDuration> durations;
  double runoff = 1;
  std::optional<double> roughness;  // Manning's n of the gutter
  std::optional<Length> spread;     // allowed, from the curb's foot
  std::string code;
  std::string grate;              // a type of workings/hydraulics.h, by name; empty: not stated
  std::optional<double> opening;  // clear share of the grate's area
  ClogModel clogging = ClogModel::none;
  double blocked = 0, blocked_in_sag = 0;
  double pipe_filling = 0;  // greatest filling ratio of a vertical pipe
  Place place;
};

struct TemperatureData {
  std::optional<Temperature> setting, least, greatest;     // of the steel
  std::optional<Temperature> deck_least, deck_greatest;    // of the panels; none: as the steel
  std::optional<double> steel_expansion, panel_expansion;  // 1/K
  Length least_gap;                                        // of every joint at its hottest
  std::string source;                                      // of the expansions
  Place place;
};

/// Stiffness and strength of the panel as a sandwich, proved by test.
struct PanelStrengthData {
  Pressure face_modulus, core_shear_modulus;
  std::optional<Pressure> face_strength, core_shear_strength, bearing_strength;  // factored
  std::string source;
  Place place;
};

/// The bolts and the tapped plate of a rail post.
struct AnchorData {
  std::string bolt_class;                  // "8.8"; empty: not stated
  std::optional<Pressure> plate_strength;  // tensile
  Length toe;                // from the compression edge of the base plate to its nearer bolt row
  double shear_ratio = 0.6;  // of shear to tensile strength in a thread
  std::string source;
  Place place;
};

}  // namespace deckquire
