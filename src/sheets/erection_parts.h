// The parts of an erection sheet, drawn one after another on the same strip. Internal to
// erection*.cpp.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "bridge/curve_data.h"
#include "paper/board.h"
#include "paper/callout.h"
#include "paper/dimension.h"
#include "paper/table.h"
#include "paper/view.h"
#include "sheets/blocks.h"
#include "sheets/deck_lines.h"
#include "sheets/erection_layout.h"
#include "sheets/furniture.h"
#include "sheets/panel_drawing.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// Everything that takes room in a strip's plan, so that names find a free place.
class LabelField {
 public:
  void text(const paper::PaperBox& b) { texts_.push_back(b); }
  void solid(const paper::PaperBox& b) { solids_.push_back(b); }  // features, joint lines
  void quiet(const paper::PaperBox& b) { quiets_.push_back(b); }  // girders, splices
  /// Centre of a free place for a box of that size inside `region`, as near `ideal` as it goes.
  /// None when every place would lie on other text.
  std::optional<paper::PaperPoint> place(paper::PaperPoint size, const paper::PaperBox& region,
                                         paper::PaperPoint ideal) const;
  /// As place(), but no worse than touching quiet lines.
  std::optional<paper::PaperPoint> clear_place(paper::PaperPoint size,
                                               const paper::PaperBox& region,
                                               paper::PaperPoint ideal) const;
  /// True when a box lies on text.
  bool on_text(const paper::PaperBox& b) const;

 private:
  double cost(const paper::PaperBox& b) const;
  /// Only what touches a box.
  LabelField part(const paper::PaperBox& box) const;
  std::optional<paper::PaperPoint> best(paper::PaperPoint size, const paper::PaperBox& region,
                                        paper::PaperPoint ideal, double worst) const;
  std::vector<paper::PaperBox> texts_, solids_, quiets_;
};

/// One strip on the board.
struct StripDrawing {
  paper::Board& board;
  const SetInput& input;
  const SetPlan& plan;
  std::size_t number;  // index into plan.strips
  StripFrame frame;
  paper::View<BridgeFrame> view;
  double top = 0;  // y of the strip's upper end
  LabelField& labels;
  std::vector<Detail>& referred;  // details already referred to on this sheet

  const Strip& strip() const { return plan.strips[number]; }
  double y(double below) const { return top - below; }
  double x(Length station) const { return view(station.in_mm(), 0).x; }
  double from() const { return x(strip().from); }
  double to() const { return x(strip().to); }
  const Panel& panel(int i) const {
    return input.deck.panels[static_cast<std::size_t>(strip().first + i)];
  }
  int first_joint() const { return panel(0).joint_back; }
  int last_joint() const { return panel(strip().count - 1).joint_ahead; }
  std::vector<Bay> bays() const { return bays_of(input.deck, strip().first, strip().count); }
  /// A panel by its index in the deck.
  const Panel& at(int i) const { return input.deck.panels[static_cast<std::size_t>(i)]; }
  const Joint& joint(int i) const { return input.deck.joints[static_cast<std::size_t>(i)]; }
  bool first() const { return number == 0; }
  bool last() const { return number + 1 == plan.strips.size(); }
  /// Stations of the ends, or of the work lines at the outer ends of the deck.
  bool holds(Length station) const;
  double letters(paper::LetterUse use) const { return board.style().letters_of(use); }
};

/// The plan of one panel on the strip: straight, or unrolled along the alignment.
class PanelMap {
 public:
  PanelMap(const StripDrawing& s, const Panel& p);
  bool bent() const { return !panel_.frame.straight; }
  paper::PaperPoint operator()(PanelPoint p) const;
  paper::PaperPoint operator()(double x, double y) const { return (*this)(PanelPoint{x, y}); }
  /// Where the plan is bent, with points between the corners.
  std::vector<paper::PaperPoint> operator()(const Ring<PanelFrame>& ring) const;
  /// Lets `draw` draw with a straight view; where the plan is bent what it drew is bent after it.
  void draw(const std::function<void(paper::Board&, const paper::View<PanelFrame>&)>& draw) const;

 private:
  paper::Path bent(const paper::Path& path) const;

  const StripDrawing& s_;
  const Panel& panel_;
  paper::View<PanelFrame> view_;
};

