// Two small sheets that use everything a writer knows, and ways to look at what was written.
#pragma once

#include <string>
#include <vector>

#include "paper/lettering.h"
#include "paper/sheet.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Characters of the trade, and Cyrillic; the primes and four Cyrillic letters need the second font.
inline const std::string special_words = "Ø110 ×2 ±3 90° ½\" ≤ ≥ Δ 8′-0″ Ёж Это";

const paper::Lettering& trial_lettering();
DocumentInfo trial_info();

/// E01 and P01. E01 holds a panel group "panel-1" that leads to P01 and a link to a sheet that is
/// not there; P01 holds a link to "E01#panel-1".
std::vector<paper::Sheet> trial_sheets();

/// A new folder, removed at the end.
class TrialFolder {
 public:
  TrialFolder();
  ~TrialFolder();
  std::string path;
};

/// What a shell command prints; `status` gets its exit status.
std::string output_of(const std::string& command, int* status = nullptr);

}  // namespace deckquire::writers
