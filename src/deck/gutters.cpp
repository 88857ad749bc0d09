#include "deck/gutters.h"

#include <algorithm>

namespace deckquire {
namespace {

int direction(const Alignment& a, Length station) {
  const double grade = a.grade(station);
  constexpr double level = 1e-9;
  return grade > level ? 1 : grade < -level ? -1 : 0;
}

/// The first nanometre, not behind `low` and not beyond `high`, from which the grade has the sign
/// that it has at `high`.
Length turning(const Alignment& a, Length low, Length high) {
  const int sign = direction(a, high);
  std::int64_t from = low.in_nanometres(), to = high.in_nanometres();
  while (to - from > 1) {
    const std::int64_t middle = from + (to - from) / 2;
    (direction(a, Length::from_nanometres(middle)) == sign ? to : from) = middle;
  }
  return Length::from_nanometres(to);
}

std::vector<Length> samples(const Alignment& a, Length from, Length to) {
  std::vector<Length> out;
  for (Length s = from; s < to; s += metres(1)) out.push_back(s);
  for (const GradePointData& g : a.grades())
    if (g.station > from && g.station < to) out.push_back(g.station);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

std::vector<WaterRun> water_runs(const Alignment& alignment, Length from, Length to) {
  struct Turn {
    Length at;
    int sign;
  };
  std::vector<Turn> turns;  // where a sign begins that is not the one before
  Length before = from;
  for (Length s : samples(alignment, from, to)) {
    const int sign = direction(alignment, s);
    if (sign != 0 && (turns.empty() || turns.back().sign != sign))
      turns.push_back({turns.empty() ? from : turning(alignment, before, s), sign});
    before = s;
  }
  if (turns.empty()) turns.push_back({from, -1});
  std::vector<WaterRun> out;
  for (std::size_t i = 0; i < turns.size(); ++i) {
    const bool last = i + 1 == turns.size();
    const Length end = last ? to : turns[i + 1].at;
    if (turns[i].sign < 0)
      out.push_back({turns[i].at, end, !last});
    else
      out.push_back({end, turns[i].at, i > 0});
  }
  return out;
}

bool drains_to(const SectionData& section, Side side) {
  if (section.fall == Fall::left) return side == Side::left;
  if (section.fall == Fall::right) return side == Side::right;
  return true;
}

}  // namespace deckquire
