#include "writers/whole_set.h"

#include <algorithm>
#include <span>

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

// Sheets of one part share their font subsets. The size never depends on the number of threads, for
// the bytes would.
constexpr std::size_t part_size = 4;

std::span<const paper::Sheet> part_of(const std::vector<paper::Sheet>& sheets, std::size_t i) {
  return std::span(sheets).subspan(i * part_size,
                                   std::min(part_size, sheets.size() - i * part_size));
}

}  // namespace

std::string write_pdf(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                      const paper::Lettering& lettering, int jobs) {
  std::vector<PagesPdf> parts((sheets.size() + part_size - 1) / part_size);
  for_each_index(
      parts.size(), jobs, [&] { return Faces(lettering); },
      [&](const Faces& faces, std::size_t i) {
        parts[i] = pages_pdf(part_of(sheets, i), info, faces);
      });
  return join_pages(parts, sheets, info);
}

Drawings write_drawings(const std::vector<paper::Sheet>& sheets, const DocumentInfo& info,
                        const paper::Lettering& lettering, int jobs) {
  Drawings out;
  out.svgs.resize(sheets.size());
  std::vector<PagesPdf> parts((sheets.size() + part_size - 1) / part_size);
  for_each_index(
      parts.size(), jobs,
      [&] {
        return Desk{Faces(lettering), SvgWriter(lettering)};
      },
      [&](Desk& desk, std::size_t i) {
        const auto part = part_of(sheets, i);
        parts[i] = pages_pdf(part, info, desk.faces);
        for (std::size_t k = 0; k < part.size(); ++k)
          out.svgs[i * part_size + k] = desk.svg.write(part[k], info);
      });
  out.pdf = join_pages(parts, sheets, info);
  return out;
}

}  // namespace deckquire::writers
