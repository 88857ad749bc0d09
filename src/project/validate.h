// Is what stands in the file what the vocabulary allows? Every problem with its place, one a cause.
#pragma once

#include <optional>

#include "base/document.h"
#include "project/vocabulary.h"

namespace deckquire {

/// Findings with an end: after `most` of them one last says that more are not listed.
class Report {
 public:
  explicit Report(Findings& findings) : findings_(findings) {}
  void error(const Place& place, std::string code, std::string what, std::string remedy);
  bool full() const { return count_ > most; }

 private:
  static constexpr int most = 200;
  Findings& findings_;
  int count_ = 0;
};

/// The root is <project>, of our namespace or of none; what is wrong with it goes to `report`.
bool is_project(const Document& document, Report& report);

/// Elements, attributes, types, units, ranges, names, counts: whatever the table says.
void validate(const Document& document, const OwnUnit& own, Report& report);

/// One attribute's text against its row; nullopt when it is good.
std::optional<Refusal> refusal(const Attribute& row, const std::string& text, const OwnUnit& own);

/// True for lengths and stations of a file that does not say its unit: one fault, not one a number.
bool is_unjudged(const Attribute& row, const OwnUnit& own);

/// What the table cannot say: forms that contradict one another, order of revisions, references by
/// name. Looks only at what is valid by itself.
void find_contradictions(const Document& document, const OwnUnit& own, Report& report);

/// The number of an attribute, if it is there and good.
std::optional<Amount> good_amount(pugi::xml_node node, const char* attribute, const OwnUnit& own);

}  // namespace deckquire
