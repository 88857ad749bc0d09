// The yardstick of the bench: the display lists, drawn by bare cairo in one thread.
#pragma once

#include <memory>
#include <vector>

#include "paper/lettering.h"
#include "paper/sheet.h"

namespace deckquire {

/// Sheets made ready (glyphs chosen and placed, fonts open), so that only cairo is timed.
class Replay {
 public:
  Replay(const std::vector<paper::Sheet>& sheets, const paper::Lettering& lettering);
  ~Replay();
  /// All sheets as pages of one PDF in memory, strokes of one pen grouped, a white page first, real
  /// text. Returns its size.
  std::size_t draw() const;

 private:
  struct Data;
  std::unique_ptr<Data> data_;
};

}  // namespace deckquire
