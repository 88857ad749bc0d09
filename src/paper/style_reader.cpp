// styles/*.xml -> Style, over what it is based on. What is in no row of a table is an error.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <map>
#include <sstream>

#include "base/document.h"
#include "base/files.h"
#include "paper/layer.h"
#include "paper/style.h"
#include "paper/style_table.h"

namespace deckquire::paper {
namespace {

constexpr const char* name_space = "urn:deckquire:style:1";

struct Reading {
  const Document& xml;
  Findings& findings;

  void error(const Place& place, const char* code, std::string what, std::string remedy) const {
    findings.error(place, code, std::move(what), std::move(remedy));
  }

  void unknown(const Place& place, const char* kind, std::string_view word,
               const std::vector<std::string>& known) const {
    const std::string near = nearest_word(word, known);
    error(
        place, kind, fmt::format("a style has no '{}' here", word),
        near.empty() ? "known are: " + join(known, ", ") : fmt::format("did you mean '{}'?", near));
  }

  /// Every attribute of an item of a list is in the table.
  bool only_known(pugi::xml_node item) const {
    std::vector<std::string> known;
    for (const ItemRow& row : item_rows())
      if (std::string_view(item.name()) == row.item) known.push_back(row.name);
    return only(item, known);
  }

  /// Every attribute of the node is one of `known`.
  bool only(pugi::xml_node node, const std::vector<std::string>& known) const {
    bool good = true;
    for (pugi::xml_attribute a : node.attributes())
      if (std::find(known.begin(), known.end(), a.name()) == known.end()) {
        unknown(xml.place(a), "unknown-property", a.name(), known);
        good = false;
      } else if (node.attribute(a.name()) != a) {
        error(xml.place(a), "twice", fmt::format("{} stands twice", a.name()), "keep one");
        good = false;
      }
    return good;
  }

  std::optional<double> number(pugi::xml_attribute a, double least, double greatest) const {
    const std::string_view text = a.value();
    double v = 0;
    const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), v);
    if (trouble != std::errc() || end != text.data() + text.size() || !std::isfinite(v)) {
      error(xml.value_place(a), "not-a-number",
            fmt::format("{}=\"{}\" is not a number", a.name(), text),
            "write millimetres without a unit, for example 2.5");
      return std::nullopt;
    }
    if (v >= least && v <= greatest) return v;
    error(xml.value_place(a), "out-of-range",
          fmt::format("{}=\"{}\" is out of range", a.name(), text),
          fmt::format("give {} to {}", shortest_decimal(least, 3), shortest_decimal(greatest, 3)));
    return std::nullopt;
  }

  std::optional<int> whole(pugi::xml_attribute a, int least, int greatest) const {
    const auto v = number(a, least, greatest);
    if (!v) return std::nullopt;
    if (*v == std::floor(*v)) return static_cast<int>(*v);
    error(xml.value_place(a), "not-whole",
          fmt::format("{}=\"{}\" is not a whole number", a.name(), a.value()),
          "write it without decimals");
    return std::nullopt;
  }

  /// Leaves `value` as it is when the attribute is not there.
  void flag(pugi::xml_node node, const char* attribute, bool& value) const {
    const pugi::xml_attribute a = node.attribute(attribute);
    if (!a) return;
    const std::string_view word = a.value();
    if (word == "yes" || word == "no")
      value = word == "yes";
    else
      error(xml.value_place(a), "not-a-flag", fmt::format("{}=\"{}\"", a.name(), word),
            "write yes or no");
  }

