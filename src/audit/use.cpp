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
    if (!g.empty && (g.start->kind == "view" || g.start->kind == "table")) take(g.box);
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

}  // namespace

void audit_use(const Subject& s, Report& report) {
  Notebook book(report, "sheet-empty",
                "every sheet but the last of its series, or with one whole table alone, uses at "
                "least 45 % of its drawing space");
  for (std::size_t i = 0; i < s.scans.size(); ++i) {
    const std::string& number = s.scans[i].sheet.number;
    const bool last =
        i + 1 == s.scans.size() || s.scans[i + 1].sheet.number.front() != number.front();
    SheetUse use{number, used_share(s.scans[i], s.input.style), last || one_table(s, i)};
    report.use.push_back(use);
    if (use.last) continue;
    book.look();
    if (use.share < 0.45)
      book.flaw(number, {}, fmt::format("{} % are used", decimal(100 * use.share, 0)));
  }
}

}  // namespace deckquire::audit
