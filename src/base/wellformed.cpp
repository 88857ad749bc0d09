#include "base/wellformed.h"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "base/text.h"

namespace deckquire {
namespace {

constexpr std::size_t largest_text = std::size_t{32} << 20;
constexpr std::size_t deepest = 64, most_attributes = 100, longest_value = 10000;

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool is_name_start(char c) {
  const auto u = static_cast<unsigned char>(c);
  return (u >= 'A' && u <= 'Z') || (u >= 'a' && u <= 'z') || u == '_' || u == ':' || u >= 0x80;
}

bool is_name_char(char c) {
  return is_name_start(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
}

std::string shown(std::string_view name) {
  if (name.size() <= 30) return std::string(name);
  std::size_t n = 30;
  while ((static_cast<unsigned char>(name[n]) & 0xC0) == 0x80) --n;
  return std::string(name.substr(0, n)) + "...";
}

struct Open {
  std::string_view name;
  std::size_t offset;
};

/// Walks over the text; every step returns false once a fault is noted.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::optional<XmlFault> run() {
    if (starts("\xEF\xBB\xBF")) at_ += 3;
    if (declaration())
      while (!done() && step()) {
      }
    if (!fault_) finish();
    return fault_;
  }

 private:
  bool done() const { return at_ >= text_.size(); }
  char here() const { return done() ? '\0' : text_[at_]; }
  bool starts(std::string_view word) const { return text_.substr(at_, word.size()) == word; }
  void skip_blanks() {
    while (!done() && is_blank(text_[at_])) ++at_;
  }

  bool fail(std::size_t offset, std::string what, std::string remedy, std::string code = "xml") {
    fault_ = XmlFault{offset, std::move(code), std::move(what), std::move(remedy)};
    return false;
  }

  std::string_view name() {
    const std::size_t begin = at_;
    if (!done() && is_name_start(text_[at_]))
      while (!done() && is_name_char(text_[at_])) ++at_;
    return text_.substr(begin, at_ - begin);
  }

  /// Skips to behind `end`.
  bool skip_past(std::string_view end, std::string_view what) {
    const std::size_t found = text_.find(end, at_);
    if (found == std::string_view::npos)
      return fail(at_, fmt::format("{} is not closed", what), fmt::format("close it with {}", end));
    at_ = found + end.size();
    return true;
  }

