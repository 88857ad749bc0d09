// All drawings of a set at once: every sheet's PDF page and SVG made by the same worker.
#pragma once

#include <string>
#include <vector>

#include "writers/writers.h"

namespace deckquire::writers {

struct Drawings {
  std::string pdf;
  std::vector<std::string> svgs;  // one a sheet, in their order
};

/// The bytes of write_pdf and of write_svg for every sheet; they do not depend on `jobs`.
Drawings write_drawings(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                        const paper::Lettering& lettering, int jobs);

}  // namespace deckquire::writers
