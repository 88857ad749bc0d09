// Can it be read: sizes, overlaps, frame, print at half size.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "audit/scan.h"
#include "base/text.h"

namespace deckquire::audit {

using paper::PaperBox;
using paper::PaperPoint;

namespace {

std::string quoted(const paper::Text& t) {
  return "\"" + t.text + "\"";
}

/// Least capital height on a print at half size: 1/16 in (Texas DOT, guidance on shop drawings as
/// hard copy on 11 x 17 in paper; edition not stated).
constexpr double least_at_half = 1.6;
/// Sheets wider than this are printed at half size too.
constexpr double large_paper = 500;

void sizes(const Subject& s, Report& report) {
  const paper::Style& style = s.input.style;
  Notebook least(report, "letters-small",
                 fmt::format("no letters under {} mm", shortest_decimal(style.least_height, 2)));
  Notebook half(report, "letters-small-at-half",
                "on paper wider than 500 mm no letters under 1.6 mm in a print at half size");
  Notebook series(report, "letters-odd", "heights of letters are those of the style");
  Notebook turned(report, "letters-turned", "letters read from the bottom or from the right");
  Notebook one(report, "dimension-letters", "one height of dimensions on a sheet (ISO 129-1)");
  for (const Scan& scan : s.scans) {
    std::set<double> dimensions;
    for (const Letters& l : scan.texts) {
      const paper::Text& t = *l.text;
      least.look(), series.look(), turned.look();
      if (t.height < style.least_height - 1e-9)
        least.flaw(scan.sheet.number, t.at, quoted(t) + " is " + decimal(t.height, 2) + " high");
      if (style.width > large_paper) {
        half.look();
        if (t.height / 2 < least_at_half - 1e-9)
          half.flaw(scan.sheet.number, t.at,
                    quoted(t) + " is " + decimal(t.height / 2, 2) + " high at half size");
      }
      if (std::none_of(style.letters.begin(), style.letters.end(),
                       [&](double h) { return std::abs(h - t.height) < 1e-6; }))
        series.flaw(scan.sheet.number, t.at, quoted(t) + " is " + decimal(t.height, 2) + " high");
      if (std::abs(t.angle) > 1e-6 && std::abs(t.angle - pi / 2) > 1e-6)
        turned.flaw(scan.sheet.number, t.at, quoted(t) + " stands askew");
      if (scan.within(l.group, "chain") >= 0 || scan.within(l.group, "running") >= 0)
        dimensions.insert(t.height);
    }
    one.look();
    if (dimensions.size() > 1)
      one.flaw(scan.sheet.number, {}, fmt::format("{} heights of dimensions", dimensions.size()));
  }
}

void overlaps(const Subject& s, Report& report) {
  Notebook texts(report, "text-over-text", "letters do not touch other letters");
  Notebook lines(report, "text-over-line", "no line of any width runs through letters");
  Notebook hidden(report, "text-hidden", "no white patch drawn later covers a part of letters");
  for (const Scan& scan : s.scans) {
    // What white hides is not there: each text is asked as one masked where its white was laid.
    std::vector<paper::Text> copies;
    copies.reserve(scan.texts.size());
    std::vector<paper::PlacedText> placed, shielded;
    for (const Letters& l : scan.texts) {
      copies.push_back(*l.text);
      copies.back().masked = true;
      placed.push_back({l.text, l.box, l.order});
      shielded.push_back({&copies.back(), l.box, l.shield});
    }
    std::vector<paper::PlacedLine> drawn;
    for (const Line& l : scan.lines) drawn.push_back({&l.stroke->path, l.width, l.order});
    texts.look(placed.size()), lines.look(placed.size()), hidden.look(placed.size());
    for (const Letters& l : scan.texts)
      for (const auto& [white, order] : scan.whites)
        if (order > l.order && white.overlaps(l.box.grown(-0.05)))
          hidden.flaw(scan.sheet.number, l.box.low, quoted(*l.text));
    for (const paper::Clash& c : text_clashes(placed))
      texts.flaw(scan.sheet.number, c.where,
                 quoted(*placed[c.text].text) + " and " + quoted(*placed[c.other].text));
    for (const paper::Clash& c : line_clashes(shielded, drawn)) {
      // Old letters are struck through on purpose.
      const int struck = scan.within(scan.texts[c.text].group, "struck");
      if (struck >= 0 && struck == scan.within(scan.lines[c.other].group, "struck")) continue;
      lines.flaw(scan.sheet.number, c.where,
                 fmt::format("{} under a line of {}", quoted(*shielded[c.text].text),
                             scan.sheet.pens[scan.lines[c.other].stroke->pen].name));
    }
  }
}

/// Left and right end of every table, by its group: those of its rules.
std::map<int, std::pair<double, double>> table_ends(const Scan& scan) {
  std::map<int, std::pair<double, double>> out;
  for (const Line& line : scan.lines) {
    const int table = scan.within(line.group, "table");
    if (table < 0) continue;
    const PaperBox b = bounds(line.stroke->path);
    auto& [low, high] = out.try_emplace(table, b.low.x, b.high.x).first->second;
    low = std::min(low, b.low.x), high = std::max(high, b.high.x);
  }
  return out;
}

void places(const Subject& s, Report& report) {
  const PaperBox frame = s.input.style.frame();
  Notebook inside(report, "outside-frame", "everything but the frame lies at least 1 mm inside it");
  Notebook cells(report, "outside-table", "letters of a table lie between its ends");
  Notebook stamp(report, "stamp-space", "nothing stands in the reviewer's stamp space");
  for (const Scan& scan : s.scans) {
    const std::string& number = scan.sheet.number;
    const std::map<int, std::pair<double, double>> ends = table_ends(scan);
    for (const Letters& l : scan.texts) {
      const bool furniture =
          scan.within(l.group, "furniture") >= 0 || scan.within(l.group, "title-block") >= 0;
      if (!furniture) {
        inside.look();
        const PaperBox room = frame.grown(-1);
        if (!room.contains(l.box.low) || !room.contains(l.box.high))
          inside.flaw(number, l.box.low, quoted(*l.text));
      }
      const auto table = ends.find(scan.within(l.group, "table"));
      if (table == ends.end()) continue;
      cells.look();
      if (l.box.low.x < table->second.first - 0.1 || l.box.high.x > table->second.second + 0.1)
        cells.flaw(number, l.box.low, quoted(*l.text) + " stands out of its table");
    }
    for (const Group& g : scan.groups) {
      if (g.start->kind != "stamp" || g.empty) continue;
      stamp.look();
      for (const Letters& l : scan.texts)
        if (g.box.grown(-0.3).overlaps(l.box) && scan.within(l.group, "stamp") < 0)
          stamp.flaw(number, l.box.low, quoted(*l.text) + " stands where the stamp goes");
    }
  }
}

}  // namespace

void audit_letters(const Subject& s, Report& report) {
  sizes(s, report);
  overlaps(s, report);
  places(s, report);
}

}  // namespace deckquire::audit
