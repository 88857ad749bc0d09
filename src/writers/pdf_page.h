// Sheets -> PDF pages, by cairo into memory. Document structure is not made here.
#pragma once

#include <memory>
#include <span>
#include <string>

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

/// A PDF with a page for each of these sheets. std::runtime_error when a sheet is unfit (see guard)
/// or cairo reports an error. The same bytes every time.
std::string pages_pdf(std::span<const paper::Sheet> sheets, const DocumentInfo& info,
                      const Faces& faces);

}  // namespace deckquire::writers
