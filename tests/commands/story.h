// A project that is issued, edited and issued again, in a folder of its own: for tests.
#pragma once

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "base/checksum.h"
#include "base/files.h"
#include "commands/issued_set.h"
#include "history/identities.h"
#include "history/store.h"
#include "sheets/drawn_set.h"

namespace deckquire::commands {

class Story {
 public:
  explicit Story(const std::string& example, const std::string& style = "a1")
      : style_name(style), style_(sheets::trial_style(style)), lettering_(style_.fonts) {
    static int count = 0;
    folder_ = std::filesystem::temp_directory_path() /
              ("deckquire-story-" + std::to_string(getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(folder_);
    copy(example);
  }
  ~Story() { std::filesystem::remove_all(folder_); }
  Story(const Story&) = delete;
  Story& operator=(const Story&) = delete;

  /// The text of another file of the project's examples, as one writes over the file.
  void copy(const std::string& example) {
    text = read_file(DECKQUIRE_SOURCE "/projects/" + example + ".xml");
  }

  std::string path() const { return (folder_ / "story.xml").string(); }

  /// One place of the text, which must be there.
  void edit(const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE_MESSAGE(at != std::string::npos, from);
    text.replace(at, from.size(), to);
  }

  void add_revision(const std::string& id, const std::string& words,
                    const std::string& status = "for approval") {
    edit("  </revisions>", "    <revision id=\"" + id + "\" date=\"2026-12-0" +
                               std::to_string(++revisions_) +
                               "\" by=\"L. Arden\" checked=\"R. Ostler\" status=\"" + status +
                               "\">" + words + "</revision>\n  </revisions>");
  }

  Loaded loaded() const {
    Findings said;
    auto out = load_text(text, path(), said);
    REQUIRE_MESSAGE(out, (said.empty() ? "" : to_line(said.sorted().front())));
    return std::move(*out);
  }

  IssuedSet drawn(const Loaded& loaded, bool record = false) {
    findings = {};
    return draw_issued_set(loaded, {style_, style_name, lettering_, 1, record}, {}, findings);
  }
  IssuedSet drawn() { return drawn(loaded()); }

  /// As the verb does it.
  IssuedSet issue() {
    const Loaded now = loaded();
    IssuedSet set = drawn(now, true);
    history::Entry entry;
    entry.issue = history::issue_of(now.project, now.bridge, now.deck);
    entry.issue->style = style_name;
    for (const SheetState& s : set.states) entry.issue->sheets.push_back(s.sheet);
    entry.issue->layout = set.layout;
    REQUIRE(history::append(history::register_folder(path()), now.issued, entry, text));
    return set;
  }

  const paper::Style& style() const { return style_; }

  std::string text, style_name;
  Findings findings;  // of the last set drawn

 private:
  std::filesystem::path folder_;
  paper::Style style_;
  paper::Lettering lettering_;
  int revisions_ = 0;
};

/// Revision B of the worked story, after A was issued and sent back.
inline const sheets::DrawnSet& story_drawn() {
  static const sheets::DrawnSet drawn = [] {
    Story story("story/1-A-for-approval");
    story.issue();
    story.copy("story/3-B-answers");
    // One remark is still open, on whatever sheet shows the hatch now.
    story.edit(" sheet=\"P03\"", "");
    story.edit("status=\"answered\" answer=\"Opening 600.\" revision=\"B\"", "status=\"open\"");
    const Loaded loaded = story.loaded();
    IssuedSet set = story.drawn(loaded);
    REQUIRE(story.findings.empty());
    return sheets::DrawnSet(loaded.project, loaded.deck, std::move(set.plan),
                            std::move(set.sheets));
  }();
  return drawn;
}

inline const paper::Sheet& sheet_of(const IssuedSet& set, const std::string& number) {
  for (const paper::Sheet& s : set.sheets)
    if (s.number == number) return s;
  FAIL("no sheet " << number);
  return set.sheets.front();
}

inline const SheetState& state_of(const IssuedSet& set, const std::string& number) {
  for (const SheetState& s : set.states)
    if (s.sheet.number == number) return s;
  FAIL("no sheet " << number);
  return set.states.front();
}

}  // namespace deckquire::commands
