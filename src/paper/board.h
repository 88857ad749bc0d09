// A drawing board: puts strokes, fills and letters on one sheet by purpose, in paper millimetres.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "paper/lettering.h"
#include "paper/sheet.h"
#include "paper/style.h"

namespace deckquire::paper {

enum class Align { left, centre, right };

/// Placing of text about its point: on the base line, hanging below, or half way up the capitals.
enum class Stand { base, top, middle };

class Board {
 public:
  Board(Sheet& sheet, const Style& style, const Lettering& lettering);

  const Style& style() const { return style_; }
  const Lettering& lettering() const { return lettering_; }
  Sheet& sheet() { return sheet_; }

  void stroke(PenUse pen, Path path);
  void line(PenUse pen, PaperPoint a, PaperPoint b);
  void box(PenUse pen, const PaperBox& b);
  void fill(Ink ink, Path path);

  /// One line of text; empty text draws nothing. Returns the box it covers.
  /// `upright` false: reads from the right (turned by 90 degrees counter-clockwise).
  PaperBox text(LetterUse use, PaperPoint at, std::string_view text, Align align = Align::left,
                Stand stand = Stand::base, bool upright = true, Ink ink = Ink::black);
  /// The same on a white box, so that it may stand on lines.
  PaperBox masked_text(LetterUse use, PaperPoint at, std::string_view text,
                       Align align = Align::centre, Stand stand = Stand::middle,
                       bool upright = true, Ink ink = Ink::black);
  double text_width(LetterUse use, std::string_view text) const;
  double text_height(LetterUse use) const { return style_.letters_of(use); }

  /// Words broken into lines no wider than `width`; first line hangs below `at`. Returns the y below
  /// the last line (one line pitch under its base line).
  double paragraph(LetterUse use, PaperPoint at, double width, std::string_view text);
  /// The lines that paragraph() would draw.
  std::vector<std::string> broken(LetterUse use, double width, std::string_view text) const;

  /// Base line pitch of running text: 1.5 times the height (ISO 3098, mixed case).
  double pitch(LetterUse use) const { return 1.5 * style_.letters_of(use); }

 private:
  friend class Group;
  Sheet& sheet_;
  const Style& style_;
  const Lettering& lettering_;
};

/// Opens a group for as long as it lives.
class Group {
 public:
  Group(Board& board, std::string id, std::string kind, std::string title = "",
        std::string target = "");
  ~Group();
  Group(const Group&) = delete;
  Group& operator=(const Group&) = delete;

 private:
  Board& board_;
};

/// Fills a cut face with the hatch of its material (computed lines clipped to the ring, even-odd
/// with holes). Rings in paper millimetres. Large areas: a band of `band` mm inside the outline.
void hatch(Board& board, const std::vector<std::vector<PaperPoint>>& rings,
           const std::string& material, double band = 0);

/// A light stipple inside a box, the same dots every time.
void stipple(Board& board, const std::vector<PaperPoint>& ring);

/// Straight arrow with a filled head at `to`.
void arrow(Board& board, PenUse pen, PaperPoint from, PaperPoint to, double head = 3);

/// A break line (zigzag) from a to b.
void break_line(Board& board, PaperPoint a, PaperPoint b);

}  // namespace deckquire::paper
