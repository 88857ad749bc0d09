// What the functions that draw one panel sheet share. Only panel_*.cpp include it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "paper/dimension.h"
#include "paper/view.h"
#include "sheets/furniture.h"
#include "sheets/panel_drawing.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// x from .first to .second, rising.
using Stretch = std::pair<double, double>;

/// Equal features of a panel: one number in every view and one entry in the table.
struct PanelItem {
  int number = 0;
  std::vector<std::size_t> features;  // indices into PanelShape::features
};

/// The features of a shape in the order of their kinds, equal ones together.
std::vector<PanelItem> number_items(const PanelShape& shape);

/// One panel sheet being drawn.
struct PanelJob {
  const SetInput& input;
  const SetPlan& plan;
  const SheetPlan& own;
  const Mark& mark;
  const DeckData& deck;
  std::vector<PanelItem> items;
  /// What the views along x leave out, all at the same places; empty: they are whole.
  std::vector<paper::Shortening> breaks{};
  /// On a sheet that marks share: which of them, from 0; ids of groups tell them apart by it.
  int place = 0;
  /// Letters of sections go on from one mark to the next: how many are taken.
  int letters_taken = 0;

  const PanelShape& shape() const { return mark.shape; }
  UnitSystem units() const { return input.project.units; }
  std::string print(double v) const { return print_length(mm(v), units()); }
  /// Distances from the datum corner: x ahead, y towards the other edge.
  double along(double x) const { return from_datum(shape(), {x, 0}).x; }
  double aside(double y) const { return from_datum(shape(), {0, y}).y; }
  /// A chain whose equal neighbours are not merged.
  paper::ChainLine chain_line(paper::Heading heading, double across, bool bracketed) const {
    return {heading, across, units(), false, bracketed, {}};
  }
  /// Index of the mark in the deck.
  int index() const { return static_cast<int>(&mark - input.deck.marks.data()); }
  std::string id(const std::string& what) const {
    return place == 0 ? what : what + "-" + mark.name;
  }
  int number_of(std::size_t feature) const;
  /// Where the views along a parted mark show its second half; false: its first, or all of it.
  bool ahead_part() const { return own.part && own.part->ahead; }
  /// True on the sheet that shows the back end, or the ahead end, of a mark.
  bool shows_back() const { return !ahead_part(); }
  bool shows_ahead() const { return !own.part || own.part->ahead; }
  /// x that the views along the mark show.
  Stretch shown() const;
  bool shows(double x) const { return shown().first <= x && x <= shown().second; }
  /// A feature stands on the part where its middle is; pads that run through on both.
  bool shows(const Feature& f) const;
  /// "A/D01" of that detail, or empty.
  std::string reference(Detail d) const;
};

/// The jobs of a sheet, one for each mark that it shows.
std::vector<PanelJob> panel_jobs(const SetInput& input, const SetPlan& plan, const SheetPlan& own);

/// The detail that shows a kind of feature enlarged.
std::optional<Detail> detail_of(FeatureKind kind);

// ---- free room on paper

/// Boxes that are taken; finds the nearest free place for another one.
class Room {
 public:
  void take(const paper::PaperBox& box) { taken_.push_back(box); }
  void take_line(paper::PaperPoint a, paper::PaperPoint b, double half_width);
  bool free(const paper::PaperBox& box) const;
  /// Centre of the nearest free place to `ideal` for a box of `size`, inside `within`, no further
  /// off than `reach`, that `suits` as well.
  std::optional<paper::PaperPoint> place(
      paper::PaperPoint size, paper::PaperPoint ideal, const paper::PaperBox& within, double reach,
      const std::function<bool(paper::PaperPoint)>& suits = {}) const;

 private:
  std::vector<paper::PaperBox> taken_;
};

// ---- layout

/// A small sheet: views keep less air, and tables have a sheet of their own.
bool tight(const paper::Style& style);

/// Panels so long that their plans may stand one under the other, and be broken.
bool is_long(const PanelShape& shape);

/// True where the ahead end is not as wide as the back, or not in line with it.
bool tapers(const PanelShape& shape);

