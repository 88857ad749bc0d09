// The table of everything a style says: what each thing is called, what it is unless a style file
// says otherwise, and what it means. Reader, check and reference page all work from it.
#pragma once

#include <vector>

#include "paper/style.h"

namespace deckquire::paper {

/// A number of the style: where it is written, what it is, between what.
struct NumberRow {
  const char* element;
  const char* name;
  double Style::*value;
  double least, greatest;  // mm
  const char* meaning;
};

const std::vector<NumberRow>& number_rows();

/// A property that is one of a few words.
struct WordRow {
  const char* element;
  const char* name;
  std::vector<const char*> words;
  std::size_t (*get)(const Style&);  // index of its word
  void (*set)(Style&, std::size_t);
  const char* meaning;
};
const std::vector<WordRow>& word_rows();

/// A whole number.
struct WholeRow {
  const char* element;
  const char* name;
  int Style::*value;
  int least, greatest;
  const char* meaning;
};
const std::vector<WholeRow>& whole_rows();

/// A property of an item of a list: <pen of="..." width="..."/>.
struct ItemRow {
  const char* item;
  const char* name;
  const char* type;
  const char* meaning;
};
const std::vector<ItemRow>& item_rows();

struct PenRow {
  PenUse use;
  const char* name;
  double width;              // mm
  std::vector<double> dash;  // mm
  Ink ink;
  const char* meaning;
};
const std::vector<PenRow>& pen_rows();  // by PenUse

struct LetterRow {
  LetterUse use;
  const char* name;
  double height;  // mm
  const char* meaning;
};
const std::vector<LetterRow>& letter_rows();  // by LetterUse

struct InkRow {
  Ink ink;
  const char* name;
  const char* colour;
  bool for_text;  // must stand out from the paper by 4.5:1
  const char* meaning;
};
const std::vector<InkRow>& ink_rows();  // by Ink

std::vector<Hatch> default_hatches();
std::vector<TitleField> default_title_fields();

}  // namespace deckquire::paper
