// Typed values of one element, with the defaults of the vocabulary where the file is silent.
#pragma once

#include <optional>
#include <string>

#include "base/document.h"
#include "project/vocabulary.h"

namespace deckquire {

/// The text that holds for an attribute when it is left out (Way::value, Way::by); nullopt when
/// there is none. `key` is the value of the deciding attribute (Way::by).
std::optional<std::string> preset_text(const Preset& preset, const OwnUnit& own,
                                       const std::string& key);

class Fields {
 public:
  /// `node` may be missing: then every value is a default, and the place is the parent's.
  Fields(const Document& document, const OwnUnit& own, pugi::xml_node node, const char* element);

  bool given(const char* attribute) const;
  /// As given, or the default, or empty. All of these throw std::logic_error for a name that the
  /// vocabulary does not have, and for a value that is not valid: validation comes first.
  std::string text(const char* attribute) const;
  Length length(const char* attribute) const;
  Length length(const char* attribute, Length otherwise) const;
  std::optional<Length> optional_length(const char* attribute) const;
  int integer(const char* attribute) const;
  std::optional<int> optional_integer(const char* attribute) const;
  double si(const char* attribute) const;
  std::optional<double> optional_si(const char* attribute) const;

  Place place() const;
  const OwnUnit& own() const { return own_; }
  const Document& document() const { return document_; }
  pugi::xml_node node() const { return node_; }
  /// The one child of that name, or fields of defaults only.
  Fields child(const char* element) const;
  bool has_child(const char* element) const { return !node_.child(element).empty(); }

  template <class Make>
  void each(const char* element, Make make) const {
    for (pugi::xml_node child : node_.children(element))
      make(Fields(document_, own_, child, element));
  }

 private:
  const Attribute& row(const char* attribute) const;
  std::optional<std::string> value(const Attribute& row) const;
  std::optional<Amount> amount(const char* attribute) const;

  const Document& document_;
  OwnUnit own_;
  pugi::xml_node node_;
  const Element* element_;
  Place parent_place_;
};

}  // namespace deckquire
