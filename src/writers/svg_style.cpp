#include "writers/svg_style.h"

#include <fmt/format.h>

#include "base/text.h"
#include "paper/layer.h"
#include "writers/markup.h"

namespace deckquire::writers {
namespace {

using namespace paper;

/// Letters, digits and hyphens, beginning with a letter.
std::string class_name(const std::string& name) {
  std::string out;
  for (char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    out += plain ? c : '-';
  }
  const bool begins = !out.empty() && ((out[0] | 32) >= 'a' && (out[0] | 32) <= 'z');
  return begins ? out : "pen-" + out;
}

std::uint32_t next_character(const std::string& s, std::size_t& i) {
  const auto lead = static_cast<unsigned char>(s[i++]);
  const int more = lead < 0x80 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : 3;
  std::uint32_t c = more == 0 ? lead : lead & (0x3f >> more);
  for (int k = 0; k < more; ++k) c = c << 6 | (static_cast<unsigned char>(s[i++]) & 0x3f);
  return c;
}

std::string pen_rule(const std::string& name, const Pen& pen, const DocumentInfo& info) {
  std::string out = fmt::format("path.{}{{fill:none;stroke:{};stroke-width:", name,
                                info.inks[static_cast<std::size_t>(pen.ink)]);
  append_number(out, pen.width * 100);
  out += pen.dash.empty() ? ";stroke-linecap:square" : ";stroke-dasharray:";
  for (std::size_t i = 0; i < pen.dash.size(); ++i) {
    if (i > 0) out += ' ';
    append_number(out, pen.dash[i] * 100);
  }
  return out + ";stroke-miterlimit:2}\n";
}

/// A family name inside single quotes of CSS.
std::string quoted(const std::string& family) {
  std::string out = "'";
  for (char c : family)
    if (c != '\'' && c != '\\' && c != '<' && c != '&' && c != '\n') out += c;
  return out + "'";
}

}  // namespace

SvgClasses::SvgClasses(const Sheet& sheet, const Lettering& lettering)
    : sheet_(sheet), lettering_(lettering) {
  std::set<std::string> taken;
  for (int i = 0; i < 6; ++i) taken.insert(ink(static_cast<Ink>(i)));
  for (const Pen& pen : sheet.pens) {
    std::string name = class_name(pen.name);
    for (int n = 2; !taken.insert(name).second; ++n)
      name = fmt::format("{}-{}", class_name(pen.name), n);
    pens_.push_back(name);
  }
}

const char* SvgClasses::ink(Ink i) {
  static constexpr const char* names[] = {"ink-black", "ink-accent", "ink-red",
                                          "ink-grey",  "ink-pale",   "ink-white"};
  return names[static_cast<std::size_t>(i)];
}

const std::string& SvgClasses::letters(const Run& run, double height) {
  auto& characters = characters_[run.font];
  for (std::size_t i = 0; i < run.text.size();) characters.insert(next_character(run.text, i));
  const auto found = letters_.find({run.font, height});
  if (found != letters_.end()) return found->second;
  std::string name = fmt::format("f{}-", run.font);
  for (char c : shortest_decimal(height, 4)) name += c == '.' ? '_' : c;
  return letters_[{run.font, height}] = name;
}

std::string SvgClasses::rules(const DocumentInfo& info, std::vector<FontCutter>& cutters) const {
  std::string out;
  for (const auto& [font, characters] : characters_) {
    const std::string woff = cutters[static_cast<std::size_t>(font)].woff(characters);
    out += fmt::format(
        "@font-face{{font-family:'Sheet{}';src:url(data:font/woff;base64,{}) format('woff')}}\n",
        font, base64(woff));
  }
  out +=
      "text{white-space:pre;font-kerning:none;font-variant-ligatures:none;"
      "text-rendering:geometricPrecision}\n";
  for (const auto& [key, name] : letters_) {
    const FontFile& file = lettering_.fonts()[static_cast<std::size_t>(key.first)];
    out += fmt::format(".{}{{font-family:'Sheet{}',{},sans-serif;font-size:", name, key.first,
                       quoted(file.family));
    append_number(out, key.second / file.cap_height * 100);
    out += "px}\n";
  }
  for (std::size_t i = 0; i < pens_.size(); ++i) out += pen_rule(pens_[i], sheet_.pens[i], info);
  for (std::size_t i = 0; i < layer_count; ++i)
    if (info.hidden[i])
      out += fmt::format(".layer-{}{{display:none}}\n", name_of(static_cast<Layer>(i)));
  for (std::size_t i = 0; i < info.inks.size(); ++i)
    out +=
        fmt::format(".{}{{fill:{};fill-rule:evenodd}}\n", ink(static_cast<Ink>(i)), info.inks[i]);
  return out;
}

}  // namespace deckquire::writers
