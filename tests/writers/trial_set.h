// Two small sheets that use everything a writer knows.
#pragma once

#include <string>
#include <vector>

#include "paper/lettering.h"
#include "paper/sheet.h"
#include "support/shell.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Characters of the trade, and Cyrillic; the primes and four Cyrillic letters need the second
/// font.
inline const std::string special_words = "Ø110 ×2 ±3 90° ½\" ≤ ≥ Δ 8′-0″ Ёж Это";

const paper::Lettering& trial_lettering();
DocumentInfo trial_info();

/// E01 and P01. E01 holds a panel group "panel-1" that leads to P01 and a link to a sheet that is
/// not there; P01 holds a link to "E01#panel-1".
std::vector<paper::Sheet> trial_sheets();

}  // namespace deckquire::writers
