// The vocabulary as a page.
#include <fmt/core.h>

#include "base/text.h"
#include "project/reader.h"
#include "project/vocabulary_words.h"

namespace deckquire {
namespace {

/// Text in a cell of a Markdown table.
std::string cell(const std::string& text) {
  std::string out;
  for (char c : text) {
    if (c == '|' || c == '<') out += '\\';
    out += c;
  }
  return out;
}

std::string parents(const Element& e) {
  std::string out;
  for (const Element& p : vocabulary())
    for (const Child& c : p.children)
      if (c.name == e.name)
        out += fmt::format("{}in `<{}>`, {}", out.empty() ? "" : "; ", p.name, count_words(c));
  return out.empty() ? "the root" : out;
}

std::string element_section(const Element& e) {
  std::string out = fmt::format("### `<{}>`\n\n{} ({}.)\n", e.name, cell(e.meaning), parents(e));
  for (const Choice& c : e.choices) out += fmt::format("Give {}.\n", choice_words(c));
  if (e.attributes.empty()) return out + "\n";
  out += "\n| attribute | what | default | allowed | meaning |\n| --- | --- | --- | --- | --- |\n";
  for (const Attribute& a : e.attributes)
    out += fmt::format("| `{}` | {} | {} | {} | {}{} |\n", a.name, kind_words(a.kind),
                       cell(preset_words(a)), cell(limits_words(a)), cell(a.meaning),
                       a.unique ? " No two alike." : "");
  return out + "\n";
}

std::string kinds_section() {
  std::string out = "### How values are written\n\n| what | is |\n| --- | --- |\n";
  for (int k = 0; k <= static_cast<int>(Kind::scale); ++k) {
    const Kind kind = static_cast<Kind>(k);
    out += fmt::format("| {} | {} |\n", kind_words(kind), cell(how_to_write(kind)));
  }
  return out + "\n";
}

std::string materials_section() {
  std::string out =
      "### Materials left out\n\n| part | is taken as | density | in feet and inches |\n"
      "| --- | --- | --- | --- |\n";
  for (const MaterialDefault& m : material_defaults())
    out += fmt::format("| {} | {} | {} | {} |\n", m.part, m.name, m.metric, m.imperial);
  return out + "\n";
}

std::string tolerances_section() {
  std::string out =
      "### Tolerances left out\n\n| of | plus or minus | in feet and inches |\n"
      "| --- | --- | --- |\n";
  for (const ToleranceDefault& t : tolerance_defaults())
    out += fmt::format("| {} | {} | {} |\n", t.of, t.metric, t.imperial);
  return out + "\n";
}

std::string not_yet_section() {
  std::string out = "### Not there yet\n\nThe reader refuses these with the code `not-yet`.\n\n";
  for (const NotYet& n : not_yet_elements()) out += fmt::format("* `<{}>`: {}\n", n.name, n.about);
  for (const NotYet& n : not_yet_attributes()) out += fmt::format("* `{}=`: {}\n", n.name, n.about);
  return out + "* sheet series C and R\n";
}

}  // namespace

std::string project_reference() {
  std::string out =
      "## Reference\n\nEvery element, attribute and default. Where two defaults stand, the second "
      "holds in projects in feet and inches (`units=\"in\"` or `units=\"ft\"`).\n\n";
  for (const Element& e : vocabulary()) out += element_section(e);
  return out + kinds_section() + materials_section() + tolerances_section() + not_yet_section();
}

}  // namespace deckquire
