#include "drawings/approval.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <vector>

#include "project/support.h"

namespace deckquire::testing {
namespace {

using namespace paper;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    line.erase(0, line.find_first_not_of(' ') == std::string::npos ? line.size()
                                                                   : line.find_first_not_of(' '));
    out.push_back(line);
  }
  return out;
}

std::string escaped(const std::string& s) {
  std::string out;
  for (char c : s) out += c == '<' ? "&lt;" : c == '&' ? "&amp;" : std::string(1, c);
  return out;
}

/// A line of a drawing's text as an element of SVG; empty for lines that draw nothing.
class Shown {
 public:
  explicit Shown(const std::vector<std::string>& lines) {
    for (const std::string& line : lines) {
      char name[64];
      double a = 0, b = 0;
      char ink[64] = "";
      int end = 0;
      if (std::sscanf(line.c_str(), "pen %63s %lf %63s%n", name, &a, ink, &end) == 3)
        pens_[name] = fmt::format("stroke-width='{}' stroke-dasharray='{}'", a, line.substr(end));
      const std::size_t revision = line.rfind(" x ");
      if (line.starts_with("sheet ") && revision != std::string::npos) {
        const std::size_t start = line.rfind(' ', revision - 1);
        if (std::sscanf(line.c_str() + start, "%lf x %lf", &a, &b) == 2) width = a, height = b;
      }
    }
  }

  double width = 100, height = 100;

  std::string svg(const std::string& line, const std::string& colour) const {
    std::istringstream in(line);
    std::string kind, what, path;
    in >> kind;
    if (kind == "text") return letters(line, colour);
    if (kind != "stroke" && kind != "fill") return "";
    in >> what;
    std::getline(in, path);
    const std::string way =
        kind == "stroke" ? fmt::format("fill='none' stroke='{}' {}", colour, pen(what))
                         : fmt::format("fill='{}' fill-rule='evenodd'", what == "white"  ? "white"
                                                                        : what == "pale" ? "#e8e8e8"
                                                                                         : colour);
    return fmt::format("<path transform='matrix(1 0 0 -1 0 {})' {} d='{}'/>\n", height, way, path);
  }

 private:
  std::map<std::string, std::string> pens_;  // name -> width and dash

  std::string pen(const std::string& name) const {
    const auto found = pens_.find(name);
    return found == pens_.end() ? "" : found->second;
  }

  std::string letters(const std::string& line, const std::string& colour) const {
    double x = 0, y = 0, turned = 0, tall = 1, wide = 1;
    const std::size_t quote = line.find('"');
    if (quote == std::string::npos ||
        std::sscanf(line.c_str(), "text %lf %lf turned %lf height %lf width %lf", &x, &y, &turned,
                    &tall, &wide) != 5)
      return "";
    return fmt::format(
        "<text transform='translate({} {}) rotate({})' fill='{}' font-size='{}' textLength='{}' "
        "lengthAdjust='spacingAndGlyphs' font-family='osifont, sans-serif'>{}</text>\n",
        x, height - y, -turned, colour, tall / 0.73, std::max(wide, 0.1),
        escaped(line.substr(quote + 1, line.rfind('"') - quote - 1)));
  }
};

std::string panel(double x, const char* title, double top, const std::string& body) {
  return fmt::format(
      "<g transform='translate({} 0)'><text x='0' y='{}' font-size='{}'>{}</text>\n"
      "<g transform='translate(0 {})'>\n{}</g></g>\n",
      x, top * 0.7, top * 0.6, title, top, body);
}

Path moved(Path path, PaperPoint by) {
  for (PaperPoint& p : path.points) p = p + by;
  return path;
}

}  // namespace

std::string drawing_text(const std::string& sentence, const Sheet& sheet) {
  Sheet copy = sheet;
  std::set<std::string> used;
  for (const Item& item : copy.items)
    if (const auto* s = std::get_if<Stroke>(&item)) used.insert(copy.pens[s->pen].name);
  std::string out = "# " + sentence + "\n";
  std::istringstream in(dump(copy));
  for (std::string line; std::getline(in, line);) {
    const bool idle =
        line.starts_with("pen ") && !used.count(line.substr(4, line.find(' ', 4) - 4));
    if (!idle) out += line + "\n";
  }
  return out;
}

