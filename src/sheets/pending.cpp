// Series whose drawings have not landed yet: an empty sheet with its furniture. Each goes from here
// when its own file comes.
#include "sheets/furniture.h"
#include "sheets/plan.h"

namespace deckquire::sheets {
namespace {

paper::Sheet empty_sheet(const SetInput& input, const SetPlan& plan, std::size_t index) {
  paper::Sheet sheet = blank_sheet(input, plan.sheets[index]);
  paper::Board board(sheet, input.style, input.lettering);
  furnish(board, input, plan, index, "none");
  return sheet;
}

}  // namespace

paper::Sheet draw_details(const SetInput& i, const SetPlan& p, std::size_t n) {
  return empty_sheet(i, p, n);
}

}  // namespace deckquire::sheets
