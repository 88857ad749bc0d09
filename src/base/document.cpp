#include "base/document.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/wellformed.h"

namespace deckquire {
namespace {

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

std::vector<std::size_t> line_beginnings(const std::string& text) {
  std::vector<std::size_t> lines{0};
  for (std::size_t i = text.find('\n'); i != std::string::npos; i = text.find('\n', i + 1))
    lines.push_back(i + 1);
  return lines;
}

}  // namespace

Document::Document(const std::string& text, std::string file, Findings& findings)
    : text_(text), file_(std::move(file)), lines_(line_beginnings(text)) {
  if (const auto fault = find_xml_fault(text)) {
    findings.error(at(fault->offset), fault->code, fault->what, fault->remedy);
    return;
  }
  skipped_ = text.compare(0, 3, "\xEF\xBB\xBF") == 0 ? 3 : 0;
  buffer_.assign(text.begin() + static_cast<std::ptrdiff_t>(skipped_), text.end());
  const auto result = tree_.load_buffer_inplace(buffer_.data(), buffer_.size(), pugi::parse_default,
                                                pugi::encoding_utf8);
  if (!result) {
    const auto offset = static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0));
    findings.error(at(offset + skipped_), "xml",
                   fmt::format("this is no XML: {}", result.description()), "mend it here");
    return;
  }
  ok_ = true;
}

Place Document::at(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  const auto next = std::upper_bound(lines_.begin(), lines_.end(), offset);
  const auto line = static_cast<std::size_t>(next - lines_.begin()) - 1;
  if (line != last_.line || offset < last_.offset) last_ = {line, lines_[line], 1};
  for (; last_.offset < offset; ++last_.offset)
    if (!is_continuation(text_[last_.offset])) ++last_.column;
  const int mark = line == 0 && skipped_ > 0 && offset >= skipped_ ? 1 : 0;  // has no width
  return {file_, static_cast<int>(line) + 1, last_.column - mark};
}

Place Document::at(const char* parsed) const {
  const std::less<const char*> before;
  const char* begin = buffer_.data();
  if (before(parsed, begin) || !before(parsed, begin + buffer_.size())) return {file_, 1, 1};
  return at(static_cast<std::size_t>(parsed - begin) + skipped_);
}

Place Document::place(pugi::xml_node node) const {
  if (node.type() == pugi::node_element) return at(node.name() - 1);
  const char* c = node.value();
  while (*c == ' ' || *c == '\t' || *c == '\n') ++c;
  return at(c);
}

Place Document::place(pugi::xml_attribute attribute) const {
  return at(attribute.name());
}

Place Document::value_place(pugi::xml_attribute attribute) const {
  return at(attribute.value());
}

std::string text_of(pugi::xml_node element) {
  std::string out;
  bool blank = false;
  for (pugi::xml_node child : element.children()) {
    if (child.type() != pugi::node_pcdata && child.type() != pugi::node_cdata) continue;
    for (const char* c = child.value(); *c != '\0'; ++c) {
      const bool is_blank = *c == ' ' || *c == '\t' || *c == '\n' || *c == '\r';
      if (!is_blank && blank && !out.empty()) out += ' ';
      if (!is_blank) out += *c;
      blank = is_blank;
    }
  }
  return out;
}

std::string quoted(std::string_view value) {
  std::string out = "\"";
  int count = 0;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!is_continuation(value[i]) && ++count > 60) return out + "...\"";
    const bool blank = value[i] == '\n' || value[i] == '\r' || value[i] == '\t';
    out += blank ? ' ' : value[i];
  }
  return out + "\"";
}

}  // namespace deckquire
