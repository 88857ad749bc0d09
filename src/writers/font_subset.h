// The part of a font that a sheet needs, wrapped for browsers.
#pragma once

#include <cstdint>
#include <memory>
#include <set>
#include <string>

#include "paper/lettering.h"

namespace deckquire::writers {

/// A font ready to be cut down many times. Not for use by two threads at once.
class FontCutter {
 public:
  explicit FontCutter(const paper::FontFile& file);
  ~FontCutter();
  FontCutter(FontCutter&&) noexcept;

  /// WOFF of the glyphs of these code points, without layout and hint tables: widths are plain sums
  /// of advances. std::runtime_error when the library refuses the font.
  std::string woff(const std::set<std::uint32_t>& characters);

 private:
  struct Data;
  std::unique_ptr<Data> data_;
};

/// An OpenType font wrapped as WOFF 1.0 (W3C Recommendation of 13 December 2012): tables deflated
/// one by one. `sfnt` is a sound font file.
std::string wrap_woff(const std::string& sfnt);

}  // namespace deckquire::writers