/// A line of the deck on the strip's paper.
paper::Path line_of(const StripDrawing& s, const BridgeLine& line);
/// A joint's line on the strip's paper, from the right edge of the deck to the left.
std::vector<paper::PaperPoint> joint_on_strip(const StripDrawing& s, const Joint& joint);
paper::PaperBox around(const std::vector<paper::PaperPoint>& points);
/// The line in short pieces, so that names keep off it.
void keep_off(const StripDrawing& s, const std::vector<paper::PaperPoint>& line, double room);

void draw_profile(const StripDrawing& s);
void draw_joint_labels(const StripDrawing& s);
void draw_steelwork(const StripDrawing& s);
/// Names and stations of the supports under the deck: after the stems of the joints, which break
/// around them.
void name_supports(const StripDrawing& s);
void draw_panels(const StripDrawing& s);
void draw_water(const StripDrawing& s);
void draw_match_lines(const StripDrawing& s);
void draw_edge_rows(const StripDrawing& s);
void draw_chains(const StripDrawing& s);
void draw_offsets(const StripDrawing& s);
/// Tangents, arcs and transitions of the alignment under a strip; nothing on a straight one.
void draw_elements(const StripDrawing& s);
/// "arc R 45000 left, L 45046".
std::string element_text(const ElementData& e, UnitSystem units);

/// The chain of the bays of a strip in print units, along the alignment: gap, panel, gap, panel ...
/// From the work line at the start of the deck, else from the back face of the first panel; to the
/// back face of the next strip's first panel, else to the work line at the end. Rounded
/// cumulatively: it sums to `total`.
struct PanelChain {
  Length from, to;
  std::vector<std::int64_t> gaps,
      panels;  // gaps[i] lies before panels[i]; one gap more than panels
  std::int64_t total = 0;
};
PanelChain panel_chain(const SetInput& input, const Strip& strip);

/// "MATCH LINE J13  0+030.036  SEE E02" at one end of a strip; empty at the ends of the deck.
std::string match_label(const SetInput& input, const SetPlan& plan, std::size_t strip, bool ahead);

/// Typical section inside `room`. Returns the box it took.
paper::PaperBox draw_typical_section(paper::Board& board, const SetInput& input,
                                     const SetPlan& plan, const paper::PaperBox& room);

/// Section where the deck is widest, under the typical one; nothing when it is no wider, or the
/// room too low. Returns the box it took.
paper::PaperBox draw_widest_section(paper::Board& board, const SetInput& input, const SetPlan& plan,
                                    const paper::PaperBox& room);

/// What an E sheet says under that head, as blocks. `sheet` -1: of the whole deck. `of`: number of
/// the sheet that they belong to, in the heading, where they stand on another one. `most`: rows in
/// a piece of a table; with fewer than all the picture is small.
Blocks erection_words(const SetInput& input, const SetPlan& plan, int sheet, ErectionWords words,
                      bool with_section, const std::string& of = "", std::size_t most = 16);
/// "setting".
std::string words_name(ErectionWords words);

/// Purpose, key plan and the words of an E sheet, but for those that the plan has moved, in the
/// text column and in the boxes that the strips leave free. Returns those that find no room.
std::vector<ErectionWords> draw_erection_column(paper::Board& board, const SetInput& input,
                                                const SetPlan& plan, int sheet,
                                                const paper::PaperBox& space,
                                                const std::vector<paper::PaperBox>& spare,
                                                bool with_section);

/// Furniture, typical section and words of an E sheet. Returns the words that find no room when the
/// text column is lower by `reserve`.
std::vector<ErectionWords> draw_erection_sides(paper::Board& board, const SetInput& input,
                                               const SetPlan& plan, std::size_t index,
                                               double reserve = 0);

/// An E sheet after those with strips: the words that were moved.
void draw_moved_words(paper::Board& board, const SetInput& input, const SetPlan& plan,
                      std::size_t index);

/// Each skew once a strip, at the first joint that has it.
void draw_skews(const StripDrawing& s);
/// "12.5 degrees" as a figure; the side is seen in the plan.
std::string skew_text(double skew);

/// Panels [first, first + count) of the strips on one E sheet; sheet -1: on all of them.
struct PanelRange {
  int first = 0, count = 0;
};
PanelRange panels_on(const SetPlan& plan, int sheet);

/// What goes with the panels of an E sheet.
paper::TableData hardware(const SetInput& input, PanelRange range);
paper::TableData picks(const SetInput& input, PanelRange range);

}  // namespace deckquire::sheets
