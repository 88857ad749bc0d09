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
