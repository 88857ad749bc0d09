#include "project/fields.h"

#include <cmath>
#include <stdexcept>

namespace deckquire {
namespace {

/// "light=4 mm|heavy=10 mm", "light" -> "4 mm".
std::optional<std::string> chosen(const std::string& list, const std::string& key) {
  for (std::size_t at = 0; at < list.size();) {
    const std::size_t end = std::min(list.find('|', at), list.size());
    const std::string item = list.substr(at, end - at);
    if (item.compare(0, key.size() + 1, key + "=") == 0) return item.substr(key.size() + 1);
    at = end + 1;
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> preset_text(const Preset& preset, const OwnUnit& own,
                                       const std::string& key) {
  const std::string& text = own.system() == UnitSystem::metric ? preset.metric : preset.imperial;
  if (preset.way == Preset::Way::value) return text;
  if (preset.way == Preset::Way::by) return chosen(text, key);
  return std::nullopt;
}

Fields::Fields(const Document& document, const OwnUnit& own, pugi::xml_node node,
               const char* element)
    : document_(document), own_(own), node_(node), element_(find_element(element)) {
  if (element_ == nullptr) throw std::logic_error(std::string("no such element: ") + element);
}

const Attribute& Fields::row(const char* attribute) const {
  const Attribute* row = find_attribute(*element_, attribute);
  if (row == nullptr)
    throw std::logic_error("no such attribute: " + element_->name + " " + attribute);
  return *row;
}

bool Fields::given(const char* attribute) const {
  return !node_.attribute(row(attribute).name.c_str()).empty();
}

std::optional<std::string> Fields::value(const Attribute& a) const {
  if (const auto written = node_.attribute(a.name.c_str()))
    return std::string(trimmed(written.value()));
  const std::string key = a.preset.key.empty() ? "" : text(a.preset.key.c_str());
  return preset_text(a.preset, own_, key);
}

std::string Fields::text(const char* attribute) const {
  return value(row(attribute)).value_or("");
}

std::optional<Amount> Fields::amount(const char* attribute) const {
  const Attribute& a = row(attribute);
  const auto text = value(a);
  if (!text) return std::nullopt;
  const Reading reading = read_amount(a.kind, *text, own_);
  if (const auto* amount = std::get_if<Amount>(&reading)) return *amount;
  throw std::logic_error("unchecked value: " + element_->name + " " + attribute + "=" + *text);
}

std::optional<Length> Fields::optional_length(const char* attribute) const {
  const auto a = amount(attribute);
  return a ? std::optional(Length::from_nanometres(a->nanometres)) : std::nullopt;
}

Length Fields::length(const char* attribute, Length otherwise) const {
  return optional_length(attribute).value_or(otherwise);
}

Length Fields::length(const char* attribute) const {
  return optional_length(attribute).value();
}

std::optional<double> Fields::optional_si(const char* attribute) const {
  const auto a = amount(attribute);
  return a ? std::optional(a->si) : std::nullopt;
}

double Fields::si(const char* attribute) const {
  return optional_si(attribute).value();
}

std::optional<int> Fields::optional_integer(const char* attribute) const {
  const auto a = amount(attribute);
  return a ? std::optional(static_cast<int>(std::lround(a->si))) : std::nullopt;
}

int Fields::integer(const char* attribute) const {
  return optional_integer(attribute).value();
}

Place Fields::place() const {
  return node_ ? document_.place(node_) : parent_place_;
}

Fields Fields::child(const char* element) const {
  Fields f(document_, own_, node_.child(element), element);
  f.parent_place_ = place();
  return f;
}

}  // namespace deckquire
