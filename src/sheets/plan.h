// Which sheets there are and what is on which, decided before anything is drawn, so that every
// reference can name the sheet it points to.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "paper/table.h"
#include "sheets/set.h"

namespace deckquire::sheets {

/// Rows of one table in one place of a T sheet.
struct TablePart {
  int table = 0;  // index into SetInput::tables
  std::size_t first = 0, count = 0;
  paper::PaperPoint at;      // upper left corner, heading included
  double width = 0;          // paper mm
  std::string heading;       // empty where it goes on in the next column
  std::string intro;         // sentence under the heading
  double heading_width = 0;  // of all columns of this table on the sheet
};

/// One of the two sheets that a long mark's views along it are parted over.
struct PanelPart {
  double at = 0;       // x of the match line
  bool ahead = false;  // shows what lies ahead of it
  int ratio = 1;       // of the plans, on both
  std::string other;   // number of the other sheet
  std::uint32_t views = 0;  // that the other sheet shows, a bit each
};

struct SheetPlan {
  char series = 'G';   // G E P D T C R
  std::string number;  // "E01"
  std::string title;   // "ERECTION PLAN 0+000 TO 0+032"
  int subject = -1;    // P: mark; E: number among the E sheets; T: number among the T sheets; D:
                       // number among the D sheets
  std::vector<TablePart> parts;  // T: what is where
  bool second = false;           // P: the mark's second sheet, tables and notes
  std::vector<int> marks;        // P: whose panels it shows, subject first
  std::optional<PanelPart> part{};  // P: which part of a long mark; none: all of it
};

/// The details that D sheets draw; only those that the project has.
enum class Detail {
  curb,
  post_plate,
  joint,
  row_joint,
  end_joint,
  recess,
  scupper,
  hatch,
  sleeve,
  hold_down,
  lifting
};

struct DetailRef {
  Detail detail{};
  std::string title;   // "SCUPPER WITH GRATE AND OUTLET"
  std::string letter;  // unique in the set: A B C ... without I O Q S X Z
  std::string sheet;   // D sheet number
};

/// Lowest girder top and highest deck top between two stations, mm.
struct LevelRange {
  double low = 0, high = 0;
};

/// A piece of the erection plan between two joints. Every panel is on exactly one strip.
struct Strip {
  int first = 0, count = 0;  // panels
  Length from, to;           // stations of the joint lines at its ends
  int sheet = 0;             // number among the E sheets
  int row = 0;               // from the top of its sheet
  LevelRange levels;
};

/// What an erection sheet says beside its drawings, in the order of importance.
enum class ErectionWords { order, setting, picks, hardware, scales, signs, bay };

/// Words of an E sheet that find no room there: they stand on another one with strips that has room
/// left, or on the E sheets after the last strip.
struct MovedWords {
  int sheet = 0;  // number among the E sheets
  ErectionWords words{};
  int host = -1;  // the sheet with strips where they stand, if one does
};

struct BayScene;
struct SettingPlan;
struct CalculationPages;
struct RevisionPages;
struct TransmittalPages;

struct SetPlan {
  std::vector<SheetPlan> sheets;
  std::vector<DetailRef> details;
  std::vector<Strip> strips;
  std::vector<MovedWords> moved;
  std::shared_ptr<const CalculationPages> calculations;  // what C sheets say; none: nothing was
  std::shared_ptr<const RevisionPages> revision;  // what R sheets say (revision_sheet.h)
  std::shared_ptr<const TransmittalPages> transmittal;   // what the first R sheets say
  int erection_ratio = 50;                               // one scale for all strips
  std::vector<paper::TableData> tables;                  // as T sheets print them, by their index
  std::shared_ptr<const BayScene> bay;  // the picture of a typical bay; none: no bay is typical
  std::shared_ptr<const SettingPlan> setting;  // how panels are set (setting_plan.h); none: no E sheets
  int setting_sheets = 0;  // E sheets that show it, right after those with strips
  bool widest_section = true;           // drawn where there is room; words go first
  double strip_height = 0;              // paper mm kept for one strip with profile and dimensions

  /// The plan of that detail, or nullptr when the project has none.
  const DetailRef* find(Detail d) const;
  /// How many E sheets show strips; after them come those of the setting, then what was moved.
  int strip_sheets() const { return strips.empty() ? 0 : strips.back().sheet + 1; }
  /// The number among the E sheets of the first with what was moved, if there is one.
  int first_of_moved() const { return strip_sheets() + setting_sheets; }
  /// Number of the first E sheet that shows how panels are set; empty where there is none.
  std::string setting_sheet() const;
  /// Number of the P sheet that shows a mark: where the set has none, as if each had its own.
  std::string panel_sheet(int mark) const;
  /// Number of the E sheet that shows a panel.
  const std::string& erection_sheet(int panel) const;
};

/// Fills `plan.moved` and adds the sheets for it.
void plan_erection_words(SetPlan& plan, const SetInput& input);

SetPlan plan_set(const SetInput& input);

/// Adds the general sheets that the index of all others needs, in front; blank sheets at the same
/// places of `drawn`, if that is given.
void plan_general(SetPlan& plan, const SetInput& input,
                  std::vector<paper::Sheet>* drawn = nullptr);

/// Details and panel sheets alone, as plan_set() plans them.
SetPlan plan_panel_sheets(const SetInput& input);

/// "A", "B" ... as the trade leaves out what reads as a figure or another letter.
std::string view_letter(std::size_t index);

/// The same tables, the sheets of marks named as the set has them.
std::vector<Table> with_panel_sheets(std::vector<Table> tables, const SetInput& input,
                                     const SetPlan& plan);

/// "PANEL DP03", "PANELS DP03, DP04".
std::string panel_title(const SetInput& input, const std::vector<int>& marks);

/// Which of these marks stand on one sheet: each a sheet of its own but for small ones, whose sheets
/// would be poorly used at the largest scale, and that fit beside each other. In their order.
std::vector<std::vector<int>> share_panel_sheets(const SetInput& input, const SetPlan& plan,
                                                 const std::vector<int>& marks);

/// How a long mark is parted over two sheets, the back part first; none: it stays on one. Parted is what
/// breaks do not help, where half the length has at least twice the scale.
std::optional<std::pair<PanelPart, PanelPart>> part_panel(const SetInput& input, const SetPlan& plan, int mark);

/// True where the style's sheets are so small that a mark's tables and notes need a second sheet.
bool second_panel_sheet(const paper::Style& style);

/// The tables of the set on as few T sheets as they need: rows never cut, long tables in columns
/// with their heads repeated, small ones beside or below others. Series, title and parts are
/// filled.
std::vector<SheetPlan> arrange_tables(const SetInput& input,
                                      const std::vector<paper::TableData>& tables);

/// The drawing functions, one a series. `plan.sheets[index]` is what to draw.
paper::Sheet draw_cover(const SetInput& input, const SetPlan& plan, std::size_t index);
paper::Sheet draw_erection(const SetInput& input, const SetPlan& plan, std::size_t index);
paper::Sheet draw_panel(const SetInput& input, const SetPlan& plan, std::size_t index);
paper::Sheet draw_details(const SetInput& input, const SetPlan& plan, std::size_t index);
paper::Sheet draw_table_sheet(const SetInput& input, const SetPlan& plan, std::size_t index);
paper::Sheet draw_calculations(const SetInput& input, const SetPlan& plan, std::size_t index);

}  // namespace deckquire::sheets
