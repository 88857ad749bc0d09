// A parsed XML file that knows the line and column of everything in it.
#pragma once

#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/findings.h"

namespace deckquire {

class Document {
 public:
  /// Parses; faults of the text go to `findings`, and then ok() is false. The text outlives it.
  Document(const std::string& text, std::string file, Findings& findings);
  Document(std::string&&, std::string, Findings&) = delete;
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;

  bool ok() const { return ok_; }
  pugi::xml_node root() const { return tree_.document_element(); }
  /// Of the < of an element; of the first character of a text.
  Place place(pugi::xml_node node) const;
  /// Of an attribute's name, and of its value.
  Place place(pugi::xml_attribute attribute) const;
  Place value_place(pugi::xml_attribute attribute) const;

 private:
  Place at(std::size_t offset) const;
  Place at(const char* parsed) const;

  const std::string& text_;  // untouched: parsing edits the buffer
  std::string file_;
  std::vector<char> buffer_;
  std::vector<std::size_t> lines_;  // offsets of their beginnings
  std::size_t skipped_ = 0;         // byte order mark
  pugi::xml_document tree_;
  bool ok_ = false;
  // The last place asked for: columns are counted on from there, or a long line would cost a scan
  // for every place in it.
  struct Counted {
    std::size_t line = 0, offset = 0;
    int column = 1;
  };
  mutable Counted last_;
};

/// The text directly in an element, blanks run together.
std::string text_of(pugi::xml_node element);

/// A value for a message: on one line, at most 60 characters, in quotes.
std::string quoted(std::string_view value);

}  // namespace deckquire
