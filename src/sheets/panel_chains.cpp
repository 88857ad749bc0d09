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
  PanelPoint datum;
  double run = 0;  // paper mm that running values take across their line

  /// Distances along from the square line through the datum corner.
  ChainPoint at_x(double x, double extension) const {
    return {view(x, 0).x, mm(x - datum.x), extension};
  }
  /// Distances across; the datum corner lies at 0.
  ChainPoint at_y(double y, double extension) const {
    return {view(0, y).y, mm(y - datum.y), extension};
  }
  double low() const { return view(0, box.low.y).y; }
  double high() const { return view(0, box.high.y).y; }
  double back() const { return view(job.shape().square() ? 0 : box.low.x, 0).x; }
  double ahead() const { return view(box.high.x, 0).x; }
  /// Paper x of the end faces at y.
  double back(double y) const { return view(job.shape().back_x(y), 0).x; }
  double ahead(double y) const {
    return job.shape().square() ? ahead() : view(job.shape().ahead_x(y), 0).x;
  }
  ChainLine line(Heading heading, double across, bool bracketed = false) const {
    return job.chain_line(heading, across, bracketed);
  }
  /// Paper y of the panel's edge at x, on its lower or upper side.
  double edge(double x, bool lower) const {
    const auto spans =
        across(job.shape().outline, std::clamp(x, box.low.x + 1e-3, box.high.x - 1e-3));
    if (spans.empty()) return lower ? low() : high();
    return view(0, lower ? spans.front().first : spans.back().second).y;
  }
};

void running_x(const Dimensioning& d, bool lower, const std::vector<double>& places,
               double line_y) {
  if (places.empty()) return;
  std::vector<ChainPoint> points;
  const std::optional<PanelPart>& part = d.job.own.part;
  // Tied across the match line: its own distance stands, in brackets, at both ends of the chain.
  const auto tie = [&] {
    const double beyond = lower ? -match_over : match_over;
    ChainPoint p = d.at_x(part->at, (lower ? d.low() : d.high()) + beyond);
    p.auxiliary = true;
    points.push_back(p);
  };
  if (d.job.shows_back()) points.push_back(d.at_x(d.datum.x, d.edge(d.datum.x, lower)));
  if (d.job.ahead_part()) tie();
  for (double x : places) points.push_back(d.at_x(x, d.edge(x, lower)));
  if (part && !part->ahead) tie();
  paper::running(d.board, d.line(Heading::horizontal, line_y), points, d.job.ahead_part());
}

void running_y(const Dimensioning& d, const std::vector<double>& places, double line_x) {
  if (places.empty()) return;
  std::vector<ChainPoint> points{d.at_y(d.datum.y, d.back(d.datum.y))};
  for (double y : places) points.push_back(d.at_y(y, d.back(y)));
  paper::running(d.board, d.line(Heading::vertical, line_x), points);
}

std::vector<double> curb_feet_at_back(const Dimensioning& d) {
  const PanelShape& s = d.job.shape();
  std::vector<double> out;
  if (s.square()) {
    for (const CurbCut& c : curbs_at(s, d.job.deck, 1e-3)) out.push_back(c.inner);
    return out;
  }
  for (const CurbRun& run : s.curbs) {
    const PanelPoint p = inner_foot(run).front();
    if (std::abs(p.x - s.back_x(p.y)) < 1) out.push_back(p.y);
  }
  return out;
}

/// Curb, high line, curb across the back end, and the width in all.
void widths_at_back(const Dimensioning& d, double line_x) {
  const PanelShape& s = d.job.shape();
  std::vector<double> at{s.right_back, s.left_back};
  for (double y : curb_feet_at_back(d)) at.push_back(y);
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
    points.push_back(d.at_y(y, meets && !edge ? line_x + 4 : d.back(y)));
  }
  // From outside in: the lines of the outer one break around the figures of the inner one.
  paper::dimension(d.board,
                   d.line(Heading::vertical, line_x - 1.5 * d.board.style().next_dimension),
                   points.front(), points.back());
  if (points.size() > 2) paper::chain(d.board, d.line(Heading::vertical, line_x), points);
}

/// Width of the ahead end, and how far its corners stand off those of the back end.
void widths_at_ahead(const Dimensioning& d) {
  const PanelShape& s = d.job.shape();
  const paper::Style& style = d.board.style();
  const bool same =
      std::abs(s.right_back - s.right_ahead) < 0.5 && std::abs(s.left_back - s.left_ahead) < 0.5;
  std::vector<double> at{s.right_back, s.right_ahead, s.left_ahead, s.left_back};
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 0.5; }),
           at.end());
  std::vector<ChainPoint> points;
  for (double y : at) points.push_back(d.at_y(y, d.ahead(y)));
  const bool corners = !same && points.size() > 2;
  if (same && tight(style)) return;  // the check of a rectangle's width needs air
  const double x = d.ahead() + style.first_dimension;
  paper::dimension(
      d.board, d.line(Heading::vertical, corners ? x + 1.5 * style.next_dimension : x, same),
      d.at_y(s.right_ahead, d.ahead(s.right_ahead)), d.at_y(s.left_ahead, d.ahead(s.left_ahead)));
  if (corners) paper::chain(d.board, d.line(Heading::vertical, x), points);
}

