// A finished sheet: plain data, in paper millimetres, every position decided. Writers only walk it.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <variant>
#include <vector>

#include "base/geometry.h"

namespace deckquire::paper {

using PaperPoint = Point<PaperFrame>;
using PaperBox = Box<PaperFrame>;

enum class Ink : std::uint8_t { black, accent, red, grey, pale, white };

/// Parts of a drawing that can be shown or hidden by themselves; see layer.h for what lies where.
enum class Layer : std::uint8_t {
  furniture,
  steel,
  outlines,
  features,
  marks,
  dimensions,
  notes,
  revisions
};
constexpr std::size_t layer_count = 8;

/// Index into Sheet::pens.
using PenIndex = std::uint16_t;

struct Pen {
  double width = 0.25;       // mm, positive
  std::vector<double> dash;  // mm, on and off in turn; empty: continuous
  Ink ink = Ink::black;
  std::string name;               // the style's name of it, class in the SVG: "outline"
  Layer layer = Layer::outlines;  // of what is drawn with it, unless its group has one
  friend bool operator==(const Pen&, const Pen&) = default;
};

enum class Op : std::uint8_t { move, line, curve, close };  // curve: cubic, three points

/// Lines and cubic curves. `points` holds 1, 1, 3, 0 points per op.
struct Path {
  std::vector<Op> ops;
  std::vector<PaperPoint> points;
  void move(PaperPoint p);
  void line(PaperPoint p);
  void curve(PaperPoint a, PaperPoint b, PaperPoint c);
  void close();
  void segment(PaperPoint a, PaperPoint b);
  void polygon(const std::vector<PaperPoint>& ring);
  void box(const PaperBox& b);
  void circle(PaperPoint centre, double radius);
  void append(const Path& other);
  bool empty() const { return ops.empty(); }
};

struct Stroke {
  PenIndex pen = 0;
  Path path;
};

struct Fill {  // even-odd
  Ink ink = Ink::white;
  Path path;
};

struct Text {
  PaperPoint at;        // left end of the base line
  double angle = 0;     // radians, counter-clockwise; 0 or pi/2 on a proper sheet
  double height = 2.5;  // of capitals, mm
  double width = 0;     // measured, mm
  Ink ink = Ink::black;
  bool masked = false;         // a white box lies under it, so it may stand on lines
  std::string text;            // clean UTF-8
  Layer layer = Layer::notes;  // unless its group has one
};

/// Opens a group. Groups nest; every one is closed. In SVG a <g> with id, class and <title>, inside
/// an <a> when there is a target; in PDF a link over the box of its contents.
struct GroupStart {
  std::string id;      // unique on the sheet, may be empty; letters, digits, '-', '.', '_'
  std::string kind;    // class: "panel", "feature", "view" ...
  std::string title;   // tooltip, may be empty
  std::string target;  // "" or sheet number, or "sheet#id": where a click leads
};
struct GroupEnd {};

using Item = std::variant<Stroke, Fill, Text, GroupStart, GroupEnd>;

/// Items [first, first + count) of a sheet that name its revision, or count the set: letter, date,
/// names, status, "3 of 12", the revision block; and the room they have.
struct RevisionItems {
  std::size_t first = 0, count = 0;
  PaperBox box;
};

struct Sheet {
  std::string number;            // "E01"
  std::string title;             // "Erection plan, 0+000 to 0+032"
  std::string revision;          // "A"
  double width = 0, height = 0;  // trimmed, mm
  std::vector<Pen> pens;
  std::vector<Item> items;
  std::vector<RevisionItems> revision_items = {};  // in their order; no part of dump()
  /// Where the words of callouts stand, by the words, with " #2" of the second that says the same; and
  /// where they stood when the sheet was issued: there they stay, if they can. No part of dump().
  std::map<std::string, PaperPoint> callouts = {}, kept_callouts = {};
};

/// Where a Text's ink is: its box turned by its angle (0 and +-90 degrees only), 0 to height, with
/// no room for tails.
PaperBox text_box(const Text& t);

/// What the white box under a masked text covers: its box with a fifth of its height all round.
PaperBox mask_box(const Text& t);

/// The box of a path, curves by their control points; empty paths give a box at the origin.
PaperBox bounds(const Path& path);

/// The sheet as lines of text, one an item, rounded to 0.01 mm: for tests and fingerprints.
std::string dump(const Sheet& sheet);

/// What makes a sheet unfit to print: coordinates that are not finite or outside the paper, unclean
/// text, pens out of range, groups that do not close, ids used twice, text below `least_height`,
/// text over text, unmasked text over lines as wide as the outlines (0.5 mm at the most), anything
/// outside the frame `inside`. One line a fault; empty when sound.
std::vector<std::string> faults(const Sheet& sheet, double least_height, const PaperBox& inside);

}  // namespace deckquire::paper
