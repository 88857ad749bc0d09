// Lettering: the pinned font files, their advances, and which file draws which character.
#pragma once

#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace deckquire::paper {

/// A font file that is not there or cannot be used; what() names role, file, the places tried and
/// the Debian package.
class FontError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct FontFile {
  std::string path;
  std::string family;     // as the file states it
  int units_per_em = 0;
  double cap_height = 0;  // of "H", in em: font size = capital height / cap_height
  std::string bytes;      // the whole file, for the writers
};

/// A stretch of a string that one font file draws.
struct Run {
  int font = 0;                       // index into Lettering::fonts()
  std::vector<std::uint32_t> glyphs;  // glyph indices, never 0
  std::vector<double> advances;       // in em
  std::string text;                   // the UTF-8 of the run
};

/// Immutable after construction: may be shared by threads.
class Lettering {
 public:
  /// `files`: first choice first; names are looked for in the standard font folders, absolute paths
  /// taken as they are. FontError when one is missing.
  explicit Lettering(const std::vector<std::string>& files);
  ~Lettering();
  Lettering(Lettering&&) noexcept;

  const std::vector<FontFile>& fonts() const;
  /// Width in mm of text at that capital height: the sum of advances, no kerning. A character that
  /// no font has is measured as '?'.
  double width(std::string_view text, double height) const;
  /// The runs in order. Characters that no font has come as '?'.
  std::vector<Run> runs(std::string_view text) const;
  /// The characters of `text` that no font file has.
  std::string missing(std::string_view text) const;

 private:
  struct Data;
  std::unique_ptr<const Data> data_;
};

}  // namespace deckquire::paper
