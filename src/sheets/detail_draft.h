// One view of a detail, drawn in millimetres of the real thing: cut faces, fittings, chains, notes.
#pragma once

#include <array>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "paper/callout.h"
#include "paper/dimension.h"
#include "paper/view.h"
#include "sheets/panel_drawing.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

using Cut = Ring<SectionFrame>;
using CutBox = Box<SectionFrame>;

enum class Edge { left, right, below, above };

/// What was used on a sheet of details, for its legend and scale bars.
struct DetailUse {
  std::set<std::string> materials;  // hatches
  std::set<int> ratios;
};

/// The window of the model that a view shows, and at which scale.
struct Window {
  CutBox box;
  int ratio = 5;
};

/// The core of a thread over its nominal diameter, as drawn.
constexpr double drawn_core = 0.84;

/// Draws one view with the lower left corner of its window at `corner`.
class Draft {
 public:
  Draft(paper::Board& board, const SetInput& input, const Window& window, paper::PaperPoint corner,
        DetailUse* use);

  /// Hatched faces, outlined except along the window's border. `over`: hides what lies under it.
  void faces(const std::vector<Cut>& rings, const std::string& material,
             paper::PenUse pen = paper::PenUse::cut, bool over = false);
  /// Every part of a cut across a panel that lies in the window.
  void section(const PanelSection& section);
  void line(paper::PenUse pen, SectionPoint a, SectionPoint b);
  void path(paper::PenUse pen, const std::vector<SectionPoint>& points);
  void ring(paper::PenUse pen, const Cut& ring);
  void box(paper::PenUse pen, const CutBox& box);
  /// A tapped hole seen from above, as ISO 6410-1 shows it: core as a circle, thread as three
  /// quarters of one.
  void tapped_hole(SectionPoint centre, double thread);
  void circle(paper::PenUse pen, SectionPoint centre, double diameter);
  void clear(const CutBox& box);  // white
  void centre_cross(SectionPoint at, double reach);
  /// A break at the window's border between two levels (or two x for above and below).
  void broken_edge(Edge edge, double from, double to);

  /// A chain beside the window through the given points; tier 0 is the nearest.
  void chain(Edge edge, int tier, std::vector<SectionPoint> points);
  /// A single dimension inside the view, its line at `at` (x for an upright one, else z).
  void gauge(paper::Heading heading, double at, SectionPoint a, SectionPoint b);

  void note(Edge side, SectionPoint site, const std::string& text);
  /// Places the notes, then the chains from outside in, so that what they cross breaks around their
  /// figures; then, when not empty, a title with the scale under everything.
  void finish(const std::string& title);

  std::string print(Length a) const { return print_length(a, units_); }
  paper::PaperPoint at(SectionPoint p) const { return view_(p); }
  double on_paper(double model) const { return view_.size(model); }
  paper::Board& board() { return board_; }

 private:
  bool on_border(SectionPoint a, SectionPoint b) const;
  double column(Edge side) const;
  void place_notes(Edge side);
  void draw_chains();

  paper::Board& board_;
  UnitSystem units_;
  Window window_;
  paper::View<SectionFrame> view_;
  DetailUse* use_;
  std::size_t first_item_;
  std::array<int, 4> tiers_{0, 0, 0, 0};
  std::array<std::vector<paper::Callout>, 4> notes_;
  struct Chain {
    int tier = 0;
    paper::ChainLine line;
    std::vector<paper::ChainPoint> points;
  };
  std::vector<Chain> chains_;
};

/// A piece of a sheet whose size is known before it is placed. `box` is relative to its corner.
struct Piece {
  std::function<void(paper::Board&, paper::PaperPoint, DetailUse*)> draw;
  paper::PaperBox box;
  int ratio = 0;  // of its first view
};

/// Draws on a sheet that is thrown away to find the size.
Piece measured(const SetInput& input,
               std::function<void(paper::Board&, paper::PaperPoint, DetailUse*)> draw);
/// Feet on one line, `gap` between.
Piece beside(const std::vector<Piece>& pieces, double gap);
/// From above down, corners under one another, so that views stay in projection.
Piece stacked(const std::vector<Piece>& pieces, double gap);

/// Everything that was drawn from that item on.
paper::PaperBox drawn_box(const paper::Sheet& sheet, std::size_t first);

/// An upright or level rectangle.
Cut rectangle(double x0, double y0, double x1, double y1);

}  // namespace deckquire::sheets
