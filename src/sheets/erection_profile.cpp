// The profile above a strip: level grid, deck and girder lines, grades, levels at joints.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PenUse;
using paper::Stand;

constexpr double under_girder = 5;  // paper mm kept below the girder line for the supports

/// Vertical scale, the same on every strip so that grades compare.
struct Vertical {
  int ratio = 10;
  double interval = 0;  // mm between level lines
  double datum = 0;     // level of the grid's lower edge, mm
};

double girder_drop(const SetInput& input) {
  const auto& pads = input.project.deck.pads;
  return (input.project.deck.section.depth + (pads ? pads->thickness : Length())).in_mm();
}

std::vector<Length> profile_stations(const SetInput& input, Length from, Length to) {
  std::vector<Length> at{from};
  for (Length station : input.bridge.alignment.level_breaks(from, to)) at.push_back(station);
  at.push_back(to);
  return at;
}

/// Level lines at 1, 2 or 5 times a power of ten of the unit, at least 5 mm apart on paper.
double level_interval(UnitSystem units, int ratio) {
  const double unit = units == UnitSystem::metric ? 1000.0 : 304.8;
  for (double tens = 0.01; tens < 1e4; tens *= 10)
    for (double k : {1.0, 2.0, 5.0})
      if (k * tens * unit / ratio >= 5) return k * tens * unit;
  return unit;
}

double datum_below(double level, const Vertical& v) {
  return std::floor((level - under_girder * v.ratio) / v.interval) * v.interval;
}

Vertical vertical_scale(const StripDrawing& s) {
  const double room = s.frame.profile_bottom - s.frame.profile_top - 6;
  Vertical v;
  for (int ratio : s.input.style.scales) {
    v.ratio = ratio;
    v.interval = level_interval(s.input.project.units, ratio);
    const bool fits =
        ratio >= 5 &&
        std::all_of(s.plan.strips.begin(), s.plan.strips.end(), [&](const Strip& strip) {
          return (strip.levels.high - datum_below(strip.levels.low, v)) / ratio <= room;
        });
    if (fits) break;
  }
  v.datum = datum_below(s.strip().levels.low, v);
  return v;
}

double level_y(const StripDrawing& s, const Vertical& v, double level) {
  return s.y(s.frame.profile_bottom) + (level - v.datum) / v.ratio;
}

void draw_grid(const StripDrawing& s, const Vertical& v) {
  const double top = s.y(s.frame.profile_top), bottom = s.y(s.frame.profile_bottom);
  const double places = s.input.project.units == UnitSystem::metric ? 1000.0 : 304.8;
  for (int k = 0; k < 200; ++k) {
    const double y = bottom + k * v.interval / v.ratio;
    if (y > top + 0.01) break;
    s.board.line(PenUse::grid, {s.from(), y}, {s.to(), y});
    s.board.text(LetterUse::dimension, {s.from() - 5, y},
                 decimal((v.datum + k * v.interval) / places, 2), Align::right, Stand::middle);
  }
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const double x = s.x(s.joint(j).station);
    s.board.line(PenUse::grid, {x, top}, {x, bottom});
  }
}

/// A line `below` the deck top, bending at grade points.
void level_line(const StripDrawing& s, const Vertical& v, PenUse pen, double below) {
  paper::Path path;
  for (Length station : profile_stations(s.input, s.strip().from, s.strip().to)) {
    const double level = s.input.bridge.alignment.level(station).in_mm() - below;
    const paper::PaperPoint p{s.x(station), level_y(s, v, level)};
    path.empty() ? path.move(p) : path.line(p);
  }
  s.board.stroke(pen, std::move(path));
}

void draw_supports(const StripDrawing& s, const Vertical& v) {
  for (const Support& support : s.input.bridge.supports) {
    if (!s.holds(support.station)) continue;
    const double level =
        s.input.bridge.alignment.level(support.station).in_mm() - girder_drop(s.input);
    const paper::PaperPoint tip{s.x(support.station), level_y(s, v, level)};
    paper::Path triangle;
    triangle.polygon({tip, {tip.x - 1.8, tip.y - 3}, {tip.x + 1.8, tip.y - 3}});
    s.board.stroke(PenUse::steel, std::move(triangle));
    const bool at_end = tip.x > s.to() - 10;
    s.board.masked_text(LetterUse::dimension, {tip.x + (at_end ? -3 : 3), tip.y - 2.2},
                        support.name, at_end ? Align::right : Align::left);
  }
}