enum class PanelView { top, soffit, side, end, section, curb, scupper, recess };
constexpr int panel_view_count = 8;

/// Air that a view needs outside its object for dimensions and title, paper mm.
struct Margins {
  double left = 0, right = 0, bottom = 0, top = 0;
};

struct PlacedView {
  bool drawn = false;
  paper::PaperPoint at;  // lower left of the object
  int ratio = 1;
};

struct PanelLayout {
  PlacedView views[panel_view_count];
  std::vector<paper::Shortening> breaks;  // of plans and side elevation
  bool parted = false;                    // .breaks leave out the mark's other part
  bool fits = true;                       // false: too small a sheet even for the least
  const PlacedView& operator[](PanelView v) const { return views[static_cast<int>(v)]; }
  PlacedView& operator[](PanelView v) { return views[static_cast<int>(v)]; }
};

// ---- broken views

/// Stretches along a panel that are clear of features (pads run through), of corners of the outline
/// and of curbs. `kept`: must be clear as well.
std::vector<Stretch> clear_stretches(const PanelShape& shape, const DeckData& deck,
                                     const std::vector<Stretch>& kept);

/// Those of them where nothing changes: outline and curbs the same at both ends.
std::vector<Stretch> uniform_stretches(const PanelShape& shape, const DeckData& deck,
                                       const std::vector<Stretch>& kept);

/// How a view is broken.
struct BreakRules {
  double visible = 0;  // model mm that may be shown, gaps included
  double air = 0;      // model mm that stay on both sides of a gap, at least
  double gap = 0;      // model mm that a gap takes
  double step = 1;     // lengths left out are whole steps
  std::size_t most = 3;
};

/// The fewest breaks that bring `length` down to what may be shown, each in the middle of its
/// stretch, and no more left out than needed; none where that cannot be had, or is not needed.
std::vector<paper::Shortening> choose_breaks(std::vector<Stretch> stretches, double length,
                                             const BreakRules& rules);

/// Takes the stretch out of what is drawn between two heights on paper, and draws break lines; x0
/// and x1 are the edges of its gap on paper.
void draw_break(paper::Board& board, const PanelJob& job, const paper::Shortening& s, double x0,
                double x1, double low, double high);

// ---- a mark parted over two sheets

/// Where a long mark may be parted.
struct PartRules {
  double low = 0, high = 0;   // x between which the match line may lie
  double air = 0;             // mm that it keeps from the ends of its stretch
  std::vector<double> steps;  // it lies at whole ones of the first that has a place; descending
};

/// x of the match line: clear of everything, near the middle, a round distance from `datum`; none
/// where no place is clear.
std::optional<double> choose_parting(const std::vector<Stretch>& clear, double datum,
                                     const PartRules& rules);

/// What a part's views leave out: the other part, but for room for the words of the match line.
paper::Shortening other_part(const paper::Board& board, const PanelJob& job, int ratio);

/// Paper mm that a match line reaches beyond the object.
constexpr double match_over = 4;

/// True where a mark is parted and its other sheet has that view.
bool on_other_sheet(const PanelJob& job, PanelView v);
/// Number of the sheet that has a view which this one or the other has.
const std::string& sheet_of(const PanelJob& job, PanelView v);

/// "PART 1 OF 2"; empty where the mark is not parted.
std::string part_words(const PanelJob& job);
/// "MATCH LINE x 6000, SEE P03-2".
std::string match_words(const PanelJob& job);

/// Takes the other part out of what is drawn, and draws the match line: `gap` is where on paper the
/// other part would go on. `words`: with its words along it.
void draw_match(paper::Board& board, const PanelJob& job, const paper::Shortening& other,
                const paper::PaperBox& gap, bool words);

/// The sheet of the ahead part: views along the mark, and where everything else is.
void draw_ahead_part(paper::Board& board, const PanelJob& job, const Spaces& spaces);

/// Size of a view's object in model mm.
struct ViewSize {
  double width = 0, height = 0;
};
ViewSize view_size(const PanelJob& job, PanelView v);
/// False for sections that the mark has no use for.
bool has_view(const PanelJob& job, PanelView v);
Margins view_margins(const paper::Board& board, const PanelJob& job, PanelView v);