  /// The row of `rows` that the attribute names.
  template <class Rows, class Name>
  auto chosen(pugi::xml_node node, const char* attribute, const Rows& rows, Name name) const
      -> const typename Rows::value_type* {
    const pugi::xml_attribute a = node.attribute(attribute);
    if (!a) {
      error(xml.place(node), "missing-property",
            fmt::format("<{}> has no {}", node.name(), attribute), "say which one it is");
      return nullptr;
    }
    std::vector<std::string> known;
    for (const auto& row : rows) {
      if (a.value() == std::string_view(name(row))) return &row;
      known.emplace_back(name(row));
    }
    unknown(xml.value_place(a), "unknown-name", a.value(), known);
    return nullptr;
  }
};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (char c : text) {
    if (c != ' ' && c != ',')
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

void read_dash(const Reading& r, pugi::xml_attribute a, Pen& pen) {
  pen.dash.clear();
  double sum = 0;
  for (const std::string& word : words_of(a.value())) {
    double v = -1;
    const auto [end, trouble] = std::from_chars(word.data(), word.data() + word.size(), v);
    if (trouble != std::errc() || end != word.data() + word.size() || !(v > 0 && v <= 100)) {
      r.error(r.xml.value_place(a), "bad-dash",
              fmt::format("dash=\"{}\" has '{}'", a.value(), word),
              "give lengths above 0 mm, on and off in turn, or nothing for a solid line");
      pen.dash.clear();
      return;
    }
    pen.dash.push_back(v);
    sum += v;
  }
  if (pen.dash.size() % 2 == 1)
    r.error(r.xml.value_place(a), "bad-dash",
            fmt::format("dash=\"{}\" ends with an 'on'", a.value()),
            "give lengths on and off in turn");
}

const InkRow* ink_of(const Reading& r, pugi::xml_node node, const char* attribute) {
  return r.chosen(node, attribute, ink_rows(), [](const InkRow& i) { return i.name; });
}

void read_pen(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  const PenRow* row = r.chosen(node, "of", pen_rows(), [](const PenRow& p) { return p.name; });
  if (!row) return;
  Pen& pen = style.pens[static_cast<std::size_t>(row->use)];
  if (auto a = node.attribute("width"))
    if (auto v = r.number(a, 0.05, 5)) pen.width = *v;
  if (auto a = node.attribute("dash")) read_dash(r, a, pen);
  if (node.attribute("ink"))
    if (const InkRow* ink = ink_of(r, node, "ink")) pen.ink = ink->ink;
}

void read_layer(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  const LayerRow* row =
      r.chosen(node, "of", layer_rows(), [](const LayerRow& l) { return l.name; });
  if (!row) return;
  bool shown = !style.hidden[static_cast<std::size_t>(row->layer)];
  r.flag(node, "shown", shown);
  style.hidden[static_cast<std::size_t>(row->layer)] = !shown;
}

void read_letters(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  const LetterRow* row =
      r.chosen(node, "of", letter_rows(), [](const LetterRow& l) { return l.name; });
  if (!row || !node.attribute("height")) return;
  if (auto v = r.number(node.attribute("height"), 1.8, 20))
    style.letters[static_cast<std::size_t>(row->use)] = *v;
}

/// Contrast to white after WCAG 2.1, "relative luminance" and "contrast ratio".
double contrast_to_white(const std::string& colour) {
  const auto channel = [&](std::size_t at) {
    int v = 0;
    std::from_chars(colour.data() + at, colour.data() + at + 2, v, 16);
    const double c = v / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 1.05 / (0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5) + 0.05);
}

void read_ink(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  const InkRow* row = ink_of(r, node, "of");
  const pugi::xml_attribute a = node.attribute("colour");
  if (!row || !a) return;
  const std::string colour = a.value();
  const bool good = colour.size() == 7 && colour[0] == '#' &&
                    colour.find_first_not_of("0123456789abcdef", 1) == std::string::npos;
  if (!good)
    r.error(r.xml.value_place(a), "bad-colour", fmt::format("colour=\"{}\" is no colour", colour),
            "write it as #rrggbb in lower case");
  else if (row->for_text && contrast_to_white(colour) < 4.5)
    r.error(r.xml.value_place(a), "pale-ink",
            fmt::format("colour=\"{}\" stands out from the paper by {}:1 only", colour,
                        decimal(contrast_to_white(colour), 1)),
            "take a darker one: 4.5:1 is the least that survives a black-and-white print");
  else
    style.inks[static_cast<std::size_t>(row->ink)] = colour;
}

void read_hatch(const Reading& r, pugi::xml_node node, Style& style) {
  if (!r.only_known(node)) return;
  const auto* row = r.chosen(node, "of", style.hatches, [](const Hatch& h) { return h.material; });
  if (!row) return;
  Hatch& h = style.hatches[static_cast<std::size_t>(row - style.hatches.data())];
  if (auto a = node.attribute("angle"))
    if (auto v = r.number(a, 0, 180)) h.angle = *v;
  if (auto a = node.attribute("pitch"))
    if (auto v = r.number(a, 0.5, 50)) h.pitch = *v;
  if (auto a = node.attribute("second"))
    if (auto v = r.number(a, 0, 50)) h.second = *v;
  r.flag(node, "dots", h.dots);
  r.flag(node, "solid", h.solid);
}

void read_scale(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  const auto v = r.whole(node.attribute("ratio"), 1, 100000);
  if (!v) return;
  style.scales.push_back(*v);
  style.scale_names.push_back(node.attribute("name").value());
}

void read_field(const Reading& r, pugi::xml_node node, Style& style) {
  r.only_known(node);
  TitleField f;
  f.caption = node.attribute("caption").value();
  f.value = node.attribute("value").value();
  if (auto v = r.number(node.attribute("width"), 0.05, 1)) f.width = *v;
  if (auto v = r.whole(node.attribute("row"), 0, 20)) f.row = *v;
  r.flag(node, "large", f.large);
  style.title_fields.push_back(f);
}

/// An element that holds a list replaces the list it inherits, or changes rows of it.
struct ListRow {
  const char* element;
  const char* item;
  void (*read)(const Reading&, pugi::xml_node, Style&);
  void (*clear)(Style&);  // nullptr: rows are changed, not replaced
};

const std::vector<ListRow>& list_rows() {
  static const std::vector<ListRow> rows = {
      {"pens", "pen", read_pen, nullptr},
      {"letters", "letter", read_letters, nullptr},
      {"inks", "ink", read_ink, nullptr},
      {"layers", "layer", read_layer, nullptr},
      {"hatches", "hatch", read_hatch, nullptr},
      {"scales", "scale", read_scale,
       [](Style& s) {
         s.scales.clear();
         s.scale_names.clear();
       }},
      {"title-block", "field", read_field, [](Style& s) { s.title_fields.clear(); }},
      {"fonts", "font",
       [](const Reading& r, pugi::xml_node node, Style& s) {
         r.only_known(node);
         if (*node.attribute("file").value() == '\0')
           return r.error(r.xml.place(node), "missing-property", "<font> names no file",
                          "add file=\"osifont.ttf\"");
         s.fonts.emplace_back(node.attribute("file").value());
       },
       [](Style& s) { s.fonts.clear(); }},
  };
  return rows;
}

std::string_view self(const char* word) {
  return word;
}

void read_words(const Reading& r, pugi::xml_node node, Style& style) {
  const std::string_view element = node.name();
  for (const WordRow& row : word_rows())
    if (element == row.element && node.attribute(row.name))
      if (const auto* w = r.chosen(node, row.name, row.words, self))
        row.set(style, static_cast<std::size_t>(w - row.words.data()));
  for (const WholeRow& row : whole_rows())
    if (element == row.element && node.attribute(row.name))
      if (auto v = r.whole(node.attribute(row.name), row.least, row.greatest))
        style.*row.value = *v;
}

void read_numbers(const Reading& r, pugi::xml_node node, Style& style) {
  const std::string_view element = node.name();
  std::vector<std::string> known;
  for (const NumberRow& row : number_rows())
    if (element == row.element) known.push_back(row.name);
  for (const WordRow& row : word_rows())
    if (element == row.element) known.push_back(row.name);
  for (const WholeRow& row : whole_rows())
    if (element == row.element) known.push_back(row.name);
  r.only(node, known);
  for (const NumberRow& row : number_rows())
    if (element == row.element && node.attribute(row.name))
      if (auto v = r.number(node.attribute(row.name), row.least, row.greatest))
        style.*row.value = *v;
  read_words(r, node, style);
}

void read_list(const Reading& r, pugi::xml_node node, const ListRow& row, Style& style) {
  if (row.clear && node.first_child()) row.clear(style);
  for (pugi::xml_node item : node.children()) {
    if (item.type() == pugi::node_pcdata || item.first_child())
      r.error(r.xml.place(item), "stray-text",
              "there is something in a style where nothing is read", "take it out");
    if (item.type() != pugi::node_element) continue;
    if (std::string_view(item.name()) == row.item)
      row.read(r, item, style);
    else
      r.unknown(r.xml.place(item), "unknown-element", item.name(), {row.item});
  }
}

void read_element(const Reading& r, pugi::xml_node node, Style& style) {
  std::vector<std::string> known;
  bool found = false;
  for (const NumberRow& row : number_rows()) {
    if (known.empty() || known.back() != row.element) known.push_back(row.element);
    found = found || std::string_view(node.name()) == row.element;
  }
  for (const WordRow& row : word_rows()) {
    if (std::find(known.begin(), known.end(), row.element) == known.end())
      known.push_back(row.element);
    found = found || std::string_view(node.name()) == row.element;
  }
  for (const ListRow& row : list_rows()) {
    known.push_back(row.element);
    if (std::string_view(node.name()) != row.element) continue;
    found = true;
    read_list(r, node, row, style);
  }
  if (!found) return r.unknown(r.xml.place(node), "unknown-element", node.name(), known);
  read_numbers(r, node, style);
}

std::string path_of(const std::string& name, const std::string& folder) {
  return name.ends_with(".xml") ? name : folder + "/" + name + ".xml";
}

/// Settings that are right one by one and wrong together.
void check_together(const Style& style, const Place& place, Findings& findings) {
  if (style.drawing_space().width() < 100 || style.frame().height() < 80)
    findings.error(
        place, "no-drawing-space",
        fmt::format("the sheet of style '{}' leaves {} mm by {} mm for drawing", style.name,
                    decimal(style.drawing_space().width(), 0), decimal(style.frame().height(), 0)),
        "give a larger sheet, or a narrower text column");
  for (const LetterRow& row : letter_rows())
    if (style.letters_of(row.use) < style.least_height)
      findings.error(place, "letters-too-small",
                     fmt::format("letters of '{}' are {} mm, less than the least height {}",
                                 row.name, shortest_decimal(style.letters_of(row.use), 2),
                                 shortest_decimal(style.least_height, 2)),
                     "make them larger, or lower least-height");
  std::map<int, double> rows;
  for (const TitleField& f : style.title_fields) rows[f.row] += f.width;
  for (const auto& [row, sum] : rows)
    if (sum > 1.001)
      findings.error(
          place, "title-row",
          fmt::format("the fields in row {} of the title block are {} of its width in all", row,
                      shortest_decimal(sum, 3)),
          "make the widths in each row sum to 1");
  if (style.fonts.empty())
    findings.error(place, "no-fonts", "the style names no font file",
                   "add <font file=\"osifont.ttf\"/>");
  if (!std::is_sorted(style.scales.begin(), style.scales.end()) || style.scales.empty())
    findings.error(place, "bad-scales", "the scales are not in rising order",
                   "write the largest drawing first");
}

void read_onto(Style& style, const std::string& name, const std::string& folder, int depth,
               Findings& findings) {
  const std::string path = path_of(name, folder);
  const std::string text = read_file(path);
  const Document xml(text, path, findings);
  if (!xml.ok()) return;
  const pugi::xml_node root = xml.root();
  const Reading r{xml, findings};
  if (std::string_view(root.name()) != "style" ||
      root.attribute("xmlns").value() != std::string_view(name_space))
    return r.error(xml.place(root), "not-a-style", fmt::format("<{}> is no style", root.name()),
                   fmt::format("begin with <style xmlns=\"{}\" name=\"...\">", name_space));
  r.only(root, {"xmlns", "name", "based-on"});
  if (const pugi::xml_attribute base = root.attribute("based-on")) {
    constexpr int deepest = 8;
    if (depth >= deepest)
      return r.error(
          xml.place(base), "style-loop",
          fmt::format("style '{}' is based on itself by way of '{}'", name, base.value()),
          "base it on another style, or on none");
    read_onto(style, base.value(), folder, depth + 1, findings);
  }
  style.name = root.attribute("name").value();
  for (pugi::xml_node node : root.children()) {
    if (node.type() == pugi::node_element) read_element(r, node, style);
    if (node.type() == pugi::node_pcdata)
      r.error(xml.place(node), "stray-text", "there is text where a style has none", "take it out");
  }
  if (depth == 0 && !findings.has_errors()) check_together(style, xml.place(root), findings);
}

/// The text of a style file that says only this.
std::string style_text(const StyleChange& c) {
  pugi::xml_document document;
  pugi::xml_node node = document.append_child("style");
  for (const ListRow& row : list_rows())
    if (c.element == row.item && !row.clear) node = node.append_child(row.element);
  node = node.append_child(c.element.c_str());
  if (!c.of.empty()) node.append_attribute("of") = c.of.c_str();
  node.append_attribute(c.property.c_str()) = c.value.c_str();
  std::ostringstream out;
  document.save(out, "", pugi::format_raw | pugi::format_no_declaration);
  return out.str();
}

/// An element that one property of can be set by itself.
bool can_change(const StyleChange& c, std::vector<std::string>& known) {
  for (const NumberRow& row : number_rows())
    if (known.empty() || known.back() != row.element) known.emplace_back(row.element);
  for (const ListRow& row : list_rows())
    if (!row.clear) known.emplace_back(row.item);
  return std::find(known.begin(), known.end(), c.element) != known.end();
}

}  // namespace

void change_style(Style& style, const std::vector<StyleChange>& changes, Findings& findings) {
  for (const StyleChange& c : changes) {
    std::vector<std::string> known;
    if (!can_change(c, known)) {
      const std::string near = nearest_word(c.element, known);
      findings.error(c.place, "unknown-element",
                     fmt::format("a style has no '{}' that can be set by itself", c.element),
                     near.empty() ? "known are: " + join(known, ", ")
                                  : fmt::format("did you mean '{}'?", near));
      continue;
    }
    Findings own;
    const std::string text = style_text(c);
    const Document xml(text, "", own);
    if (xml.ok())
      for (pugi::xml_node node : xml.root().children()) read_element({xml, own}, node, style);
    for (const Finding& f : own.sorted()) findings.error(c.place, f.code, f.what, f.remedy);
  }
  if (!changes.empty() && !findings.has_errors())
    check_together(style, changes.back().place, findings);
}

Style read_style(const std::string& name, const std::string& folder, Findings& findings) {
  Style style = default_style();
  read_onto(style, name, folder, 0, findings);
  return style;
}

}  // namespace deckquire::paper
