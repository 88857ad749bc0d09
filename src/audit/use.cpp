// How full are the sheets?
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "audit/scan.h"
#include "base/text.h"

namespace deckquire::audit {

using paper::PaperBox;

namespace {

constexpr double cell = 5;     // mm
constexpr double around = 10;  // air that belongs to what it stands around

/// Share of the drawing space within the boxes of views and tables, or within `around` of letters
/// or lines.
double used_share(const Scan& scan, const paper::Style& style) {
  const PaperBox room = style.drawing_space();
  const int columns = std::max(1, static_cast<int>(room.width() / cell));
  const int rows = std::max(1, static_cast<int>(room.height() / cell));
  std::vector<bool> used(static_cast<std::size_t>(columns * rows));
  const auto take = [&](const PaperBox& b) {
    const auto index = [](double v, int count) {
      return std::clamp(static_cast<int>(std::floor(v / cell)), 0, count - 1);
    };
    if (!b.overlaps(room)) return;
    const int c0 = index(b.low.x - room.low.x, columns), c1 = index(b.high.x - room.low.x, columns);
    const int r0 = index(b.low.y - room.low.y, rows), r1 = index(b.high.y - room.low.y, rows);
    for (int r = r0; r <= r1; ++r)
      for (int c = c0; c <= c1; ++c) used[static_cast<std::size_t>(r * columns + c)] = true;
  };
  for (const Group& g : scan.groups)
    if (!g.empty && (g.start->kind == "view" || g.start->kind == "table" ||
                     g.start->kind == "overlay"))
      take(g.box);
  for (const Letters& l : scan.texts)
    if (scan.within(l.group, "furniture") < 0) take(l.box.grown(around));
  for (const Line& l : scan.lines) {
    if (scan.within(l.group, "furniture") >= 0) continue;
    const auto& points = l.stroke->path.points;
    // Segment by segment: the box of a long slanting line or of an outline is not its ink.
    for (std::size_t i = 1; i < points.size(); ++i) {
      const auto a = points[i - 1], d = points[i] - a;
      const int steps = 1 + static_cast<int>(std::hypot(d.x, d.y) / cell);
      for (int k = 0; k <= steps; ++k) {
        const auto p = a + d * (static_cast<double>(k) / steps);
        take(PaperBox{p, p}.grown(around));
      }
    }
  }
  return static_cast<double>(std::count(used.begin(), used.end(), true)) /
         static_cast<double>(used.size());
}

/// One whole table and no more: it is not spread thin to fill a sheet.
bool one_table(const Subject& s, std::size_t i) {
  const auto& parts = s.plan.sheets[i].parts;
  return parts.size() == 1 && parts.front().first == 0 &&
         parts.front().count >=
             s.plan.tables[static_cast<std::size_t>(parts.front().table)].rows.size();
}

/// The second part of a mark has the scale of the first, whatever room that leaves.
bool second_part(const Subject& s, std::size_t i) {
  const auto& part = s.plan.sheets[i].part;
  return part && part->ahead;
}

constexpr double window = 100;        // mm, side of the square in which crowding is measured
constexpr double most_letters = 0.6;  // of it (common practice, no source)

/// The greatest share of a square of the drawing space that letters in views take, with half their
/// height of air round them. Tables and notes apart: their rows are as close as they are meant to
/// be.
struct Crowd {
  double share = 0;
  paper::PaperPoint at;
};
Crowd most_crowded(const Scan& scan, const paper::Style& style) {
  const PaperBox room = style.drawing_space();
  Crowd out;
  std::vector<PaperBox> boxes;
  for (const Letters& l : scan.texts)
    if (scan.within(l.group, "view") >= 0)
      if (const PaperBox b = l.box.grown(l.text->height / 2); b.overlaps(room)) boxes.push_back(b);
  for (double y = room.low.y; y + window <= room.high.y; y += window / 2)
    for (double x = room.low.x; x + window <= room.high.x; x += window / 2) {
      double taken = 0;
      for (const PaperBox& b : boxes)
        taken += std::max(0.0, std::min(b.high.x, x + window) - std::max(b.low.x, x)) *
                 std::max(0.0, std::min(b.high.y, y + window) - std::max(b.low.y, y));
      if (const double share = taken / (window * window); share > out.share) out = {share, {x, y}};
    }
  return out;
}

void crowding(const Subject& s, Report& report) {
  Notebook book(
      report, "sheet-crowded",
      "letters in views, and the air round them, take at most 60 % of any square of 100 mm");
  for (const Scan& scan : s.scans) {
    book.look();
    if (const Crowd c = most_crowded(scan, s.input.style); c.share > most_letters)
      book.flaw(scan.sheet.number, c.at,
                fmt::format("letters take {} % of a square", decimal(100 * c.share, 0)));
  }
}

/// Small plans of the setting and what goes with them: as much as there is, apart from the strips.
bool of_setting(const Subject& s, std::size_t i) {
  const sheets::SheetPlan& own = s.plan.sheets[i];
  return own.series == 'E' && own.subject >= s.plan.strip_sheets() && own.subject < s.plan.first_of_moved();
}

}  // namespace

void audit_use(const Subject& s, Report& report) {
  crowding(s, report);
  Notebook book(report, "sheet-empty",
                "every sheet but the last of its series, with one whole table alone, with the second "
                "part of a mark at the scale of the first, of the setting, or with changed views, which are "
                "as large as what changed, uses at least 45 % of its drawing space");
  for (std::size_t i = 0; i < s.scans.size(); ++i) {
    const std::string& number = s.scans[i].sheet.number;
    const bool last =
        i + 1 == s.scans.size() || s.scans[i + 1].sheet.number.front() != number.front();
    SheetUse use{number, used_share(s.scans[i], s.input.style),
                 last || one_table(s, i) || second_part(s, i) || of_setting(s, i) || number[0] == 'R'};
    report.use.push_back(use);
    if (use.last) continue;
    book.look();
    if (use.share < 0.45)
      book.flaw(number, {}, fmt::format("{} % are used", decimal(100 * use.share, 0)));
  }
}

}  // namespace deckquire::audit
