// Dimensions round the plans of a panel sheet.
#include <algorithm>
#include <cmath>

#include "paper/dimension.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::ChainLine;
using paper::ChainPoint;
using paper::Heading;
using paper::LetterUse;
using PlanView = paper::View<PanelFrame>;

struct Dimensioning {
  Board& board;
  const PanelJob& job;
  const PlanView& view;
  Box<PanelFrame> box;
  double run = 0;  // paper mm that running values take across their line

  ChainPoint at_x(double x, double extension) const { return {view(x, 0).x, mm(x), extension}; }
  /// Distances across count from the datum corner.
  ChainPoint at_y(double y, double extension) const {
    return {view(0, y).y, mm(y - job.datum_y()), extension};
  }
  double low() const { return view(0, box.low.y).y; }
  double high() const { return view(0, box.high.y).y; }
  double back() const { return view(0, 0).x; }
  double ahead() const { return view(box.high.x, 0).x; }
  ChainLine line(Heading heading, double across, bool bracketed = false) const {
    return job.chain_line(heading, across, bracketed);
  }
  /// Paper y of the panel's edge at x, on its lower or upper side.
  double edge(double x, bool lower) const {
    const auto spans = across(job.shape().outline, std::clamp(x, 1e-3, box.high.x - 1e-3));
    if (spans.empty()) return lower ? low() : high();
    return view(0, lower ? spans.front().first : spans.back().second).y;
  }
};

void running_x(const Dimensioning& d, bool lower, const std::vector<double>& places,
               double line_y) {
  if (places.empty()) return;
  std::vector<ChainPoint> points{d.at_x(0, d.edge(0, lower))};
  for (double x : places) points.push_back(d.at_x(x, d.edge(x, lower)));
  paper::running(d.board, d.line(Heading::horizontal, line_y), points);
}

void running_y(const Dimensioning& d, const std::vector<double>& places, double line_x) {
  if (places.empty()) return;
  std::vector<ChainPoint> points{d.at_y(d.job.datum_y(), d.back())};
  for (double y : places) points.push_back(d.at_y(y, d.back()));
  paper::running(d.board, d.line(Heading::vertical, line_x), points);
}

/// Curb, high line, curb across the back end, and the width in all.
void widths_at_back(const Dimensioning& d, double line_x) {
  const PanelShape& s = d.job.shape();
  std::vector<double> at{s.right_back, s.left_back};
  for (const CurbCut& c : curbs_at(s, d.job.deck, 1e-3)) at.push_back(c.inner);
  if (s.fall == Fall::crown && s.high_line > s.right_back + 1 && s.high_line < s.left_back - 1)
    at.push_back(s.high_line);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 0.5; }),
           at.end());
  // Between the edges the extension lines stop short of running values that stand in their way.
  const std::vector<double> running = feature_places(d.job, true, false, std::nullopt);
  const double near = 1.2 * d.board.text_height(LetterUse::dimension);
  std::vector<ChainPoint> points;
  for (double y : at) {
    const bool meets = std::any_of(running.begin(), running.end(),
                                   [&](double r) { return std::abs(d.view.size(r - y)) < near; });
    const bool edge = y == at.front() || y == at.back();
    points.push_back(d.at_y(y, meets && !edge ? line_x + 4 : d.back()));
  }
  if (points.size() > 2) paper::chain(d.board, d.line(Heading::vertical, line_x), points);
  paper::dimension(d.board,
                   d.line(Heading::vertical, line_x - 1.5 * d.board.style().next_dimension),
                   points.front(), points.back());
}

/// Width of the ahead end, and how far its corners stand off those of the back end.
void widths_at_ahead(const Dimensioning& d) {
  const PanelShape& s = d.job.shape();
  const paper::Style& style = d.board.style();
  const bool same =
      std::abs(s.right_back - s.right_ahead) < 0.5 && std::abs(s.left_back - s.left_ahead) < 0.5;
  double x = d.ahead() + style.first_dimension;
  if (!same) {
    std::vector<double> at{s.right_back, s.right_ahead, s.left_ahead, s.left_back};
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 0.5; }),
             at.end());
    std::vector<ChainPoint> points;
    for (double y : at) points.push_back(d.at_y(y, d.ahead()));
    if (points.size() > 2) {
      paper::chain(d.board, d.line(Heading::vertical, x), points);
      x += 1.5 * style.next_dimension;
    }
  }
  if (same && tight(style)) return;  // the check of a rectangle's width needs air
  paper::dimension(d.board, d.line(Heading::vertical, x, same), d.at_y(s.right_ahead, d.ahead()),
                   d.at_y(s.left_ahead, d.ahead()));
}

void top_dimensions(const Dimensioning& d) {
  const paper::Style& style = d.board.style();
  const double zone = mark_zone(d.board), beyond = d.run + style.next_dimension * 0.4;
  running_x(d, true, feature_places(d.job, true, true, true), d.low() - zone);
  running_x(d, false, feature_places(d.job, true, true, false), d.high() + zone);
  paper::dimension(d.board, d.line(Heading::horizontal, d.low() - zone - beyond),
                   d.at_x(0, d.edge(0, true)), d.at_x(d.box.high.x, d.edge(d.box.high.x, true)));
  paper::dimension(d.board, d.line(Heading::horizontal, d.high() + zone + beyond, true),
                   d.at_x(0, d.edge(0, false)), d.at_x(d.box.high.x, d.edge(d.box.high.x, false)));
  const double first = d.back() - style.first_dimension;
  running_y(d, feature_places(d.job, true, false, std::nullopt), first);
  widths_at_back(d, first - d.run - style.next_dimension * 0.4);
  widths_at_ahead(d);
}

}  // namespace

void plan_dimensions(Board& board, const PanelJob& job, const PlanView& view, bool from_above) {
  const Box<PanelFrame> box = bounds(job.shape().outline);
  const double run = board.style().extension_over + 3.5 + value_width(board, job);
  const Dimensioning d{board, job, view, box, run};
  if (from_above) return top_dimensions(d);
  const double first = board.style().first_dimension;
  running_x(d, true, feature_places(job, false, true, std::nullopt), d.low() - first);
  running_y(d, feature_places(job, false, false, std::nullopt), d.back() - first);
}

}  // namespace deckquire::sheets