/// The values of a chain, the one of the edge itself with the name of the row joint it lies at;
/// empty at the deck's own edge.
std::vector<std::string> joint_labels(const Dimensioning& d, Side side,
                                      const std::vector<ChainPoint>& points, std::size_t edge) {
  const std::string name = row_joint_name(d.job, side);
  if (name.empty()) return {};
  const auto whole = [&](std::size_t i) {
    return whole_units(points[i].model - points[0].model, print_unit(d.job.units()));
  };
  std::vector<std::string> out;
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    out.push_back(print_whole_units(whole(i + 1) - whole(i), d.job.units()) +
                  (i == edge ? " AT ROW JOINT " + name : ""));
  return out;
}

/// Length of one edge along the panel; where an end is skewed a chain of its corners, counted from
/// the square line through the datum corner, and the overall beyond it.
void edge_lengths(const Dimensioning& d, Side side, double line_y, int outwards) {
  const bool lower = side == Side::right;
  const Corners c = corners_of(d.job.shape());
  const PanelPoint a = lower ? c.back_right : c.back_left, b = lower ? c.ahead_right : c.ahead_left;
  const auto point = [&](double x) { return d.at_x(x, d.edge(x, lower)); };
  if (d.job.shape().square()) {
    if (d.job.ahead_part() && !lower) return;
    ChainLine line = d.line(Heading::horizontal, line_y, !lower || d.job.ahead_part());
    std::vector<ChainPoint> ends{point(0), point(d.box.high.x)};
    // The end that is on the other sheet has no extension line.
    if (d.job.own.part) ends[d.job.ahead_part() ? 0 : 1].extension = line_y;
    line.labels = joint_labels(d, side, ends, 0);
    paper::chain(d.board, line, ends);
    return;
  }
  std::vector<double> at{d.datum.x, a.x, b.x, d.box.high.x};
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double u, double v) { return v - u < 0.5; }),
           at.end());
  std::vector<ChainPoint> points;
  for (double x : at) points.push_back(point(x));
  const std::size_t edge = a.x - at.front() < 0.5 ? 0 : 1;
  const bool corners = points.size() > 2;
  paper::dimension(
      d.board,
      d.line(Heading::horizontal, line_y + (corners ? outwards * corner_tier(d.board) : 0), !lower),
      points.front(), points.back());
  if (!corners) return;
  ChainLine line = d.line(Heading::horizontal, line_y);
  line.labels = joint_labels(d, side, points, edge);
  paper::chain(d.board, line, points);
}

/// From the line of running dimensions to the chain beyond them, whose figures stand above its
/// line.
double beyond_running(const Dimensioning& d) {
  return d.run + std::max(0.4 * d.board.style().next_dimension,
                          d.board.text_height(LetterUse::dimension) + 1.7);
}

void top_dimensions(const Dimensioning& d) {
  const paper::Style& style = d.board.style();
  const double zone = mark_zone(d.board), beyond = beyond_running(d);
  edge_lengths(d, Side::right, d.low() - zone - beyond, -1);
  edge_lengths(d, Side::left, d.high() + zone + beyond, 1);
  const double first = d.back() - style.first_dimension;
  if (d.job.shows_back()) widths_at_back(d, first - beyond_running(d));
  if (d.job.shows_ahead()) widths_at_ahead(d);
  running_x(d, true, feature_places(d.job, true, true, true), d.low() - zone);
  running_x(d, false, feature_places(d.job, true, true, false), d.high() + zone);
  running_y(d, feature_places(d.job, true, false, std::nullopt), first);
}

}  // namespace

void plan_dimensions(Board& board, const PanelJob& job, const PlanView& view, bool from_above) {
  const Box<PanelFrame> box = bounds(job.shape().outline);
  const double run = board.style().extension_over + 3.5 + value_width(board, job);
  const Dimensioning d{board, job, view, box, datum_corner(job.shape()), run};
  if (from_above) return top_dimensions(d);
  const double first = board.style().first_dimension;
  running_x(d, true, feature_places(job, false, true, std::nullopt),
            d.low() - soffit_air(board, job));
  running_y(d, feature_places(job, false, false, std::nullopt), d.back() - first);
}

}  // namespace deckquire::sheets
