// The alignment in level: straight grades and parabolas.
#include <algorithm>
#include <cmath>

#include "bridge/alignment.h"

namespace deckquire {
namespace {

using Grades = std::vector<GradePointData>;

/// The first of the two grade points whose line holds at `station`. There are two at least.
std::size_t grade_line(const Grades& g, Length station) {
  const auto next = std::partition_point(
      g.begin() + 1, g.end() - 1, [&](const GradePointData& p) { return p.station <= station; });
  return static_cast<std::size_t>(next - g.begin()) - 1;
}

bool level_throughout(const Grades& g) {
  return g.size() < 2 || g[0].station == g[1].station;
}

/// On the line through grade points i and i + 1.
Length line_level(const Grades& g, std::size_t i, Length station) {
  const Length run = g[i + 1].station - g[i].station;
  return g[i].level + (g[i + 1].level - g[i].level) * ((station - g[i].station) / run);
}

double line_grade(const Grades& g, std::size_t i) {
  return (g[i + 1].level - g[i].level) / (g[i + 1].station - g[i].station);
}

/// The grade point whose parabola reaches over `station`, its end excluded. The first and last
/// point have but one grade: nothing to round.
std::optional<std::size_t> parabola_at(const Grades& g, Length station) {
  // It reaches half its length to either side: only the points next to the station may.
  const std::size_t behind = grade_line(g, station);
  for (std::size_t i = std::max<std::size_t>(behind, 1); i <= behind + 1 && i + 1 < g.size(); ++i) {
    const Length from_begin = station - (g[i].station - g[i].curve / 2);
    if (from_begin >= Length() && from_begin < g[i].curve) return i;
  }
  return std::nullopt;
}

/// Change of grade per nanometre over the parabola at grade point i.
double bend(const Grades& g, std::size_t i) {
  return (line_grade(g, i) - line_grade(g, i - 1)) /
         static_cast<double>(g[i].curve.in_nanometres());
}

}  // namespace

Length Alignment::level(Length station) const {
  const auto& g = data_.grades;
  if (g.empty()) return Length();
  if (level_throughout(g)) return g[0].level;
  const auto i = parabola_at(g, station);
  if (!i) return line_level(g, grade_line(g, station), station);
  const Length x = station - (g[*i].station - g[*i].curve / 2);
  return line_level(g, *i - 1, station) +
         x * (bend(g, *i) / 2 * static_cast<double>(x.in_nanometres()));
}

double Alignment::grade(Length station) const {
  const auto& g = data_.grades;
  if (level_throughout(g)) return 0;
  const auto i = parabola_at(g, station);
  if (!i) return line_grade(g, grade_line(g, station));
  const Length x = station - (g[*i].station - g[*i].curve / 2);
  return line_grade(g, *i - 1) + bend(g, *i) * static_cast<double>(x.in_nanometres());
}

std::vector<VerticalCurve> Alignment::vertical_curves() const {
  const auto& g = data_.grades;
  std::vector<VerticalCurve> out;
  for (std::size_t i = 1; i + 1 < g.size(); ++i) {
    if (g[i].curve <= Length()) continue;
    VerticalCurve v;
    v.middle = g[i].station;
    v.begin = v.middle - g[i].curve / 2;
    v.end = v.begin + g[i].curve;
    v.level_begin = level(v.begin);
    v.level_middle = level(v.middle);
    v.level_end = level(v.end);
    v.grade_back = line_grade(g, i - 1);
    v.grade_ahead = line_grade(g, i);
    v.high = v.grade_ahead < v.grade_back;
    if (v.grade_back * v.grade_ahead < 0) {
      v.turning = v.begin + g[i].curve * (v.grade_back / (v.grade_back - v.grade_ahead));
      v.level_turning = level(*v.turning);
    }
    out.push_back(v);
  }
  return out;
}

std::vector<Length> Alignment::level_breaks(Length from, Length to) const {
  const auto& g = data_.grades;
  std::vector<Length> out;
  for (std::size_t i = 0; i < g.size(); ++i) {
    const bool round = i > 0 && i + 1 < g.size() && g[i].curve > Length();
    if (!round) {
      out.push_back(g[i].station);
      continue;
    }
    // A chord l of a parabola is off by |change of grade| / length * l^2 / 8 at most.
    const double change = std::abs(line_grade(g, i) - line_grade(g, i - 1));
    const double needed = std::sqrt(change * g[i].curve.in_mm() / 8 / 0.1);
    const int parts = 1 + static_cast<int>(std::min(needed, 1000.0));
    for (int n = 0; n <= parts; ++n)
      out.push_back(g[i].station - g[i].curve / 2 + g[i].curve * (static_cast<double>(n) / parts));
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  std::erase_if(out, [&](Length s) { return s <= from || s >= to; });
  return out;
}

}  // namespace deckquire
