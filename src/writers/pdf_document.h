// PDFs of parts of sheets -> one document with layers, bookmarks, links, page labels, metadata and
// a fixed ID.
#pragma once

#include <string>
#include <vector>

#include "writers/pdf_page.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Joins PDFs that together hold the parts of every sheet, in their order: a page a sheet, its
/// parts one over the other, each on its layer. What the parts draw is copied as it is.
/// std::runtime_error when the PDF library refuses.
std::string join_pages(const std::vector<PagesPdf>& parts, const std::vector<paper::Sheet>& sheets,
                       const DocumentInfo& info);

}  // namespace deckquire::writers
