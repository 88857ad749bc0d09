// One sheet -> SVG; the writer keeps what sheets share.
#pragma once

#include <string>
#include <vector>

#include "writers/font_subset.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Writes many sheets, in one thread, opening each font once. `lettering` outlives it.
class SvgWriter {
 public:
  explicit SvgWriter(const paper::Lettering& lettering);
  ~SvgWriter();
  SvgWriter(SvgWriter&&) noexcept = default;

  /// See write_svg.
  std::string write(const paper::Sheet& sheet, const DocumentInfo& info);

 private:
  const paper::Lettering& lettering_;
  std::vector<FontCutter> cutters_;
};

}  // namespace deckquire::writers