  bool declaration() {
    if (!starts("<?xml") || at_ + 5 >= text_.size() || !is_blank(text_[at_ + 5])) return true;
    const std::size_t begin = at_;
    if (!skip_past("?>", "the XML declaration")) return false;
    std::string words(text_.substr(begin, at_ - begin));
    std::transform(words.begin(), words.end(), words.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    const std::size_t encoding = words.find("encoding");
    if (encoding == std::string::npos) return true;
    const std::string rest = words.substr(encoding, 20);
    if (rest.find("\"utf-8\"") != std::string::npos || rest.find("'utf-8'") != std::string::npos)
      return true;
    return fail(begin, "the file declares an encoding other than UTF-8",
                "save it as UTF-8 and declare encoding=\"UTF-8\"", "encoding");
  }

  bool step() {
    if (here() != '<') return characters();
    if (starts("<!--")) return comment();
    if (starts("<![CDATA[")) return cdata();
    if (starts("<!DOCTYPE"))
      return fail(at_, "the file has a document type declaration", "delete the <!DOCTYPE ...>",
                  "doctype");
    if (starts("<?")) return instruction();
    if (starts("</")) return end_tag();
    return start_tag();
  }

  bool comment() {
    const std::size_t begin = at_;
    at_ += 4;
    const std::size_t found = text_.find("--", at_);
    if (found == std::string_view::npos)
      return fail(begin, "the comment is not closed", "close it with -->");
    at_ = found;
    if (!starts("-->"))
      return fail(found, "-- stands inside a comment",
                  "put something else there, or close with -->");
    at_ += 3;
    return true;
  }

  bool cdata() {
    if (open_.empty()) return fail(at_, "text stands outside the root element", "delete it");
    return skip_past("]]>", "the CDATA section");
  }

  bool instruction() {
    if (starts("<?xml") && at_ + 5 < text_.size() && is_blank(text_[at_ + 5]))
      return fail(at_, "the XML declaration is not at the very beginning",
                  "move it to the first line, or delete it");
    return skip_past("?>", "the processing instruction");
  }

  bool characters() {
    const std::size_t begin = at_;
    const std::size_t end = std::min(text_.find('<', at_), text_.size());
    if (open_.empty()) {
      skip_blanks();
      if (at_ < end) {
        if (root_done_)
          return fail(at_, "text stands behind the end of the root element", "delete it");
        return fail(at_, "the file does not begin with an XML element", "begin with <project ...>");
      }
      return true;
    }
    const std::size_t bracket = text_.substr(begin, end - begin).find("]]>");
    if (bracket != std::string_view::npos)
      return fail(begin + bracket, "]]> stands in a text", "write ]]&gt;");
    at_ = end;
    return references(begin, end);
  }

  /// Every & between two offsets begins a reference that XML knows.
  bool references(std::size_t begin, std::size_t end) {
    for (std::size_t i = text_.find('&', begin); i < end; i = text_.find('&', i + 1)) {
      const std::size_t close = text_.substr(i, std::min<std::size_t>(40, end - i)).find(';');
      const std::string_view word =
          close == std::string_view::npos ? std::string_view() : text_.substr(i + 1, close - 1);
      if (word.empty() || !(word[0] == '#' || std::all_of(word.begin(), word.end(), is_name_char)))
        return fail(i, "a bare & stands here", "write &amp;");
      if (word[0] == '#' ? !character(word.substr(1)) : !is_known(word))
        return fail(i, fmt::format("'&{};' stands for nothing", shown(word)),
                    "write the character itself; only &amp; &lt; &gt; &quot; &apos; and the "
                    "numbers of printable characters are known");
    }
    return true;
  }

  static bool is_known(std::string_view w) {
    return w == "amp" || w == "lt" || w == "gt" || w == "quot" || w == "apos";
  }

  /// A character number that stands for something printable, a tab or a line end.
  static bool character(std::string_view digits) {
    const bool hex = !digits.empty() && digits[0] == 'x';
    if (hex) digits.remove_prefix(1);
    if (digits.empty() || digits.size() > 8) return false;
    unsigned long n = 0;
    for (char c : digits) {
      const char low = c >= 'A' && c <= 'F' ? static_cast<char>(c + 32) : c;
      if (low >= '0' && low <= '9')
        n = n * (hex ? 16UL : 10UL) + static_cast<unsigned long>(low - '0');
      else if (hex && low >= 'a' && low <= 'f')
        n = n * 16UL + static_cast<unsigned long>(low - 'a' + 10);
      else
        return false;
    }
    if (n == 9 || n == 10 || n == 13) return true;
    const bool control = n < 32 || (n >= 0x7F && n < 0xA0);
    const bool odd = (n >= 0xD800 && n <= 0xDFFF) || (n & 0xFFFE) == 0xFFFE ||
                     (n >= 0xFDD0 && n <= 0xFDEF) || n > 0x10FFFF;
    return !control && !odd;
  }

  bool start_tag() {
    const std::size_t begin = at_++;
    const std::string_view element = name();
    if (element.empty())
      return fail(begin, "a bare < stands here", "write &lt; for the character, or finish the tag");
    if (open_.empty() && root_done_)
      return fail(begin,
                  fmt::format("<{}> stands behind the end of the root element", shown(element)),
                  "keep one root element");
    if (open_.size() >= deepest)
      return fail(begin, fmt::format("elements lie more than {} deep in one another", deepest),
                  "close the outer ones", "too-deep");
    if (!attributes(element, begin)) return false;
    if (here() == '/') {
      ++at_;
      root_done_ = open_.empty();
    } else {
      open_.push_back({element, begin});
    }
    if (here() != '>')
      return fail(begin, fmt::format("the tag <{}> is not closed", shown(element)),
                  "close it with >");
    ++at_;
    return true;
  }

  bool attributes(std::string_view element, std::size_t begin) {
    for (std::size_t n = 0;; ++n) {
      const std::size_t before = at_;
      skip_blanks();
      if (done())
        return fail(begin, fmt::format("the file ends inside the tag <{}>", shown(element)),
                    "close it with >");
      if (here() == '>' || here() == '/') return true;
      if (n >= most_attributes)
        return fail(
            at_, fmt::format("<{}> has more than {} attributes", shown(element), most_attributes),
            "delete those that do not belong there", "too-large");
      if (before == at_)
        return fail(at_,
                    fmt::format("'{}' stands in the tag <{}> where a blank, > or /> belongs",
                                shown(text_.substr(at_, 1)), shown(element)),
                    "put a blank between attributes and close the tag with >");
      if (!attribute(element)) return false;
    }
  }

  bool attribute(std::string_view element) {
    const std::size_t begin = at_;
    const std::string_view attribute = name();
    if (attribute.empty())
      return fail(
          begin,
          fmt::format("the tag <{}> has something here that is no attribute", shown(element)),
          "write name=\"value\", or close the tag with >");
    skip_blanks();
    if (here() != '=')
      return fail(begin, fmt::format("the attribute {} has no value", shown(attribute)),
                  fmt::format("write {}=\"...\"", shown(attribute)));
    ++at_;
    skip_blanks();
    if (done())
      return fail(begin, fmt::format("the file ends inside the tag <{}>", shown(element)),
                  "close it with >");
    const char quote = here();
    if (quote != '"' && quote != '\'')
      return fail(at_, fmt::format("the value of {} has no quotes", shown(attribute)),
                  fmt::format("write {}=\"...\"", shown(attribute)));
    return value(attribute, quote);
  }

  bool value(std::string_view attribute, char quote) {
    const std::size_t begin = ++at_;
    const std::size_t end = text_.find(quote, begin);
    const std::size_t stop = std::min(text_.find('<', begin), end);
    if (end == std::string_view::npos || stop < end)
      return fail(begin - 1,
                  fmt::format("the value of {} is not closed{}", shown(attribute),
                              stop < text_.size() ? " before a <" : ""),
                  fmt::format("close it with {} (or write &lt; for <)", quote));
    if (end - begin > longest_value)
      return fail(
          begin - 1,
          fmt::format("the value of {} has more than {} bytes", shown(attribute), longest_value),
          "shorten it", "too-large");
    at_ = end + 1;
    return references(begin, end);
  }

  bool end_tag() {
    const std::size_t begin = at_;
    at_ += 2;
    const std::string_view element = name();
    skip_blanks();
    if (open_.empty())
      return fail(begin, fmt::format("</{}> closes nothing", shown(element)), "delete it");
    const Open opened = open_.back();
    if (element != opened.name || here() != '>')
      return fail(begin,
                  fmt::format("</{}> stands where <{}> of line {} is to be closed", shown(element),
                              shown(opened.name), line(opened.offset)),
                  fmt::format("write </{}> first", shown(opened.name)));
    ++at_;
    open_.pop_back();
    root_done_ = open_.empty();
    return true;
  }

  long line(std::size_t offset) const {
    return 1 + std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(offset), '\n');
  }

