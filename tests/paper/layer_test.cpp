#include "paper/layer.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "base/files.h"
#include "paper/callout.h"
#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

TEST_CASE("layers: every purpose of pens and letters lies on exactly one, every kind once") {
  std::multiset<PenUse> pens;
  std::multiset<LetterUse> letters;
  std::set<std::string> groups, names;
  std::size_t place = 0;
  for (const LayerRow& row : layer_rows()) {
    CHECK(static_cast<std::size_t>(row.layer) == place++);
    CHECK(names.insert(row.name).second);
    pens.insert(row.pens.begin(), row.pens.end());
    letters.insert(row.letters.begin(), row.letters.end());
    for (const char* kind : row.groups) CHECK(groups.insert(kind).second);
  }
  CHECK(place == layer_count);
  for (int i = 0; i < static_cast<int>(PenUse::count_); ++i)
    CHECK(pens.count(static_cast<PenUse>(i)) == 1);
  for (int i = 0; i < static_cast<int>(LetterUse::count_); ++i)
    CHECK(letters.count(static_cast<LetterUse>(i)) == 1);
}

namespace {

/// True where a group or a link of that kind is opened: `Group name(board, ..., "kind"`. By hand,
/// for std::regex takes ten seconds over the sources.
bool opens_group(const std::string& source, const std::string& kind) {
  const std::string word = '"' + kind + '"';
  for (auto at = source.find(word); at != std::string::npos; at = source.find(word, at + 1)) {
    const std::size_t begin = source.rfind(';', at) + 1;
    const std::string before = source.substr(begin, at - begin);
    const std::size_t last = before.find_last_not_of(" \n");
    if (last == std::string::npos || before[last] != ',') continue;
    for (const char* opener : {"Group", "group", "link"})
      if (before.find(opener) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

// A kind that is misspelt in the table would put nothing on its layer, and nobody would see it.
TEST_CASE("layers: every kind of group in the table is one that something draws") {
  std::string source;
  for (const auto& e : std::filesystem::recursive_directory_iterator(DECKQUIRE_SOURCE "/src"))
    if (e.path().extension() == ".cpp" && e.path().filename() != "layer.cpp")
      source += read_file(e.path().string());
  CHECK_FALSE(opens_group(source, "pannel"));
  for (const LayerRow& row : layer_rows())
    for (const std::string kind : row.groups) {
      CAPTURE(kind);
      CHECK(opens_group(source, kind));
    }
}

TEST_CASE("layers: by group, else by pen and use; fills go with what they belong to") {
  TrialBoard t;
  t.board.line(PenUse::steel, {10, 10}, {50, 10});
  {
    const Group panel(t.board, "panel-1", "panel");
    t.board.box(PenUse::outline, {{10, 20}, {50, 40}});
    arrow(t.board, PenUse::water, {15, 30}, {30, 30});
    t.board.text(LetterUse::mark, {20, 25}, "DP01");
    const Group chain(t.board, "", "chain");
    t.board.line(PenUse::thin, {10, 45}, {50, 45});
    t.board.line(PenUse::revision, {10, 46}, {50, 46});
    t.board.text(LetterUse::note, {20, 46}, "40");
  }
  Path white;
  white.box({{60, 10}, {70, 20}});
  t.board.fill(Ink::white, white);
  t.board.box(PenUse::mark, {{60, 10}, {70, 20}});
  const SheetLayers found = layers_of(t.sheet);
  REQUIRE(found.of.size() == t.sheet.items.size());
  std::string line;
  for (std::size_t i = 0; i < found.of.size(); ++i) {
    const Item& item = t.sheet.items[i];
    if (std::holds_alternative<GroupEnd>(item)) continue;
    if (!std::holds_alternative<GroupStart>(item))
      line += std::string(name_of(found.of[i])) + " ";
    else
      line += found.whole[i] ? "[whole] " : "[by item] ";
  }
  CHECK(line ==
        "steel [by item] outlines features features marks [whole] dimensions revisions "
        "dimensions marks marks ");
}