std::string picture(const std::string& expected, const std::string& actual) {
  const auto before = lines_of(expected), now = lines_of(actual);
  const Shown old(before), fresh(now);
  std::string left, middle, both, only_old, only_new;
  std::multiset<std::string> rest(now.begin(), now.end());
  for (const std::string& line : before) {
    left += old.svg(line, "black");
    const auto found = rest.find(line);
    if (found == rest.end()) {
      only_old += old.svg(line, "#c00000");
    } else {
      both += old.svg(line, "#b0b0b0");
      rest.erase(found);
    }
  }
  for (const std::string& line : now) middle += fresh.svg(line, "black");
  for (const std::string& line : rest) only_new += fresh.svg(line, "#0040c0");
  const double width = std::max(old.width, fresh.width),
               height = std::max(old.height, fresh.height);
  const double top = std::max(4.0, height / 12), pitch = width + 5;
  return fmt::format(
             "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {} {}' xml:space='preserve'>\n"
             "<rect width='100%' height='100%' fill='white'/>\n",
             3 * pitch, height + top) +
         panel(0, "expected", top, left) + panel(pitch, "actual", top, middle) +
         panel(2 * pitch, "difference: red expected, blue actual", top,
               both + only_old + only_new) +
         "</svg>\n";
}

std::string difference(const std::string& name, const std::string& actual) {
  const std::string expected = approved("tests/drawings/approved/" + name + ".txt", actual);
  if (expected == actual) return "";
  const std::string folder = DECKQUIRE_BINARY "/drawings", file = folder + "/" + name + ".svg";
  std::filesystem::create_directories(folder);
  write_file(file, picture(expected, actual));
  return name + " differs from its approved drawing; look at " + file +
         ", and if it is right run these tests with DECKQUIRE_UPDATE=1";
}

std::size_t cell_of(const Sheet& sheet, PaperPoint at) {
  const auto index = [](double share, std::size_t count) {
    return static_cast<std::size_t>(
        std::clamp(share * static_cast<double>(count), 0.0, static_cast<double>(count) - 1));
  };
  return index(at.y / sheet.height, cell_rows) * cell_columns +
         index(at.x / sheet.width, cell_columns);
}

std::string cell_picture(const std::string& name, const Sheet& sheet, const std::string& now,
                         const std::string& expected) {
  const auto lines = lines_of(dump(sheet));
  const Shown shown(lines);
  std::string body;
  const double w = sheet.width / static_cast<double>(cell_columns);
  const double h = sheet.height / static_cast<double>(cell_rows);
  const std::size_t count = cell_columns * cell_rows;
  for (std::size_t i = 0; i < count; ++i)
    if (expected.size() < count ||
        now[now.size() - count + i] != expected[expected.size() - count + i])
      body += fmt::format("<rect x='{}' y='{}' width='{}' height='{}' fill='#ffd0a0'/>\n",
                          static_cast<double>(i % cell_columns) * w,
                          sheet.height - static_cast<double>(i / cell_columns + 1) * h, w, h);
  for (const std::string& line : lines) body += shown.svg(line, "black");
  const std::string folder = DECKQUIRE_BINARY "/drawings";
  std::string file = folder + "/" + name + ".svg";
  std::replace(file.begin() + static_cast<std::ptrdiff_t>(folder.size()), file.end(), ' ', '-');
  std::filesystem::create_directories(folder);
  write_file(file, fmt::format("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {} {}' "
                               "xml:space='preserve'>\n<rect width='100%' height='100%' "
                               "fill='white'/>\n{}</svg>\n",
                               sheet.width, sheet.height, body));
  return name + " (" + file + ")";
}

Sheet part_of(const Sheet& sheet, const std::string& id, double margin) {
  Sheet part{.number = sheet.number,
             .title = id,
             .revision = sheet.revision,
             .width = 0,
             .height = 0,
             .pens = sheet.pens,
             .items = {}};
  int depth = 0;
  PaperBox box;
  bool drawn = false;
  const auto widen = [&](const PaperBox& b) {
    if (!drawn) box = b;
    drawn = true;
    box.low = {std::min(box.low.x, b.low.x), std::min(box.low.y, b.low.y)};
    box.high = {std::max(box.high.x, b.high.x), std::max(box.high.y, b.high.y)};
  };
  for (const Item& item : sheet.items) {
    const auto* start = std::get_if<GroupStart>(&item);
    if (depth == 0 && !(start && start->id == id)) continue;
    depth += start ? 1 : std::holds_alternative<GroupEnd>(item) ? -1 : 0;
    part.items.push_back(item);
    if (const auto* s = std::get_if<Stroke>(&item)) widen(bounds(s->path));
    if (const auto* f = std::get_if<Fill>(&item)) widen(bounds(f->path));
    if (const auto* t = std::get_if<Text>(&item)) widen(text_box(*t));
  }
  const PaperPoint by = PaperPoint{margin, margin} - box.low;
  for (Item& item : part.items) {
    if (auto* s = std::get_if<Stroke>(&item)) s->path = moved(std::move(s->path), by);
    if (auto* f = std::get_if<Fill>(&item)) f->path = moved(std::move(f->path), by);
    if (auto* t = std::get_if<Text>(&item)) t->at = t->at + by;
  }
  part.width = box.width() + 2 * margin;
  part.height = box.height() + 2 * margin;
  return part;
}

}  // namespace deckquire::testing
