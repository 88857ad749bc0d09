#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {
paper::Sheet only_furniture(const SetInput& input, const SetPlan& plan, std::size_t index) {
  paper::Sheet sheet = blank_sheet(input, plan.sheets[index]);
  paper::Board board(sheet, input.style, input.lettering);
  furnish(board, input, plan, index, "as shown");
  return sheet;
}
}  // namespace
paper::Sheet draw_cover(const SetInput& i, const SetPlan& p, std::size_t n) {
  return only_furniture(i, p, n);
}
paper::Sheet draw_erection(const SetInput& i, const SetPlan& p, std::size_t n) {
  return only_furniture(i, p, n);
}
paper::Sheet draw_details(const SetInput& i, const SetPlan& p, std::size_t n) {
  return only_furniture(i, p, n);
}
paper::Sheet draw_table_sheet(const SetInput& i, const SetPlan& p, std::size_t n) {
  return only_furniture(i, p, n);
}
std::vector<SheetPlan> arrange_tables(const SetInput&) { return {}; }
}  // namespace deckquire::sheets
