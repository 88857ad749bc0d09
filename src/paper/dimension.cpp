#include "paper/dimension.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "paper/callout.h"

namespace deckquire::paper {

namespace {

constexpr double text_lift = 0.9;    // base line of a value above its dimension line
constexpr double text_air = 1.2;     // between a value and the ends of its space
constexpr double value_air = 1.5;    // between two values that stand outside their spaces
constexpr double true_equal = 1e-5;  // mm: bays of one true length (division leaves nanometres)

/// Turns "along the chain" and "above its text" into paper. Above is up for a horizontal chain and
/// to the left for a vertical one, whose text reads from the right.
struct Axes {
  Heading heading;
  double line;
  PaperPoint at(double along, double above) const {
    if (heading == Heading::horizontal) return {along, line + above};
    return {line - above, along};
  }
  /// How far a paper coordinate across the chain lies above the line.
  double above(double across) const {
    return heading == Heading::horizontal ? across - line : line - across;
  }
  bool upright() const { return heading == Heading::horizontal; }
};

/// One value with the space it stands for.
struct Space {
  std::size_t first = 0, last = 0;  // points at its ends
  std::string label;
};

/// Distance of a point from the chain's first, in print units.
std::int64_t printed(const ChainLine& line, const std::vector<ChainPoint>& points, std::size_t i) {
  return whole_units(points[i].model - points.front().model, print_unit(line.units));
}

std::string bracketed(bool auxiliary, std::string s) {
  return auxiliary ? "(" + s + ")" : s;
}

/// Number of spaces from `first` on that print the same value.
std::size_t printed_run(const std::vector<std::int64_t>& values, std::size_t first) {
  std::size_t n = first + 1;
  while (n < values.size() && values[n] == values[first]) ++n;
  return n - first;
}

/// Number of spaces from `first` on that have the same true length.
std::size_t true_run(const std::vector<ChainPoint>& points, std::size_t first) {
  const auto bay = [&](std::size_t i) { return (points[i + 1].model - points[i].model).in_mm(); };
  std::size_t n = first + 1;
  while (n + 1 < points.size() && std::abs(bay(n) - bay(first)) <= true_equal) ++n;
  return n - first;
}

std::vector<Space> spaces_of(const ChainLine& line, const std::vector<ChainPoint>& points,
                             const std::vector<std::int64_t>& values) {
  std::vector<Space> out;
  for (std::size_t i = 0; i < values.size();) {
    std::size_t n = line.merge && line.labels.empty() ? printed_run(values, i) : 1;
    std::string label;
    const auto print = [&](std::int64_t v) { return print_whole_units(v, line.units); };
    if (!line.labels.empty()) {
      label = i < line.labels.size() ? line.labels[i] : "";
    } else if (n >= 3 && values[i] > 0) {
      label = fmt::format("{} @ {} = {}", n, print(values[i]),
                          print(static_cast<std::int64_t>(n) * values[i]));
    } else if (line.merge && (n = true_run(points, i)) >= 3 && values[i] > 0) {
      // Bays of one true length that the print unit cannot state each alone.
      label = fmt::format("{} EQUAL = {}", n,
                          print(printed(line, points, i + n) - printed(line, points, i)));
    } else {
      n = 1;
      label = print(values[i]);
    }
    out.push_back({i, i + n, bracketed(line.bracketed, label)});
    i += n;
  }
  return out;
}

void tick(Board& board, const Axes& axes, double along) {
  const double r = board.style().terminator_size * 0.3536;  // 45 degrees, half the stroke
  const PaperPoint c = axes.at(along, 0);
  board.line(PenUse::outline, {c.x - r, c.y - r}, {c.x + r, c.y + r});
}

/// A filled head with its tip at `along`, coming from the side that `from` names (-1 or +1).
void head(Board& board, const Axes& axes, double along, int from) {
  const double size = board.style().terminator_size;
  Path p;
  p.polygon({axes.at(along, 0), axes.at(along + from * size, size / 6),
             axes.at(along + from * size, -size / 6)});
  board.fill(Ink::black, p);
}

void dot(Board& board, PaperPoint at, double diameter) {
  Path p;
  p.circle(at, diameter / 2);
  board.fill(Ink::black, p);
}

void extension_lines(Board& board, const Axes& axes, const std::vector<ChainPoint>& points) {
  const Style& s = board.style();
  for (const ChainPoint& p : points) {
    const double from = axes.above(p.extension);
    const double out = from <= 0 ? 1.0 : -1.0;  // from the object towards the line
    if (std::abs(from) <= s.extension_gap) continue;
    board.line(PenUse::dimension, axes.at(p.paper, from + out * s.extension_gap),
               axes.at(p.paper, out * s.extension_over));
  }
}

/// True when the object lies below the line, so that outside is above it.
bool outside_is_above(const Axes& axes, const std::vector<ChainPoint>& points) {
  double sum = 0;
  for (const ChainPoint& p : points) sum += axes.above(p.extension);
  return sum <= 0;
}

bool arrows_fit(const Board& board, double space) {
  return space >= 3 * board.style().terminator_size;
}

/// Arrows inside wide spaces; a narrow space is pointed at from outside, and two narrow ones in
/// line are parted by a dot.
void arrows(Board& board, const Axes& axes, const std::vector<double>& at) {
  const double size = board.style().terminator_size;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const bool wide_before = i > 0 && arrows_fit(board, at[i] - at[i - 1]);
    const bool wide_after = i + 1 < at.size() && arrows_fit(board, at[i + 1] - at[i]);
    if (wide_before) head(board, axes, at[i], -1);
    if (wide_after) head(board, axes, at[i], +1);
    if (wide_before || wide_after) continue;
    if (i == 0 || i + 1 == at.size()) {
      const int side = i == 0 ? -1 : 1;
      head(board, axes, at[i], side);
      board.line(PenUse::dimension, axes.at(at[i], 0), axes.at(at[i] + side * 2 * size, 0));
    } else {
      dot(board, axes.at(at[i], 0), 1);
    }
  }
}

void terminators(Board& board, const Axes& axes, const std::vector<double>& at) {
  if (board.style().terminator == Terminator::arrow) return arrows(board, axes, at);
  for (double a : at) tick(board, axes, a);
}

/// Values wider than their space: a row of their own outside the line, as near to their spaces as
/// they can stand, each led to its space.
void outside_values(Board& board, const Axes& axes, const std::vector<Space>& list,
                    const std::vector<double>& middles, bool above) {
  std::vector<double> sizes;
  for (const Space& s : list) {
    sizes.push_back(board.text_width(LetterUse::dimension, s.label) + value_air);
  }
  const std::vector<double> places = spread(middles, sizes, -1e6, 1e6);
  const double h = board.text_height(LetterUse::dimension);
  const double base = above ? 2 * text_lift + h + 0.4 : -1.3 - h;
  const double near = above ? base - 0.3 : -1.0;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const double half = (sizes[i] - value_air) / 2;
    board.masked_text(LetterUse::dimension, axes.at(places[i], base), list[i].label, Align::centre,
                      Stand::base, axes.upright());
    const double foot = std::clamp(middles[i], places[i] - half, places[i] + half);
    Path leader;
    leader.move(axes.at(middles[i], 0));
    if (above) leader.line(axes.at(middles[i], text_lift + h));
    leader.line(axes.at(foot, near));
    board.stroke(PenUse::dimension, leader);
  }
}

