// One gutter and one scupper of the deck as workings. Used by drainage*.cpp only.
#pragma once

#include "checks/gutter_march.h"
#include "checks/topics.h"
#include "workings/reckoner.h"

namespace deckquire {

/// Rain, gutters and scuppers of a deck whose project gives enough to calculate them.
struct DrainageJob {
  const CalculationJob& job;
  const RainData& rain;
  GutterWater water;
  double intensity = 0;  // m/s
  workings::Origin intensity_origin;
};

/// A gutter that was marched.
struct DrainedGutter {
  const GutterLine* line = nullptr;
  GutterMarch march;
  std::string name;  // "left gutter"
};

/// Values of a working with their origins.
class GivenValues {
 public:
  explicit GivenValues(const DrainageJob& d) : d_(d) {}
  GivenValues& from_project(const char* symbol, double si, const Place& place,
                            std::string words = "");
  GivenValues& computed(const char* symbol, double si, std::string words);
  GivenValues& word(const char* symbol, std::string text, const Place& place);
  /// Runoff and rain; roughness and crossfall; the allowed spread, if there is one.
  GivenValues& rain();
  GivenValues& gutter();
  GivenValues& allowed();
  workings::Values values;

 private:
  const DrainageJob& d_;
};

/// Runs a working of the registry into the list; where its inputs are out of its range it is said
/// to be not checked, and nothing is returned.
Calculation* add_working(const DrainageJob& d, const char* kind, workings::Values values,
                         std::string on, const Place& place);

/// The balance with the march, its table and the curve of spread; inflow; the governing spread.
void gutter_workings(const DrainageJob& d, const std::vector<DrainedGutter>& gutters);
/// Grates, outlets and down-pipes of all scuppers; in full those with the worst verdicts.
void scupper_workings(const DrainageJob& d, const std::vector<DrainedGutter>& gutters);

}  // namespace deckquire