  bool finish() {
    if (!open_.empty())
      return fail(open_.back().offset,
                  fmt::format("<{}> is not closed: the file ends first", shown(open_.back().name)),
                  fmt::format("close it with </{}>", shown(open_.back().name)));
    if (!root_done_) return fail(at_, "the file is empty", "begin with <project ...>");
    return true;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<Open> open_;
  bool root_done_ = false;
  std::optional<XmlFault> fault_;
};

/// The first byte that is no part of clean UTF-8, in a text that is not clean.
std::size_t unclean_offset(std::string_view text) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size() - 1) + 1;
    if (!is_clean_utf8(text.substr(begin, end - begin))) break;
    begin = end;
  }
  for (std::size_t at = begin; at < text.size();) {
    std::size_t n = 1;
    while (n < 4 && at + n < text.size() &&
           (static_cast<unsigned char>(text[at + n]) & 0xC0) == 0x80)
      ++n;
    if (!is_clean_utf8(text.substr(at, n))) return at;
    at += n;
  }
  return begin;
}

}  // namespace

std::optional<XmlFault> find_xml_fault(std::string_view text) {
  if (text.size() > largest_text)
    return XmlFault{
        0, "too-large",
        fmt::format("the file has {} MB; {} are the most", text.size() >> 20, largest_text >> 20),
        "divide the project"};
  if (!is_clean_utf8(text)) {
    const std::size_t at = unclean_offset(text);
    return XmlFault{at, "encoding",
                    fmt::format("byte 0x{:02X} is no clean UTF-8 text here",
                                static_cast<unsigned char>(text[at])),
                    "save the file as UTF-8, without control characters"};
  }
  return Scanner(text).run();
}

}  // namespace deckquire
