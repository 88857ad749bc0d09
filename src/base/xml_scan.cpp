#include "base/xml_scan.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"

namespace deckquire {

namespace {

constexpr auto npos = std::string_view::npos;

bool is_character(std::uint32_t c) {
  if (c < 0x20) return c == '\t' || c == '\n' || c == '\r';
  if (c >= 0x7F && c < 0xA0) return false;
  return c <= 0x10FFFF && !(c >= 0xD800 && c <= 0xDFFF) && !(c >= 0xFDD0 && c <= 0xFDEF) &&
         (c & 0xFFFE) != 0xFFFE;
}

/// The name between '&' and ';' stands for one character that may be in a text.
bool is_known_reference(std::string_view name) {
  static constexpr std::array<std::string_view, 5> entities = {"amp", "lt", "gt", "quot", "apos"};
  if (std::find(entities.begin(), entities.end(), name) != entities.end()) return true;
  if (name.size() < 2 || name[0] != '#') return false;
  const bool hexadecimal = name[1] == 'x';
  const std::string_view digits = name.substr(hexadecimal ? 2 : 1);
  std::uint32_t c = 0;
  const auto [end, status] =
      std::from_chars(digits.data(), digits.data() + digits.size(), c, hexadecimal ? 16 : 10);
  return status == std::errc() && end == digits.data() + digits.size() && is_character(c);
}

/// Walks the text once, skipping what the parser skips.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::optional<XmlBreach> scan() {
    while (at_ < text_.size() && !breach_) {
      if (text_[at_] == '&')
        reference();
      else if (text_[at_] == '<')
        markup();
      else
        ++at_;
    }
    return breach_;
  }

 private:
  bool starts(std::string_view with) const { return text_.substr(at_, with.size()) == with; }
  void breach(std::string code, std::string what, std::string remedy) {
    breach_ = XmlBreach{at_, std::move(code), std::move(what), std::move(remedy)};
  }
  /// To behind the next `end`; to the end of the text when there is none (the parser will say so).
  void skip_past(std::string_view end) {
    const std::size_t found = text_.find(end, at_);
    at_ = found == npos ? text_.size() : found + end.size();
  }

  void reference() {
    const std::size_t end = text_.find(';', at_);
    const std::string_view name =
        end == npos || end - at_ > 12 ? "" : text_.substr(at_ + 1, end - at_ - 1);
    if (!is_known_reference(name)) {
      breach("xml-entity",
             name.empty() ? "a bare '&'" : fmt::format("the entity '&{};' is not known", name),
             "write &amp; for '&', or the character itself");
      return;
    }
    at_ = end + 1;
  }

  void markup() {
    if (starts("<!--")) return skip_past("-->");
    if (starts("<![CDATA[")) return skip_past("]]>");
    if (starts("<!"))
      return breach("xml-doctype", "a document type declaration is not read",
                    "leave it out; editors find the schema without it");
    if (starts("<?")) return instruction();
    tag();
  }

  void instruction() {
    const bool declaration = at_ == 0 && starts("<?xml ");
    if (!declaration)
      return breach("xml-instruction", "a processing instruction is not read", "leave it out");
    const std::size_t end = std::min(text_.find("?>", at_), text_.size());
    std::string words(text_.substr(at_, end - at_));
    std::transform(words.begin(), words.end(), words.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    if (words.find("encoding") != npos && words.find("utf-8") == npos)
      return breach("xml-encoding", "the file declares another encoding than UTF-8",
                    "save it as UTF-8 and declare encoding=\"UTF-8\"");
    skip_past("?>");
  }

  void tag() {
    char quote = 0;
    for (++at_; at_ < text_.size() && !breach_; ++at_) {
      const char c = text_[at_];
      if (quote == 0 && c == '>') return;
      if (c == '<')
        return breach("xml-form", "a '<' inside a tag",
                      "write &lt; in values, and close the tag before the next one");
      if (c == '"' || c == '\'') quote = quote == 0 ? c : quote == c ? 0 : quote;
      if (c == '&') {
        reference();
        --at_;
      }
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::optional<XmlBreach> breach_;
};

/// Offset of the first byte of the first line that is not clean UTF-8.
std::size_t first_unclean(std::string_view text) {
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    if (!is_clean_utf8(text.substr(start, end - start))) break;
    start = end + 1;
  }
  return start;
}

}  // namespace

std::optional<XmlBreach> first_breach(std::string_view text) {
  if (!is_clean_utf8(text))
    return XmlBreach{first_unclean(text), "xml-encoding",
                     "a line that is not clean UTF-8 (broken or control characters)",
                     "save the file as UTF-8 and take out control characters"};
  return Scanner(text).scan();
}

}  // namespace deckquire
