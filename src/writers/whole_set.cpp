#include "writers/whole_set.h"

#include "base/parallel.h"
#include "writers/pdf_document.h"
#include "writers/pdf_page.h"
#include "writers/svg.h"

namespace deckquire::writers {
namespace {

/// What one thread opens once.
struct Desk {
  Faces faces;
  SvgWriter svg;
};

}  // namespace

std::string write_pdf(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                      const paper::Lettering& lettering, int jobs) {
  std::vector<std::string> pages(sheets.size());
  for_each_index(
      sheets.size(), jobs, [&] { return Faces(lettering); },
      [&](const Faces& faces, std::size_t i) { pages[i] = page_pdf(sheets[i], info, faces); });
  return join_pages(pages, sheets, info);
}

Drawings write_drawings(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                        const paper::Lettering& lettering, int jobs) {
  Drawings out;
  out.svgs.resize(sheets.size());
  std::vector<std::string> pages(sheets.size());
  for_each_index(
      sheets.size(), jobs,
      [&] {
        return Desk{Faces(lettering), SvgWriter(lettering)};
      },
      [&](Desk& desk, std::size_t i) {
        pages[i] = page_pdf(sheets[i], info, desk.faces);
        out.svgs[i] = desk.svg.write(sheets[i], info);
      });
  out.pdf = join_pages(pages, sheets, info);
  return out;
}

}  // namespace deckquire::writers
