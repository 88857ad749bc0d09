// Is a text an XML document of the plain kind that project files are? The parser lets much pass
// that must not (several roots, bare ampersands, a document type, undeclared entities).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace deckquire {

struct XmlFault {
  std::size_t offset = 0;  // bytes into the text
  std::string code;        // "xml", "encoding", "doctype", "too-large", "too-deep"
  std::string what, remedy;
};

/// The first fault, or nullopt when the text is clean UTF-8 and well-formed without a document
/// type, with one root, no entities besides the five of XML, at most 64 levels, 100 attributes an
/// element and 10 000 bytes a value. Duplicate attributes are left to validation. One pass, no
/// recursion.
std::optional<XmlFault> find_xml_fault(std::string_view text);

}  // namespace deckquire
