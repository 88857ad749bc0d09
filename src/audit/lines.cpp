// Leaders, dimension lines and inks.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "audit/scan.h"
#include "base/text.h"

namespace deckquire::audit {

using paper::PaperBox;
using paper::PaperPoint;

namespace {

struct Segment {
  PaperPoint a, b;
  int owner = -1;  // group
  PaperBox box() const {
    return {{std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}};
  }
};

double turn(PaperPoint a, PaperPoint b, PaperPoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Where two segments cross in their insides: not where one ends on the other.
bool cross(const Segment& s, const Segment& t) {
  constexpr double hair = 0.05;  // mm2, twice an area
  if (!s.box().grown(0.01).overlaps(t.box().grown(0.01))) return false;
  const auto parted = [](double p, double q) {
    return (p > hair && q < -hair) || (p < -hair && q > hair);
  };
  return parted(turn(s.a, s.b, t.a), turn(s.a, s.b, t.b)) &&
         parted(turn(t.a, t.b, s.a), turn(t.a, t.b, s.b));
}

/// The open strokes of groups of a kind, in straight pieces.
std::vector<Segment> pieces(const Scan& scan, const std::string& kind) {
  std::vector<Segment> out;
  for (const Line& line : scan.lines) {
    const int owner = scan.within(line.group, kind);
    const paper::Path& path = line.stroke->path;
    const bool open = std::none_of(path.ops.begin(), path.ops.end(), [](paper::Op op) {
      return op == paper::Op::close || op == paper::Op::curve;
    });
    if (owner < 0 || !open) continue;
    for (std::size_t i = 1; i < path.points.size(); ++i)
      if (path.ops[i] == paper::Op::line)
        out.push_back({path.points[i - 1], path.points[i], owner});
  }
  return out;
}

/// Of every chain its dimension line: the longest of its strokes that run along the figures.
std::vector<Segment> dimension_lines(const Scan& scan) {
  std::vector<Segment> out;
  for (const char* kind : {"chain", "running"}) {
    const std::vector<Segment> all = pieces(scan, kind);
    for (std::size_t i = 0; i < all.size();) {
      const Segment* longest = nullptr;  // extension lines come first, in one direction
      const Segment* last = nullptr;
      std::size_t k = i;
      for (; k < all.size() && all[k].owner == all[i].owner; ++k) {
        const Segment& s = all[k];
        const double length = std::hypot(s.b.x - s.a.x, s.b.y - s.a.y);
        const bool level = std::abs(s.a.y - s.b.y) < 1e-6;
        bool along = false;
        for (const Letters& l : scan.texts)
          if (scan.within(l.group, kind) == s.owner) {
            along = (std::abs(l.text->angle) < 1e-6) == (level == (std::string(kind) == "chain"));
            break;
          }
        if (!along) continue;
        last = &s;
        if (longest == nullptr ||
            length > std::hypot(longest->b.x - longest->a.x, longest->b.y - longest->a.y))
          longest = &s;
      }
      if (last != nullptr) out.push_back(*longest);
      i = k;
    }
  }
  return out;
}

void leaders(const Subject& s, Report& report) {
  Notebook each(report, "leaders-cross", "no leader crosses another");
  Notebook lines(report, "leader-over-dimension", "no leader crosses a dimension line (ISO 128-2)");
  for (const Scan& scan : s.scans) {
    std::vector<Segment> all = pieces(scan, "callout");
    for (const char* kind : {"note", "redline"}) {
      const std::vector<Segment> more = pieces(scan, kind);
      all.insert(all.end(), more.begin(), more.end());
    }
    const std::vector<Segment> dims = dimension_lines(scan);
    each.look(all.size()), lines.look(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t k = i + 1; k < all.size(); ++k)
        if (all[i].owner != all[k].owner && cross(all[i], all[k]))
          each.flaw(scan.sheet.number, all[i].a, "two leaders cross");
      for (const Segment& d : dims)
        if (cross(all[i], d))
          lines.flaw(scan.sheet.number, all[i].a, "a leader crosses a dimension line");
    }
  }
}

/// Least distance of a dimension line from the next one beside it: a figure, and air of 1.5 mm
/// (common practice, no source; ISO 129-1 gives no figure).
void tiers(const Subject& s, Report& report) {
  Notebook pitch(report, "dimension-pitch",
                 "dimension lines beside one another leave room for their figures");
  const double least = s.input.style.letters_of(paper::LetterUse::dimension) + 1.5;
  for (const Scan& scan : s.scans) {
    const std::vector<Segment> dims = dimension_lines(scan);
    pitch.look(dims.size());
    for (std::size_t i = 0; i < dims.size(); ++i)
      for (std::size_t k = i + 1; k < dims.size(); ++k) {
        const PaperBox a = dims[i].box(), b = dims[k].box();
        const bool level = a.height() < 1e-6 && b.height() < 1e-6;
        const bool upright = a.width() < 1e-6 && b.width() < 1e-6;
        if (!level && !upright) continue;
        const double apart = level ? std::abs(a.low.y - b.low.y) : std::abs(a.low.x - b.low.x);
        const double shared = level ? std::min(a.high.x, b.high.x) - std::max(a.low.x, b.low.x)
                                    : std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
        if (shared > 0.1 && apart > 0.01 && apart < least - 1e-6)
          pitch.flaw(scan.sheet.number, a.low,
                     fmt::format("two dimension lines {} apart", decimal(apart, 2)));
      }
  }
}

/// Least space between parallel lines, which keeps them apart in print: 0.7 mm (ISO
/// 128-20:1996, 4.4; from memory). Measured on the lines whose places the drafter is free to
/// choose: dimension lines and leaders, against each other and against the outlines beside them.
void spaces(const Subject& s, Report& report) {
  Notebook book(report, "lines-close",
                "dimension lines and leaders keep 0.7 mm from lines parallel to them");
  constexpr double least = 0.7;
  for (const Scan& scan : s.scans) {
    std::vector<Segment> free = dimension_lines(scan);
    for (const char* kind : {"callout", "note"})
      for (const Segment& p : pieces(scan, kind)) free.push_back(p);
    book.look(free.size());
    for (std::size_t i = 0; i < free.size(); ++i)
      for (std::size_t k = i + 1; k < free.size(); ++k) {
        const Segment &a = free[i], &b = free[k];
        if (a.owner == b.owner || !a.box().grown(least).overlaps(b.box())) continue;
        const double l = std::hypot(a.b.x - a.a.x, a.b.y - a.a.y);
        const double m = std::hypot(b.b.x - b.a.x, b.b.y - b.a.y);
        if (l < 2 || m < 2) continue;
        const PaperPoint u = (a.b - a.a) * (1 / l), v = (b.b - b.a) * (1 / m);
        if (std::abs(u.x * v.y - u.y * v.x) > 0.02) continue;  // not parallel
        const auto along = [&](PaperPoint p) { return (p.x - a.a.x) * u.x + (p.y - a.a.y) * u.y; };
        const double from = std::max(0.0, std::min(along(b.a), along(b.b)));
        const double to = std::min(l, std::max(along(b.a), along(b.b)));
        const double apart = std::abs((b.a.x - a.a.x) * u.y - (b.a.y - a.a.y) * u.x);
        if (to - from > 1 && apart > 0.01 && apart < least)
          book.flaw(scan.sheet.number, b.a,
                    fmt::format("two parallel lines {} apart", decimal(apart, 2)));
      }
  }
}

/// Relative luminance of "#rrggbb" (WCAG 2.1, definition of relative luminance).
double luminance(const std::string& ink) {
  const auto channel = [&](std::size_t at) {
    const double v = static_cast<double>(std::strtol(ink.substr(at, 2).c_str(), nullptr, 16)) / 255;
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

void inks(const Subject& s, Report& report) {
  Notebook contrast(report, "ink-pale",
                    "every ink of lines and letters stands out from white by 4.5 to 1 in grey "
                    "(WCAG 2.1, 1.4.3)");
  Notebook red(report, "colour-alone",
               "what is red is told from what is black by its width or its dashes too");
  const auto& style = s.input.style;
  for (const Scan& scan : s.scans) {
    std::vector<bool> used(style.inks.size());
    for (const Line& l : scan.lines)
      used[static_cast<std::size_t>(scan.sheet.pens[l.stroke->pen].ink)] = true;
    for (const Letters& l : scan.texts) used[static_cast<std::size_t>(l.text->ink)] = true;
    for (std::size_t i = 0; i < used.size(); ++i) {
      const auto ink = static_cast<paper::Ink>(i);
      if (!used[i] || ink == paper::Ink::white || ink == paper::Ink::pale) continue;
      contrast.look();
      const double ratio = 1.05 / (luminance(style.inks[i]) + 0.05);
      if (ratio < 4.5)
        contrast.flaw(
            scan.sheet.number, {},
            fmt::format("{} stands out by {} to 1 only", name_of(ink), decimal(ratio, 1)));
    }
    for (const Line& l : scan.lines) {
      const paper::Pen& pen = scan.sheet.pens[l.stroke->pen];
      if (pen.ink != paper::Ink::red) continue;
      red.look();
      // Arcs, triangles and pennants that are nothing else.
      if (scan.within(l.group, "cloud") >= 0 || scan.within(l.group, "delta") >= 0 ||
          scan.within(l.group, "redline") >= 0)
        continue;
      for (const Line& other : scan.lines) {
        const paper::Pen& black = scan.sheet.pens[other.stroke->pen];
        if (black.ink != paper::Ink::black || black.width != pen.width || black.dash != pen.dash)
          continue;
        red.flaw(scan.sheet.number, l.stroke->path.points.front(),
                 pen.name + " looks like " + black.name + " in black and white");
        break;
      }
    }
  }
}

}  // namespace

void audit_lines(const Subject& s, Report& report) {
  leaders(s, report);
  tiers(s, report);
  spaces(s, report);
  inks(s, report);
}

}  // namespace deckquire::audit
