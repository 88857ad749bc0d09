// One-page PDFs -> one document with bookmarks, links, page labels, metadata and a fixed ID.
#pragma once

#include <string>
#include <vector>

#include "writers/writers.h"

namespace deckquire::writers {

/// Joins pages[i], made from sheets[i]; page contents are copied as they are. std::runtime_error
/// when the PDF library refuses.
std::string join_pages(const std::vector<std::string>& pages,
                       const std::vector<paper::Sheet>& sheets, const DocumentInfo& info);

}  // namespace deckquire::writers
