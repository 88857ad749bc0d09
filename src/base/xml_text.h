// XML text, checked for form, that still knows the line and column of everything in it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <pugixml.hpp>

#include "base/findings.h"

namespace deckquire {

/// Parses strictly: UTF-8 (a byte order mark may lead), one root, no DOCTYPE, no processing
/// instructions, no entities but the five of XML and character references, no attribute twice, at
/// most 64 elements deep and 200 attributes an element. The first breach goes to `findings` with
/// its place, and root() is then empty. Never throws for bad text.
class XmlText {
 public:
  XmlText(std::string text, std::string file, Findings& findings);
  XmlText(const XmlText&) = delete;
  XmlText& operator=(const XmlText&) = delete;

  pugi::xml_node root() const { return root_; }

  /// Of the name of an element or an attribute, or of the first character of text.
  Place place_of(pugi::xml_node node) const;
  Place place_of(pugi::xml_attribute attribute) const;
  /// Of the first character of the value, behind its quotation mark.
  Place place_of_value(pugi::xml_attribute attribute) const;
  Place place_at(std::size_t offset) const;

 private:
  void parse(Findings& findings);
  std::size_t offset_of(const char* in_buffer) const;

  std::string text_;  // as written
  std::string file_;
  std::size_t mark_ = 0;            // bytes of the byte order mark
  std::vector<std::size_t> lines_;  // offsets of their first bytes
  std::vector<char> buffer_;        // what the parser edits and points into
  pugi::xml_document document_;
  pugi::xml_node root_;
};

}  // namespace deckquire