std::string grade_text(double grade) {
  if (std::abs(grade) < 5e-7) return "LEVEL";
  return fmt::format("{}{} %", grade > 0 ? "+" : "-", decimal(std::abs(grade) * 100, 2));
}

/// A grade, or a parabola, as far as it lies on a strip.
struct GradeRun {
  Length from, to;
  std::optional<VerticalCurve> curve;
};

std::vector<GradeRun> grade_runs(const SetInput& input, const Strip& strip) {
  const Alignment& line = input.bridge.alignment;
  const std::vector<VerticalCurve> curves = line.vertical_curves();
  std::vector<Length> at{strip.from, strip.to};
  const auto stop = [&](Length station) {
    if (station > strip.from && station < strip.to) at.push_back(station);
  };
  for (const GradePointData& g : line.grades())
    if (g.curve == Length()) stop(g.station);
  for (const VerticalCurve& c : curves) stop(c.begin), stop(c.end);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  std::vector<GradeRun> out;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    GradeRun run{at[i], at[i + 1], std::nullopt};
    for (const VerticalCurve& c : curves)
      if (c.begin <= run.from && c.end >= run.to) run.curve = c;
    out.push_back(run);
  }
  return out;
}

std::string parabola_text(const VerticalCurve& c, UnitSystem units) {
  std::string text = "parabola, L " + print_length(c.end - c.begin, units);
  if (!c.turning) return text;
  return fmt::format("{}, {} point {}, level {}", text, c.high ? "high" : "low",
                     print_station(*c.turning, units), print_level(c.level_turning, units));
}

void draw_parabola(const StripDrawing& s, const Vertical& v, const GradeRun& run) {
  const VerticalCurve& c = *run.curve;
  const Alignment& line = s.input.bridge.alignment;
  for (Length end : {c.begin, c.end}) {
    if (end < s.strip().from || end > s.strip().to) continue;
    const double y = level_y(s, v, line.level(end).in_mm());
    s.board.line(PenUse::dimension, {s.x(end), y - 1.5}, {s.x(end), y + 1.5});
  }
  if (c.turning && *c.turning >= run.from && *c.turning <= run.to) {
    const double y = level_y(s, v, c.level_turning.in_mm());
    s.board.line(PenUse::dimension, {s.x(*c.turning), y}, {s.x(*c.turning), y + 2.5});
  }
  if (s.x(run.to) - s.x(run.from) < 10) return;  // its figures stand on the strip before or after
  const std::string text = parabola_text(c, s.input.project.units);
  const double half = s.board.text_width(LetterUse::dimension, text) / 2;
  const double x = std::clamp(s.x(run.from + (run.to - run.from) / 2), s.from() + half + 1,
                              std::max(s.from() + half + 1, s.to() - half - 1));
  double y = level_y(s, v, line.level(run.from + (run.to - run.from) / 2).in_mm()) + 4.5;
  y = std::min(y, s.y(s.frame.profile_top) - 2);
  s.board.masked_text(LetterUse::dimension, {x, y}, text);
}

void draw_grade(const StripDrawing& s, const Vertical& v, const GradeRun& run) {
  const Length middle = run.from + (run.to - run.from) / 2;
  const double grade = s.input.bridge.alignment.grade(middle);
  const double y = level_y(s, v, s.input.bridge.alignment.level(middle).in_mm()) + 3.2;
  const double x = s.x(middle);
  const auto box = s.board.masked_text(LetterUse::dimension, {x, y}, grade_text(grade));
  if (grade == 0) return;
  const double tip = grade > 0 ? box.high.x + 11 : box.low.x - 11;
  const double tail = grade > 0 ? box.high.x + 2 : box.low.x - 2;
  const double rise = 9 * std::abs(grade) * s.plan.erection_ratio / v.ratio;
  paper::arrow(s.board, PenUse::dimension, {tail, box.low.y + 0.8}, {tip, box.low.y + 0.8 + rise},
               2.5);
}