/// Short strokes where the bays of a merged run meet, so that they can be counted.
void bay_strokes(Board& board, const Axes& axes, const std::vector<ChainPoint>& points,
                 const Space& space) {
  for (std::size_t i = space.first + 1; i < space.last; ++i) {
    board.line(PenUse::dimension, axes.at(points[i].paper, -1), axes.at(points[i].paper, 0));
  }
}

void draw_values(Board& board, const Axes& axes, const std::vector<ChainPoint>& points,
                 const std::vector<Space>& spaces) {
  std::vector<Space> outside;
  std::vector<double> middles;
  for (const Space& s : spaces) {
    const double a = points[s.first].paper, b = points[s.last].paper;
    bay_strokes(board, axes, points, s);
    if (s.label.empty()) continue;
    if (board.text_width(LetterUse::dimension, s.label) + 2 * text_air > b - a) {
      outside.push_back(s);
      middles.push_back((a + b) / 2);
      continue;
    }
    board.masked_text(LetterUse::dimension, axes.at((a + b) / 2, text_lift), s.label, Align::centre,
                      Stand::base, axes.upright());
  }
  outside_values(board, axes, outside, middles, outside_is_above(axes, points));
}

}  // namespace

std::vector<EqualRun> equal_runs(const std::vector<std::int64_t>& values) {
  std::vector<EqualRun> out;
  for (std::size_t i = 0; i < values.size();) {
    const std::size_t n = printed_run(values, i);
    if (n >= 3) {
      out.push_back({static_cast<int>(n), values[i]});
    } else {
      out.insert(out.end(), n, {1, values[i]});
    }
    i += n;
  }
  return out;
}

