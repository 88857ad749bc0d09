// Sheets -> PDF pages, by cairo into memory. Document structure is not made here.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "writers/writers.h"

namespace deckquire::writers {

/// The font faces of one thread. Faces that cairo still holds keep their font bytes alive.
class Faces {
 public:
  explicit Faces(const paper::Lettering& lettering);
  ~Faces();
  struct Data;
  const Data& data() const { return *data_; }
  const paper::Lettering& lettering() const { return lettering_; }

 private:
  const paper::Lettering& lettering_;
  std::unique_ptr<Data> data_;
};

/// A PDF of the parts of some sheets: for each sheet in turn a page for each run of items of one
/// layer, to be laid one over the other.
struct PagesPdf {
  std::string bytes;
  std::vector<std::vector<paper::Layer>> layers;  // by sheet, from below
};

/// The parts of these sheets. std::runtime_error when a sheet is unfit (see guard) or cairo reports
/// an error. The same bytes every time.
PagesPdf pages_pdf(std::span<const paper::Sheet> sheets, const DocumentInfo& info,
                   const Faces& faces);

}  // namespace deckquire::writers