/// Scales and places of all views in `space` less a corner of that width and height at its lower
/// right. Enlarged sections that find no room are not drawn.
PanelLayout lay_out_panel(const paper::Board& board, const PanelJob& job,
                          const paper::PaperBox& space, paper::PaperPoint corner);

/// The same for a part of a mark, at its scale and with its views parted.
PanelLayout lay_out_part(const paper::Board& board, const PanelJob& job,
                         const paper::PaperBox& space, paper::PaperPoint corner);

/// How many views a layout shows.
std::size_t drawn_views(const PanelLayout& layout);

/// "SECTION A-A, LOOKING AHEAD" and the like.
std::string title_of(const PanelJob& job, PanelView v);

/// The window of y that an enlarged section shows.
struct SectionWindow {
  double x = 0;              // of the cut
  double low = 0, high = 0;  // y
  int feature = -1;
};
SectionWindow section_window(const PanelJob& job, PanelView v);

// ---- views

void draw_top_plan(paper::Board& board, const PanelJob& job, const PanelLayout& layout);
void draw_soffit_plan(paper::Board& board, const PanelJob& job, const PanelLayout& layout);
void draw_side_elevation(paper::Board& board, const PanelJob& job, const PanelLayout& layout);
void draw_end_elevation(paper::Board& board, const PanelJob& job, const PanelLayout& layout);
void draw_typical_section(paper::Board& board, const PanelJob& job, const PanelLayout& layout);
void draw_enlarged(paper::Board& board, const PanelJob& job, const PanelLayout& layout,
                   PanelView v);
/// Paper mm that the notes at the right of an enlarged part need.
double enlarged_note_width(const paper::Board& board, const PanelJob& job, PanelView v);
/// "A", "B" ... of a section of this sheet, in the order of the views.
std::string section_letter(const PanelJob& job, PanelView v);

/// The axonometric views from above and from below.
struct PanelPictures {
  bool drawn = false;
  double ratio = 0;              // of the model to paper, as it fits: they are not to a scale
  paper::PaperBox above, below;  // with numbers, title and note
};
/// Finds places for both in what is free of `space`: as large as fits, but small beside the plans.
PanelPictures place_pictures(const paper::Board& board, const PanelJob& job,
                             const paper::PaperBox& space,
                             const std::vector<paper::PaperBox>& taken);
void draw_pictures(paper::Board& board, const PanelJob& job, const PanelPictures& pictures);
/// Says, where a line finds room, that they are left out.
void say_no_pictures(paper::Board& board, const paper::PaperBox& space,
                     const std::vector<paper::PaperBox>& taken);

/// Dimensions round a plan.
void plan_dimensions(paper::Board& board, const PanelJob& job, const paper::View<PanelFrame>& view,
                     bool from_above);
/// Room for the longest value that stands upright beside its line, paper mm.
double value_width(const paper::Board& board, const PanelJob& job);
/// Paper mm between outline and running dimensions, kept for section marks.
double mark_zone(const paper::Board& board);
/// Paper mm from the soffit's right edge to its running dimensions; more where the mark of a
/// section through a recess at a row joint stands between them.
double soffit_air(const paper::Board& board, const PanelJob& job);
/// Paper mm from the chain of a skewed panel's corners to the overall beyond it.
double corner_tier(const paper::Board& board);

/// The distinct x or y of the features that a plan dimensions on one of its sides.
std::vector<double> feature_places(const PanelJob& job, bool from_above, bool along_x,
                                   std::optional<bool> lower_half);

/// True for openings through the panel: scupper, hatch, sleeve, notch.
bool goes_through(FeatureKind kind);

/// True where a plan draws that feature.
bool plan_shows(const Feature& f, bool from_above);

// ---- outline

