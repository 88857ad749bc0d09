// PDFs of a few pages -> one document with bookmarks, links, page labels, metadata and a fixed ID.
#pragma once

#include <string>
#include <vector>

#include "writers/writers.h"

namespace deckquire::writers {

/// Joins PDFs that together have a page for every sheet, in their order; page contents are copied as they are. std::runtime_error
/// when the PDF library refuses.
std::string join_pages(const std::vector<std::string>& parts,
                       const std::vector<paper::Sheet>& sheets, const DocumentInfo& info);

}  // namespace deckquire::writers
