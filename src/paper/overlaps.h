// Finding letters that lie on other letters or on heavy lines, on sheets with thousands of both.
#pragma once

#include <cstddef>
#include <vector>

#include "paper/sheet.h"

namespace deckquire::paper {

/// Lines of this width or more hide the letters on them: 0.5 mm, or the width of the style's
/// outlines where those are thinner (small paper).
double heavy_line(const Sheet& sheet);

/// True where the segment has a point inside the box.
bool meets(PaperPoint a, PaperPoint b, const PaperBox& box);

struct PlacedText {
  const Text* text = nullptr;
  PaperBox box;
  std::size_t order = 0;  // place among the items of the sheet
};

struct PlacedLine {
  const Path* path = nullptr;
  double width = 0;
  std::size_t order = 0;
};

/// Text `text` meets `other` (an index into the texts or the lines) at `where`.
struct Clash {
  std::size_t text = 0, other = 0;
  PaperPoint where;
};

/// Pairs of texts whose boxes share more than a hair, by the order of the first.
std::vector<Clash> text_clashes(const std::vector<PlacedText>& texts);

/// Texts on a heavy line, one record a text. A masked text hides the lines drawn before it, so only
/// those drawn after it count.
std::vector<Clash> line_clashes(const std::vector<PlacedText>& texts,
                                const std::vector<PlacedLine>& lines);

}  // namespace deckquire::paper
