// The style sheet inside an SVG: classes for pens, inks and letters, and the font subsets.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "writers/font_subset.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Class names of a sheet, gathered while its body is written.
class SvgClasses {
 public:
  SvgClasses(const paper::Sheet& sheet, const paper::Lettering& lettering);

  const std::string& pen(paper::PenIndex i) const { return pens_[i]; }
  static const char* ink(paper::Ink i);
  /// Class of letters of one font and height; the run's characters join that font's subset.
  const std::string& letters(const paper::Run& run, double height);

  /// The rules of all pens of the sheet and of all letters asked for so far.
  std::string rules(const DocumentInfo& info, std::vector<FontCutter>& cutters) const;

 private:
  const paper::Sheet& sheet_;
  const paper::Lettering& lettering_;
  std::vector<std::string> pens_;
  std::map<std::pair<int, double>, std::string> letters_;  // by font and height
  std::map<int, std::set<std::uint32_t>> characters_;      // by font
};

}  // namespace deckquire::writers
