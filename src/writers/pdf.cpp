#include "base/parallel.h"
#include "writers/pdf_document.h"
#include "writers/pdf_page.h"

namespace deckquire::writers {

std::string write_pdf(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                      const paper::Lettering& lettering, int jobs) {
  std::vector<std::string> pages(sheets.size());
  for_each_index(
      sheets.size(), jobs, [&] { return Faces(lettering); },
      [&](const Faces& faces, std::size_t i) { pages[i] = page_pdf(sheets[i], info, faces); });
  return join_pages(pages, sheets, info);
}

}  // namespace deckquire::writers
