// Do the printed figures add up?
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <regex>
#include <tuple>

#include "audit/scan.h"
#include "base/text.h"

namespace deckquire::audit {

namespace {

/// A figure of a dimension in mm: "2488", "(12.5)", "6 @ 1500 = 9000", "1'-10 1/2\"". None when it
/// is not one.
std::optional<double> figure(std::string text, UnitSystem system) {
  std::erase_if(text, [](char c) { return c == '(' || c == ')'; });
  if (const auto equal = text.find("= "); equal != std::string::npos) text.erase(0, equal + 2);
  static const std::regex metric(R"(-?\d+(\.\d+)?)");
  static const std::regex imperial(
      R"re(-?(?:(\d+)'(?:-|$))?(?:(\d+)(?: |"|$))?(?:(\d+)/(\d+))?"?)re");
  std::smatch m;
  if (system == UnitSystem::metric) {
    if (!std::regex_match(text, metric)) return std::nullopt;
    return std::stod(text);
  }
  if (text.empty() || !std::regex_match(text, m, imperial)) return std::nullopt;
  double inches = 0;
  if (m[1].matched) inches += 12 * std::stod(m[1]);
  if (m[2].matched) inches += std::stod(m[2]);
  if (m[3].matched) inches += std::stod(m[3]) / std::stod(m[4]);
  return 25.4 * inches;
}

struct Chain {
  double sum = 0, length = 0;
  double from = 0, to = 0;  // paper x of a level line's ends
  std::size_t figures = 0, strange = 0;
  paper::PaperPoint at;
};

Chain read_chain(const Scan& scan, int group, UnitSystem units) {
  Chain c;
  bool level = true;
  for (const Letters& l : scan.texts) {
    if (l.group != group) continue;
    const auto v = figure(l.text->text, units);
    v ? ++c.figures : ++c.strange;
    c.sum += v.value_or(0);
    level = std::abs(l.text->angle) < 1e-6;
    c.at = l.text->at;
  }
  for (const Line& l : scan.lines) {
    if (l.group != group || l.stroke->path.points.size() != 2) continue;
    const auto d = l.stroke->path.points[1] - l.stroke->path.points[0];
    const double length = std::abs(level ? d.x : d.y);
    if (std::abs(level ? d.y : d.x) > 1e-9 || length <= c.length) continue;
    c.length = length;
    if (level)
      std::tie(c.from, c.to) = std::minmax(l.stroke->path.points[0].x, l.stroke->path.points[1].x);
  }
  return c;
}

/// The gap of a broken view between its break lines, and what it says that it leaves out.
struct Gap {
  int view = -1;
  double from = 0, to = 0;  // paper x
  double left_out = 0;      // mm
};

std::vector<Gap> read_gaps(const Scan& scan, UnitSystem units) {
  std::vector<Gap> out;
  for (std::size_t g = 0; g < scan.groups.size(); ++g) {
    const paper::GroupStart& start = *scan.groups[g].start;
    if (start.kind != "break") continue;
    Gap gap{scan.within(static_cast<int>(g), "view"), 1e9, -1e9, 0};
    for (const Line& l : scan.lines)
      if (l.group == static_cast<int>(g) && !l.stroke->path.points.empty()) {
        gap.from = std::min(gap.from, l.stroke->path.points.front().x);
        gap.to = std::max(gap.to, l.stroke->path.points.front().x);
      }
    gap.left_out = figure(start.title.substr(0, start.title.find(" left out")), units).value_or(0);
    out.push_back(gap);
  }
  return out;
}

}  // namespace

void audit_chains(const Subject& s, Report& report) {
  Notebook sums(report, "chain-sum",
                "the figures of a chain sum to the length of its line at a scale of the style");
  Notebook rising(report, "running-order", "running dimensions rise from their datum");
  const UnitSystem units = s.input.project.units;
  const double half = print_unit(units).in_mm() / 2;
  for (const Scan& scan : s.scans) {
    const std::vector<Gap> gaps = read_gaps(scan, units);
    for (std::size_t g = 0; g < scan.groups.size(); ++g) {
      const std::string& kind = scan.groups[g].start->kind;
      if (kind == "chain") {
        const Chain c = read_chain(scan, static_cast<int>(g), units);
        // A chain with words for figures (a label where a length would be) cannot be summed.
        if (c.figures == 0 || c.strange > 0) continue;
        sums.look();
        const auto& scales = s.input.style.scales;
        const int view = scan.within(static_cast<int>(g), "view");
        double left_out = 0;
        for (const Gap& gap : gaps)
          if (gap.view == view && c.from < gap.from && gap.to < c.to) left_out += gap.left_out;
        const bool fits = std::any_of(scales.begin(), scales.end(), [&](int ratio) {
          return std::abs(c.sum - c.length * ratio - left_out) <= half + 0.006 * ratio;
        });
        if (!fits)
          sums.flaw(scan.sheet.number, c.at,
                    fmt::format("{} figures sum to {} over a line of {}", c.figures,
                                decimal(c.sum, 1), decimal(c.length, 2)));
      }
      if (kind != "running") continue;
      std::vector<std::pair<double, double>> values;  // place along the line, figure
      for (const Letters& l : scan.texts)
        if (l.group == static_cast<int>(g))
          if (const auto v = figure(l.text->text, units)) {
            const bool level = std::abs(l.text->angle) < 1e-6;
            values.push_back({level ? l.box.centre().y : l.box.centre().x, *v});
          }
      rising.look();
      std::sort(values.begin(), values.end());
      const auto by_figure = [](const auto& a, const auto& b) { return a.second < b.second; };
      if (!std::is_sorted(values.begin(), values.end(), by_figure) &&
          !std::is_sorted(values.rbegin(), values.rend(), by_figure))
        rising.flaw(scan.sheet.number, scan.groups[g].box.low, "its figures do not rise");
    }
  }
}

}  // namespace deckquire::audit