std::vector<std::int64_t> chain(Board& board, const ChainLine& line,
                                const std::vector<ChainPoint>& points) {
  if (points.size() < 2) return {};
  if (points.front().paper > points.back().paper) {  // a view drawn mirrored
    std::vector<ChainPoint> turned(points.rbegin(), points.rend());
    for (ChainPoint& p : turned) p.model = -p.model;
    ChainLine labels = line;
    std::reverse(labels.labels.begin(), labels.labels.end());
    std::vector<std::int64_t> values = chain(board, labels, turned);
    std::reverse(values.begin(), values.end());
    return values;
  }
  std::vector<std::int64_t> values;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    values.push_back(printed(line, points, i + 1) - printed(line, points, i));
  }
  const Axes axes{line.heading, line.across};
  const std::vector<Space> spaces = spaces_of(line, points, values);
  std::vector<ChainPoint> ends{points.front()};
  std::vector<double> at{points.front().paper};
  for (const Space& s : spaces) {
    ends.push_back(points[s.last]);
    at.push_back(points[s.last].paper);
  }
  const Group group(board, "", "chain");
  extension_lines(board, axes, ends);
  board.line(PenUse::dimension, axes.at(at.front(), 0), axes.at(at.back(), 0));
  terminators(board, axes, at);
  draw_values(board, axes, points, spaces);
  return values;
}

double wide_pitch(const Board& board) {
  const double h = board.text_height(LetterUse::dimension);
  return std::max(board.style().next_dimension, 2 * h + 3.2);
}

std::int64_t dimension(Board& board, const ChainLine& line, const ChainPoint& a,
                       const ChainPoint& b) {
  const std::vector<std::int64_t> values = chain(board, line, {a, b});
  return values.empty() ? 0 : values.front();
}

void running(Board& board, const ChainLine& line, const std::vector<ChainPoint>& points,
             bool continued) {
  if (points.empty()) return;
  const Style& s = board.style();
  const Axes axes{line.heading, line.across};
  const bool above = outside_is_above(axes, points);
  const double out = above ? 1 : -1, h = board.text_height(LetterUse::dimension);
  std::vector<ChainPoint> sorted = points;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const ChainPoint& a, const ChainPoint& b) { return a.paper < b.paper; });
  std::vector<double> ideals;
  for (const ChainPoint& p : sorted) ideals.push_back(p.paper);
  const std::vector<double> sizes(sorted.size(), 1.5 * h);
  const std::vector<double> places = spread(ideals, sizes, -1e6, 1e6);
  const double origin = points.front().paper;
  const bool left = (line.heading == Heading::horizontal) != above;  // text ends at the line
  const Group group(board, "", "running");
  board.line(PenUse::dimension, axes.at(ideals.front(), 0), axes.at(ideals.back(), 0));
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const ChainPoint& p = sorted[i];
    Path extension;
    extension.move(axes.at(p.paper, axes.above(p.extension) + out * s.extension_gap));
    extension.line(axes.at(p.paper, out * s.extension_over));
    extension.line(axes.at(places[i], out * (s.extension_over + 2)));
    board.stroke(PenUse::dimension, extension);
    if (p.paper == origin && continued) {
      // The line comes from the other sheet: nothing ends here.
    } else if (p.paper == origin) {
      Path circle;
      circle.circle(axes.at(p.paper, 0), 1);
      board.stroke(PenUse::dimension, circle);
    } else {
      head(board, axes, p.paper, p.paper > origin ? -1 : 1);
    }
    const std::int64_t value = std::abs(
        whole_units(continued ? p.model : p.model - points.front().model, print_unit(line.units)));
    board.masked_text(
        LetterUse::dimension, axes.at(places[i], out * (s.extension_over + 2.6)),
        bracketed(line.bracketed || p.auxiliary, print_whole_units(value, line.units)),
        left ? Align::right : Align::left, Stand::middle, !axes.upright());
  }
}

}  // namespace deckquire::paper
