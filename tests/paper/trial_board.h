// A board on a blank A1 sheet in the default style.
#pragma once

#include "paper/board.h"

namespace deckquire::paper {

struct TrialBoard {
  Style style = default_style();
  Sheet sheet{.number = "P01",
              .title = "Trial",
              .revision = "A",
              .width = 841,
              .height = 594,
              .pens = {},
              .items = {}};
  Lettering lettering{style.fonts};
  Board board{sheet, style, lettering};
};

}  // namespace deckquire::paper
