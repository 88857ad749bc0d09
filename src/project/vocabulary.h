// The vocabulary of the project file: one table of elements and attributes. Validation, defaults,
// the XML schema and the reference page all come from it, so they cannot drift apart.
#pragma once

#include <string>
#include <vector>

#include "project/quantities.h"

namespace deckquire {

/// What holds when an attribute is left out. All texts are in the language of the file.
struct Preset {
  enum class Way {
    required,  // it may not be left out
    absent,    // then there is none; `words` says what that means
    value,     // metric or imperial
    by,        // as value, but chosen by the attribute `key`: "light=4 mm|heavy=10 mm"
    described  // taken from elsewhere in the file; `words` says from where
  };
  Way way = Way::required;
  std::string metric, imperial;  // value, by
  std::string key;               // by
  std::string words;             // absent, described
};
Preset required();
Preset absent(std::string words);
Preset described(std::string words);
/// The same in both systems, or a metric and an imperial value.
Preset value(std::string both);
Preset value(std::string metric, std::string imperial);
Preset value_by(std::string key, std::string metric, std::string imperial);

/// Inclusive limits, written as in the file; empty: none.
struct Limits {
  std::string least, greatest;
};

struct Attribute {
  std::string name;
  Kind kind{};
  Preset preset;
  Limits limits;
  std::vector<std::string> words = {};  // Kind::word: the words allowed
  std::string meaning;                  // a sentence
  bool unique = false;                  // among the elements of this name under one parent
};

struct Child {
  std::string name;
  int least = 0, most = 1;
};

/// Ways to state one thing: exactly one group of attributes (or none, unless needed).
struct Choice {
  std::vector<std::vector<std::string>> ways;
  bool needed = true;
};

struct Element {
  std::string name;
  std::string meaning;
  std::vector<Attribute> attributes = {};
  std::vector<Child> children = {};
  bool text = false;  // holds a text, which may not be empty
  std::vector<Choice> choices = {};
};

/// Words that the file will know one day, and what they are about.
struct NotYet {
  std::string name, about;
};

/// A part whose material the file need not describe.
struct MaterialDefault {
  std::string part, name, metric, imperial;
};

/// A tolerance that holds when the file does not state it.
struct ToleranceDefault {
  std::string of, metric, imperial;
};

constexpr int many = 20000;  // most repetitions of anything
constexpr const char* project_namespace = "urn:deckquire:project:1";

const std::vector<Element>& vocabulary();
/// nullptr when there is none. Names of elements are unique in the whole vocabulary.
const Element* find_element(const std::string& name);
const Attribute* find_attribute(const Element& element, const std::string& name);
const std::vector<NotYet>& not_yet_elements();
const std::vector<NotYet>& not_yet_attributes();
const std::vector<MaterialDefault>& material_defaults();
const std::vector<ToleranceDefault>& tolerance_defaults();

// The parts of the table.
std::vector<Element> project_vocabulary();
std::vector<Element> bridge_vocabulary();
std::vector<Element> deck_vocabulary();
std::vector<Element> post_vocabulary();
std::vector<Element> fitting_vocabulary();
std::vector<Element> clearance_vocabulary();
std::vector<Element> load_vocabulary();
std::vector<Element> delivery_vocabulary();
std::vector<Element> site_vocabulary();
Element panels_element();

}  // namespace deckquire
