// Values of the deck and of the project into workings, workings into the list of calculations. Used
// inside checks/ only.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "checks/topics.h"
#include "workings/reckoner.h"

namespace deckquire {

constexpr double gravity = 9.80665;  // m/s2, ISO 80000-3

/// The inputs of one working, each with where it comes from; numbers in SI.
struct Inputs {
  workings::Values values;

  /// As the project states it at that line; `source`: who says so there.
  Inputs& project(const char* symbol, double si, const Place& place, std::string source = {});
  /// Out of the built deck or another working: says which. Rounded to seven digits.
  Inputs& computed(const char* symbol, double si, std::string words);
  Inputs& computed_text(const char* symbol, std::string text, std::string words);
  /// A choice that the program makes for this deck.
  Inputs& choice(const char* symbol, std::string text, std::string words);
};

/// What a calculation is of.
struct Subject {
  std::string on;
  std::vector<int> marks;
  Place place;  // the line of the project that decides most
  std::vector<int> joints = {};
};

/// Reckons, appends to the list and returns the index; where the working refuses its values there
/// is a line of what was not checked instead.
std::optional<std::size_t> add_working(const CalculationJob& job, Topic topic, const char* kind,
                                       const Inputs& inputs, const Subject& subject);

/// Calculations that are read together: if one of them is printed in full, so are all.
using Bundle = std::vector<std::size_t>;

/// Of the calculations of a topic only those in full that hold the worst of a verdict or fail a
/// limit, with their bundles.
void print_governing(const CalculationJob& job, Topic topic, const std::vector<Bundle>& bundles);

/// Verdicts that speak of `from` (or whose words begin with it) speak of `to`; of several with the
/// same words then only the worst stays.
void rename_verdicts(workings::Working& w, const std::string& from, const std::string& to);

/// "2480.0": up to three decimals of a millimetre, for lists of a working.
std::string in_list(double v);

/// "DP01, DP02 and DP07"; "DP01 and 11 more" where there are many.
std::string names_of(const Deck& deck, const std::vector<int>& marks);

/// Names of what is missing, in one line; empty where all is there.
class Missing {
 public:
  void need(bool there, const char* words) {
    if (!there) words_ += (words_.empty() ? "" : "; ") + std::string(words);
  }
  bool any() const { return !words_.empty(); }
  const std::string& words() const { return words_; }

 private:
  std::string words_;
};

}  // namespace deckquire
