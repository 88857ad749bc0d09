// Load cases on strips of panels: which of many is worth a working, and the working. Used inside
// checks/ only.
#pragma once

#include <array>

#include "checks/section_values.h"
#include "checks/strips.h"
#include "workings/strip.h"

namespace deckquire {

/// What is asked of a case.
enum class Ask {
  strength,    // bending, shear and bearing, with load factors
  deflection,  // of spans and overhangs, of the live load alone
  pull         // of the clips, with as little weight as there is
};

/// Part of a strip where a hollow leaves less depth; mm.
struct Weaker {
  double from = 0, to = 0, depth = 0;
  std::string what;  // "recess G1-S2"
};

struct StripCase {
  PanelStrip strip;
  Ask ask{};
  double width = 1000;               // along the bridge, mm
  double dead = 0, curb_factor = 0;  // N/m2, with its factor
  std::string dead_words;
  double people = 0;  // N/m2, with its factor; on each bay or not
  std::string people_words;
  std::vector<workings::StripLoad> more;
  std::string more_words;
  std::optional<Weaker> weaker;
};

/// The strip with its own weight times a factor (least: the lightest mark's); 0: without.
StripCase case_of(const PanelStrip& strip, Ask ask, double width, double dead_factor);
void add_people(StripCase& c, const PedestrianData& people, double factor);

/// How bad a case is, to be compared with others of its kind: stress of the skins where it sags and
/// hogs, of the core, bearing, span over deflection, overhang over deflection, pull.
using CaseMeasure = std::array<double, 7>;
CaseMeasure measure(const StripCase& c, const SandwichStrips& sections);

/// Of the cases those that are the worst in one of the measures, each once; the first of equals.
std::vector<std::size_t> worst_of(const std::vector<CaseMeasure>& cases, Ask ask);

/// The words of the verdicts: "under people", "under the wheels".
struct CaseWords {
  std::string under;
  Place place;        // the line of the project that decides most
  std::string where;  // added to what the calculation is of; may be empty
};

/// The working of a case, with the sections it takes. Of `weaker` also whether what is left there
/// holds.
Bundle add_case(const CalculationJob& job, Topic topic, const StripCase& c,
                SandwichStrips& sections, const std::vector<int>& marks, const CaseWords& words);

}  // namespace deckquire
