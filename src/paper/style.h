// A style: the one flat table of everything about looks, read from styles/*.xml with inheritance.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/findings.h"
#include "base/text.h"
#include "paper/sheet.h"

namespace deckquire::paper {

/// What a line is for. The style gives each a width, dash and ink.
enum class PenUse {
  outline,      // visible edges of our panels
  cut,          // outlines of cut faces
  thin,         // visible edges that matter less (chamfers, lips)
  hidden,       // edges behind
  centre,       // axes, hole pitch lines
  dimension,    // dimension, extension and leader lines
  hatch,        // hatching of cut faces
  stipple,      // wearing surface
  steel,        // girders, supports, splices by others: seen
  steel_hidden, // the same under the deck
  ground,       // concrete, abutments
  grid,         // profile grid
  match,        // match lines
  feature,      // features of our panels, accent
  water,        // flow arrows
  mark,         // mark symbols, callout pills, orientation arrows
  frame,        // sheet frame
  table,        // table rules
  table_heavy,  // head and foot rules
  revision,     // clouds
  neighbour,    // repeated part of a neighbouring sheet or strip
  count_
};

/// What letters are for. The style gives each a height.
enum class LetterUse {
  cover_title,   // 10
  sheet_number,  // 7
  sheet_title,   // 5
  view_title,    // 5
  mark,          // 5 on erection plans
  serial,        // 3.5
  heading,       // 3.5 capitals, above tables and notes
  note,          // 2.5 or 3.5
  dimension,
  table,
  table_head,
  callout,       // number in a pill
  caption,       // title block captions
  count_
};

/// Ends of dimension lines.
enum class Terminator { tick, arrow };

/// How views of one thing stand about each other (ISO 5456-2): in the third angle a view stands on
/// the side that it is seen from, in the first angle on the opposite side.
enum class Projection { third, first };

/// Hatches of cut faces, by material part.
struct Hatch {
  std::string material;  // laminate, core, curb, steel, concrete, surface, sealant
  double angle = 45;     // degrees
  double pitch = 2;      // mm
  double second = 0;     // pitch of a crossing hatch at +90 degrees; 0 none
  bool dots = false;     // stipple instead of lines
  bool solid = false;    // fill (thin skins)
};

struct TitleField {
  std::string caption;  // "Project"
  std::string value;    // a template: "{project.title}"; see sheets/furniture.h for the names
  double width = 0;     // share of the row
  int row = 0;          // from the top of the block
  bool large = false;
};

struct Style {
  std::string name;
  double width = 841, height = 594;      // trimmed sheet
  double margin_left = 20, margin = 10;  // to the frame
  double zone = 50;                      // length of a reference field; 0: no zones
  double text_column = 180;              // width of the text space at the right
  double gap = 5;                        // air between neighbours
  double least_height = 2.5;             // of any letters
  UnitSystem units = UnitSystem::metric; // default; the project's units rule
  Terminator terminator = Terminator::tick;
  double terminator_size = 2.5;
  Projection projection = Projection::third;  // the symbol in the title block
  double first_dimension = 10, next_dimension = 8;  // from the outline; pitch of tiers
  double extension_gap = 1.5, extension_over = 2;
  double row_height = 6;                 // table rows on T sheets
  double compact_row_height = 4.5;       // tables in the text column
  int band_every = 5;                    // faint band every n-th row, 0 none
  double stamp_width = 70, stamp_height = 50;
  bool keep_clouds = false;              // of all revisions of a sheet, not of its last alone
  bool keep_answered = false;            // redlines that are answered and not closed
  bool keep_deltas = true;               // of earlier revisions, where their clouds are gone
  std::array<Pen, static_cast<int>(PenUse::count_)> pens;
  std::array<double, static_cast<int>(LetterUse::count_)> letters{};
  std::array<std::string, 6> inks;       // by Ink: "#rrggbb"
  std::array<bool, layer_count> hidden{};  // by Layer: there, but not shown unless asked for
  std::vector<Hatch> hatches;
  std::vector<TitleField> title_fields;
  std::vector<std::string> fonts;        // file names, first choice first
  std::vector<int> scales;               // allowed reductions, rising: 1 2 5 10 20 25 50 ...
  std::vector<std::string> scale_names;  // beside them when not "1:n": "1/4\" = 1'-0\""; may be empty

  const Pen& pen(PenUse u) const { return pens[static_cast<std::size_t>(u)]; }
  double letters_of(LetterUse u) const { return letters[static_cast<std::size_t>(u)]; }
  const Hatch& hatch(const std::string& material) const;
  /// "1:50" or the style's own name of that scale.
  std::string scale_name(int ratio) const;
  /// Inside of the frame.
  PaperBox frame() const {
    return {{margin_left, margin}, {width - margin, height - margin}};
  }
  /// Frame less the text column at its right.
  PaperBox drawing_space() const {
    PaperBox f = frame();
    f.high.x -= text_column;
    return f;
  }
  PaperBox text_space() const {
    PaperBox f = frame();
    f.low.x = f.high.x - text_column;
    return f;
  }
};

/// The style that every other starts from: the defaults of the table of properties (A1, metric).
/// styles/base.xml writes the same out for a drafter to see.
Style default_style();

/// The words that style files and the SVG's classes use: "steel-hidden", "view-title", "accent".
const char* name_of(PenUse use);
const char* name_of(LetterUse use);
const char* name_of(Ink ink);

/// Reads styles/<name>.xml, or the file itself when `name` ends in .xml, with what it is based on.
/// Unknown elements and properties, values out of range and loops of inheritance go to `findings`.
/// FileError when a file cannot be read. `folder`: where named styles are.
Style read_style(const std::string& name, const std::string& folder, Findings& findings);

/// One property set over a style, in the words of a style file: element "pen", of "outline",
/// property "width", value "0.35"; `of` is empty for elements that a style has once.
struct StyleChange {
  std::string element, of, property, value;
  Place place;
};

/// Sets these over a style, in their order. What is wrong with one goes to `findings` at its place,
/// with the words that it would have in a style file.
void change_style(Style& style, const std::vector<StyleChange>& changes, Findings& findings);

/// Every property with type, default and meaning, as Markdown: from the same tables as the reader.
std::string style_reference();

}  // namespace deckquire::paper
