// One sheet -> one PDF page, by cairo into memory. Document structure is not made here.
#pragma once

#include <memory>
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

/// A PDF of one page. std::runtime_error when the sheet is unfit (see guard) or cairo reports an
/// error. The same bytes every time.
std::string page_pdf(const paper::Sheet& sheet, const DocumentInfo& info, const Faces& faces);

}  // namespace deckquire::writers