void draw_grades(const StripDrawing& s, const Vertical& v) {
  for (const GradeRun& run : grade_runs(s.input, s.strip()))
    run.curve ? draw_parabola(s, v, run) : draw_grade(s, v, run);
}

void row_value(const StripDrawing& s, double x, double below, const std::string& text) {
  if (s.frame.upright)
    s.board.text(LetterUse::dimension, {x, s.y(below) + 0.8}, text, Align::centre);
  else
    s.board.text(LetterUse::dimension, {x, s.y(below) + 0.8}, text, Align::left, Stand::middle,
                 false);
}

/// Room between the values at the joints for one more.
bool clear_of_joints(const StripDrawing& s, Length station, const std::string& text) {
  const double letters = s.letters(LetterUse::dimension);
  const double room =
      s.frame.upright ? s.board.text_width(LetterUse::dimension, text) + 2 : 1.6 * letters;
  for (int j = s.first_joint(); j <= s.last_joint(); ++j)
    if (std::abs(s.x(s.joint(j).station) - s.x(station)) < room) return false;
  return true;
}

void draw_levels(const StripDrawing& s) {
  const UnitSystem units = s.input.project.units;
  const Alignment& line = s.input.bridge.alignment;
  const std::string unit = units == UnitSystem::metric ? "m" : "ft";
  const double left = s.from() - s.frame.left;
  for (double below : {s.frame.deck_level, s.frame.girder_level})
    s.board.line(PenUse::grid, {left, s.y(below)}, {s.to(), s.y(below)});
  s.board.text(LetterUse::dimension, {left, s.y(s.frame.deck_level) + 0.8}, "Deck top, " + unit);
  s.board.text(LetterUse::dimension, {left, s.y(s.frame.girder_level) + 0.8},
               "Girder top, " + unit);
  for (int j = s.first_joint(); j <= s.last_joint(); ++j)
    row_value(s, s.x(s.joint(j).station), s.frame.deck_level,
              print_level(line.level(s.joint(j).station), units));
  for (const Support& support : s.input.bridge.supports) {
    if (!s.holds(support.station)) continue;
    const std::string deck = print_level(line.level(support.station), units);
    row_value(s, s.x(support.station), s.frame.girder_level,
              print_level(line.level(support.station) - mm(girder_drop(s.input)), units));
    if (clear_of_joints(s, support.station, deck))
      row_value(s, s.x(support.station), s.frame.deck_level, deck);
  }
}

void draw_scales(const StripDrawing& s, const Vertical& v) {
  const double left = s.from() - s.frame.left, d = s.letters(LetterUse::dimension);
  const double times = static_cast<double>(s.plan.erection_ratio) / v.ratio;
  std::vector<std::string> lines{"PROFILE", "H " + s.input.style.scale_name(s.plan.erection_ratio),
                                 "V " + s.input.style.scale_name(v.ratio)};
  if (times > 1.001) lines.push_back(shortest_decimal(times, 2) + " x high");
  double y = s.y(s.frame.profile_top);
  for (const std::string& line : lines) {
    s.board.text(LetterUse::dimension, {left, y}, line, Align::left, Stand::top);
    y -= 1.6 * d;
  }
}

}  // namespace

LevelRange level_range(const SetInput& input, Length from, Length to) {
  LevelRange r{1e18, -1e18};
  for (Length station : profile_stations(input, from, to)) {
    const double level = input.bridge.alignment.level(station).in_mm();
    r.low = std::min(r.low, level - girder_drop(input));
    r.high = std::max(r.high, level);
  }
  return r;
}

void draw_profile(const StripDrawing& s) {
  const paper::Group group(s.board, fmt::format("profile-{}", s.number + 1), "view",
                           "profile, vertical scale exaggerated");
  const Vertical v = vertical_scale(s);
  draw_grid(s, v);
  level_line(s, v, PenUse::outline, 0);
  level_line(s, v, PenUse::thin, s.input.project.deck.section.depth.in_mm());
  level_line(s, v, PenUse::steel, girder_drop(s.input));
  draw_supports(s, v);
  draw_grades(s, v);
  draw_levels(s);
  draw_scales(s, v);
}

}  // namespace deckquire::sheets