/// True where an end is not square, so that figures beside the views do not set the outline out.
bool outline_by_table(const PanelShape& shape);
/// Corners with their places, the straight lines between them, the angles inside.
paper::TableData outline_table(const PanelJob& job);
/// "parallelogram, skewed 15° at both ends; left edge at row joint L1"; empty for a rectangle.
std::string form_words(const PanelJob& job);
/// "end joint, 15° from square, its left corner ahead".
std::string end_words(const PanelJob& job, bool back);
/// Ring of the wearing surface as plans show it: set back from the ends and from the curbs.
std::vector<PanelPoint> drawn_surface(const PanelJob& job);
/// Names of the row joints that one edge of the mark lies at; empty where it is the deck's edge.
std::string row_joint_name(const PanelJob& job, Side side);
/// How far the straight left and right edges leave the deck's true line, at most, mm.
std::pair<double, double> chord_offsets(const PanelJob& job);
/// Widths along the back and the ahead end face, mm.
std::pair<double, double> face_widths(const PanelShape& shape);

// ---- words

/// What is special about the mark, one sentence.
std::string panel_purpose(const PanelJob& job);

/// The words of the sheet, already placed: in the text column as far as they fit, the rest in
/// columns at the lower right of the drawing space, or on the mark's second sheet on small paper.
struct PanelText {
  struct Piece {
    std::function<double(paper::Board&, const paper::PaperBox&)> draw;
    paper::PaperBox box;
  };
  std::vector<Piece> pieces;
  paper::PaperPoint corner;  // width and height taken from the drawing space
};
/// `share`: of the drawing space's height, for the columns at its lower right.
PanelText arrange_panel_text(const paper::Board& board, const PanelJob& job, const Spaces& spaces,
                             double share = 1);

/// Words and views of a sheet that shows one mark or its back part.
struct Arranged {
  PanelText text;
  PanelLayout layout;
};
Arranged arrange_panel(const paper::Board& board, const PanelJob& job, const Spaces& spaces);

/// The views of a layout, drawn.
void draw_views(paper::Board& board, PanelJob job, const PanelLayout& layout);
/// One bar for each scale of the layouts at the foot of `space`.
void draw_bars(paper::Board& board, UnitSystem units, const paper::PaperBox& space,
               const std::vector<PanelLayout>& layouts);

/// A P sheet as it would be, for measuring: the last one of its plan.
struct TrialSheet {
  SetPlan plan;
  paper::Sheet sheet;
  paper::Board board;
  Spaces spaces;
  std::vector<PanelJob> jobs;

  TrialSheet(const SetInput& input, const SetPlan& so_far, const std::vector<int>& marks,
             const std::optional<PanelPart>& part = {});
  TrialSheet(const TrialSheet&) = delete;
  TrialSheet& operator=(const TrialSheet&) = delete;
};

/// Several small marks on one sheet: what its text column says of them all, and ways to stand the
/// tables of one of them at the lower right of its part of the sheet, in one column or more.
struct SharedColumn {
  PanelText text;
  bool fits = false;
};
SharedColumn arrange_shared_column(const paper::Board& board, const std::vector<PanelJob>& jobs,
                                   const Spaces& spaces);
std::vector<PanelText> ways_to_stand_tables(const paper::Board& board, const PanelJob& job,
                                            const paper::PaperBox& part);

/// The parts of a sheet that marks share, side by side, each with its own title, views and tables.
struct SharedSheet {
  struct Part {
    paper::PaperBox box;
    PanelText tables;
    PanelLayout layout;
  };
  PanelText column;
  std::vector<Part> parts;
  bool fits = false;
};
SharedSheet arrange_shared_sheet(const paper::Board& board, const std::vector<PanelJob>& jobs,
                                 const Spaces& spaces);
/// Paper mm kept at the foot of the drawing space for scale bars.
constexpr double bar_strip = 9;

/// The second sheet of a mark: the pieces that the first one's text column did not take.
PanelText arrange_second_sheet(const paper::Board& board, const PanelJob& job,
                               const Spaces& spaces);

paper::TableData feature_table(const PanelJob& job);
paper::TableData hole_kinds(const PanelJob& job);
/// Label, x, y in as many groups side by side as `groups`.
paper::TableData hole_places(const PanelJob& job, int groups);
std::vector<std::string> panel_notes(const PanelJob& job);

}  // namespace deckquire::sheets
