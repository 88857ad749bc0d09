#include "writers/guard.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/text.h"

namespace deckquire::writers {
namespace {

using namespace paper;

// PDF readers take pages up to 14 400 points; cairo wraps coordinates round beyond 8 388 607
// points.
constexpr double greatest_sheet = 5080;
constexpr double greatest_coordinate = 100000;

bool on_reach(double v) {
  return std::isfinite(v) && std::abs(v) <= greatest_coordinate;
}

bool on_reach(const Path& path) {
  return std::all_of(path.points.begin(), path.points.end(),
                     [](PaperPoint p) { return on_reach(p.x) && on_reach(p.y); });
}

bool whole(const Path& path) {
  std::size_t need = 0;
  for (Op op : path.ops) need += op == Op::close ? 0 : op == Op::curve ? 3 : 1;
  return need == path.points.size() && (path.empty() || path.ops.front() == Op::move);
}

bool usable(const Pen& pen) {
  double sum = 0;
  for (double d : pen.dash) {
    if (!std::isfinite(d) || d < 0) return false;
    sum += d;
  }
  return std::isfinite(pen.width) && pen.width > 0 && pen.width < 100 &&
         (pen.dash.empty() || (sum > 0 && std::isfinite(sum)));
}

struct Checker {
  const Sheet& sheet;
  int depth = 0;

  std::string path_fault(const Path& path) const {
    if (!whole(path)) return "a path whose points do not match its moves";
    return on_reach(path) ? "" : "a coordinate that is not finite or far off the paper";
  }
  std::string operator()(const Stroke& s) const {
    return s.pen < sheet.pens.size() ? path_fault(s.path) : "a pen that the sheet does not have";
  }
  std::string operator()(const Fill& f) const { return path_fault(f.path); }
  std::string operator()(const Text& t) const {
    if (!on_reach(t.at.x) || !on_reach(t.at.y) || !on_reach(t.width) || !std::isfinite(t.angle))
      return "a text whose place is not finite or far off the paper";
    if (!std::isfinite(t.height) || t.height <= 0 || t.height > 1000)
      return "a text whose height is not usable";
    return is_clean_utf8(t.text) ? "" : "a text that is not clean UTF-8";
  }
  std::string operator()(const GroupStart& g) {
    ++depth;
    const bool clean = is_clean_utf8(g.id) && is_clean_utf8(g.kind) && is_clean_utf8(g.title) &&
                       is_clean_utf8(g.target);
    return clean ? "" : "a group whose names are not clean UTF-8";
  }
  std::string operator()(const GroupEnd&) {
    return --depth < 0 ? "the end of a group that was never opened" : "";
  }
};

bool is_colour(const std::string& ink) {
  return ink.size() == 7 && ink[0] == '#' &&
         ink.find_first_not_of("0123456789abcdefABCDEF", 1) == std::string::npos;
}

[[noreturn]] void refuse(const Sheet& sheet, const std::string& what) {
  throw std::runtime_error(fmt::format("sheet {}: {}", sheet.number, what));
}

}  // namespace

void guard(const Sheet& sheet, const DocumentInfo& info) {
  if (info.inks.size() != 6) refuse(sheet, "the document does not state its six inks");
  for (const std::string& ink : info.inks)
    if (!is_colour(ink)) refuse(sheet, fmt::format("ink '{}' is not like #1a2b3c", ink));
  for (double v : {sheet.width, sheet.height})
    if (!(v > 0 && v <= greatest_sheet)) refuse(sheet, "a sheet size that is not usable");
  for (const Pen& pen : sheet.pens)
    if (!usable(pen)) refuse(sheet, fmt::format("pen '{}' is not usable", pen.name));
  if (!is_clean_utf8(sheet.number) || !is_clean_utf8(sheet.title))
    refuse(sheet, "its number or title is not clean UTF-8");
  Checker check{sheet};
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const std::string fault = std::visit(check, sheet.items[i]);
    if (!fault.empty()) refuse(sheet, fmt::format("item {}: {}", i + 1, fault));
  }
  if (check.depth != 0) refuse(sheet, "a group that is never closed");
}

}  // namespace deckquire::writers
