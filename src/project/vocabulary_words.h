// The vocabulary in words, for the schema and the reference page.
#pragma once

#include <string>

#include "project/vocabulary.h"

namespace deckquire {

/// "required"; "12 mm, or 1/2 in"; "light: 4 mm, heavy: 10 mm; or ..."; "left out: none".
std::string preset_words(const Attribute& row);
/// "2 mm to 60 mm", or the words allowed, or nothing.
std::string limits_words(const Attribute& row);
/// "length", "whole number" ...
std::string kind_words(Kind kind);
/// "one", "at most one", "any number", "at least one" ...
std::string count_words(const Child& child);
/// "either count or longest", or nothing.
std::string choice_words(const Choice& choice);

}  // namespace deckquire
