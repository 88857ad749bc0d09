#include "base/xml_text.h"

#include <algorithm>
#include <functional>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "base/xml_scan.h"

namespace deckquire {

namespace {

constexpr int deepest = 64;
constexpr std::size_t most_attributes = 200;

std::vector<std::size_t> line_starts(std::string_view text) {
  std::vector<std::size_t> out{0};
  for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1))
    out.push_back(at + 1);
  return out;
}

const char* remedy_of(pugi::xml_parse_status status) {
  switch (status) {
    case pugi::status_end_element_mismatch:
      return "close every element under its own name";
    case pugi::status_bad_attribute:
      return "write attributes as name=\"value\"";
    case pugi::status_bad_comment:
      return "end comments with -->";
    default:
      return "check this place for a missing quotation mark or bracket";
  }
}

std::string lower(std::string s) {
  if (!s.empty() && s[0] >= 'A' && s[0] <= 'Z') s[0] = static_cast<char>(s[0] + 32);
  return s;
}

}  // namespace

XmlText::XmlText(std::string text, std::string file, Findings& findings)
    : text_(std::move(text)), file_(std::move(file)) {
  if (text_.rfind("\xEF\xBB\xBF", 0) == 0) mark_ = 3;
  lines_ = line_starts(text_);
  const auto breach = first_breach(std::string_view(text_).substr(mark_));
  if (breach)
    findings.error(place_at(breach->offset + mark_), breach->code, breach->what, breach->remedy);
  else
    parse(findings);
}

namespace {

/// The next node in document order below `root`; `depth` follows.
pugi::xml_node next_in(pugi::xml_node root, pugi::xml_node node, int& depth) {
  if (node.first_child()) {
    ++depth;
    return node.first_child();
  }
  while (node != root && !node.next_sibling()) {
    node = node.parent();
    --depth;
  }
  return node == root ? pugi::xml_node() : node.next_sibling();
}

/// An attribute that stands twice on the element, or one too many.
pugi::xml_attribute surplus_attribute(pugi::xml_node node) {
  std::set<std::string_view> names;
  for (pugi::xml_attribute a : node.attributes())
    if (!names.insert(a.name()).second || names.size() > most_attributes) return a;
  return {};
}

}  // namespace

void XmlText::parse(Findings& findings) {
  buffer_.assign(text_.begin() + static_cast<std::ptrdiff_t>(mark_), text_.end());
  const auto result = document_.load_buffer_inplace(buffer_.data(), buffer_.size(),
                                                    pugi::parse_default | pugi::parse_fragment,
                                                    pugi::encoding_utf8);
  if (!result) {
    findings.error(place_at(static_cast<std::size_t>(result.offset) + mark_), "xml-form",
                   "not well-formed XML: " + lower(result.description()), remedy_of(result.status));
    return;
  }
  pugi::xml_node root;
  for (pugi::xml_node node : document_.children()) {
    if (node.type() == pugi::node_element && !root) {
      root = node;
    } else if (node.type() == pugi::node_element || node.type() == pugi::node_pcdata ||
               node.type() == pugi::node_cdata) {
      findings.error(place_of(node), "xml-form", "something stands outside the root element",
                     "keep everything inside one element");
      return;
    }
  }
  if (!root) {
    findings.error(place_at(0), "xml-form", "the file has no element", "write a root element");
    return;
  }
  int depth = 1;
  for (pugi::xml_node node = root; node; node = next_in(root, node, depth)) {
    if (depth > deepest) {
      findings.error(place_of(node), "xml-depth",
                     fmt::format("elements more than {} deep", deepest), "nest less");
      return;
    }
    if (const auto surplus = surplus_attribute(node)) {
      findings.error(place_of(surplus), "xml-attribute",
                     fmt::format("attribute '{}' stands twice or is one too many", surplus.name()),
                     "keep one");
      return;
    }
  }
  root_ = root;
}

std::size_t XmlText::offset_of(const char* in_buffer) const {
  // Empty values may point at the parser's own empty text.
  const char* first = buffer_.data();
  if (std::less<>()(in_buffer, first) || std::less<>()(first + buffer_.size(), in_buffer)) return 0;
  return static_cast<std::size_t>(in_buffer - first) + mark_;
}

Place XmlText::place_of(pugi::xml_node node) const {
  const auto offset = node.offset_debug();
  return place_at(offset < 0 ? 0 : static_cast<std::size_t>(offset) + mark_);
}

Place XmlText::place_of(pugi::xml_attribute attribute) const {
  return place_at(offset_of(attribute.name()));
}

Place XmlText::place_of_value(pugi::xml_attribute attribute) const {
  if (attribute.value()[0] == '\0') return place_of(attribute);
  return place_at(offset_of(attribute.value()));
}

Place XmlText::place_at(std::size_t offset) const {
  const std::size_t at = std::min(offset, text_.size());
  const auto after = std::upper_bound(lines_.begin(), lines_.end(), at);
  const std::size_t start = std::max(*(after - 1), std::min(mark_, at));  // the mark is no column
  int column = 1;
  for (std::size_t i = start; i < at; ++i)
    if ((static_cast<unsigned char>(text_[i]) & 0xC0) != 0x80) ++column;
  return {file_, static_cast<int>(after - lines_.begin()), column};
}

}  // namespace deckquire
