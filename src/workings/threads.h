// Sizes of screw threads with their tap drills and limits of size, and strengths of bolts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace deckquire::workings {

/// A bolt in a tapped hole: metric coarse 6g/6H, or Unified coarse 2A/2B. All in mm.
struct ThreadSize {
  std::string name;  // "M16", "1/2-13"
  bool inch = false;
  double d = 0, pitch = 0;
  double drill = 0;
  std::string drill_name;  // "14.0 mm", "27/64 in"
  double d_min = 0, d2_min = 0, D1_max = 0, D2_max = 0;
  std::string source;  // of the limits of size
};

/// From small to large, metric first.
const std::vector<ThreadSize>& thread_sizes();
const ThreadSize* find_thread(std::string_view name);
std::vector<std::string> thread_names();

/// Least strengths, in N/mm2; proof 0 where none is known.
struct BoltGrade {
  std::string name;  // "8.8", "A307"
  double tensile = 0, yield = 0, proof = 0;
  std::string source;
};

/// Of class 8.8 the row for the diameter; nullptr for an unknown name.
const BoltGrade* find_grade(std::string_view name, double diameter);
std::vector<std::string> grade_names();

}  // namespace deckquire::workings
