#include <doctest/doctest.h>

#include <filesystem>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;

namespace {

namespace fs = std::filesystem;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// A folder with a small project, as it was and with one hatch moved and the note written anew.
struct Desk {
  fs::path folder = fs::temp_directory_path() / "deckquire-compare";
  std::string old = (folder / "old.xml").string(), now = (folder / "now.xml").string();
  std::string text = read_file(DECKQUIRE_SOURCE "/tests/commands/edits.xml");
  Desk() {
    fs::remove_all(folder);
    fs::create_directories(folder);
    write_file(old, text);
    edit(R"(at="0+003.760")", R"(at="3.8 m")");
    edit("Levels are checked", "All levels are checked");
    write_file(now, text);
  }
  ~Desk() { fs::remove_all(folder); }
  void edit(const std::string& from, const std::string& to) {
    REQUIRE(has(text, from));
    text.replace(text.find(from), from.size(), to);
  }
};

}  // namespace

TEST_CASE("compare: a file and itself, two files as text and as JSON") {
  const Desk desk;
  const Outcome same = run("compare " + desk.old + " " + desk.old);
  CHECK(same.status == 0);
  CHECK(has(same.out, ": 0 changes, 0 panels, 0 marks, 0 sheets\n"));
  const Outcome o = run("compare " + desk.old + " " + desk.now);
  CHECK(o.status == 0);
  CHECK(o.err == "");
  CHECK(has(o.out, ": 2 changes, 1 panels, 2 marks, 7 sheets\n"));
  CHECK(has(o.out,
            "hatch H1 at: 0+003.800, was 0+003.760  (lines 36, 36)\n"
            "  panels: 2 (geometry)\n"
            "  marks: DP02 goes; DP07 comes: 1\n"
             "  sheets: E01, E02, P02 void, P07 new, T01, T02, T03\n"));
  CHECK(has(o.out, "  panels: none\n  marks: none\n  sheets: none\n"));
  const Outcome json = run("compare " + desk.old + " " + desk.now + " --json");
  CHECK(json.status == 0);
  CHECK(has(json.out, R"("element":"hatch H1","attribute":"at")"));
  CHECK(has(json.out, R"("before_si":3.76,"now_si":3.8,"line_before":36,"line":36)"));
  CHECK(has(json.out, R"({"mark":"DP07","effect":"comes","before":0,"now":1})"));
}

TEST_CASE("compare: against a revision that was issued, with R sheets") {
  Desk next;
  CHECK(run("issue " + next.old + " --revision A").status == 0);
  next.edit(
      "  </revisions>",
      R"(    <revision id="B" date="2026-10-20" by="I. Vane" status="for approval">Hatch moved</revision></revisions>)");
  write_file(next.old, next.text);
  const std::string out = (next.folder / "r").string();
  const Outcome o = run("compare A " + next.old + " --out " + out);
  CHECK(o.err == "");
  CHECK(o.status == 0);
  CHECK(has(o.out, "from revision A to "));
  CHECK(has(o.out, "P07 new"));
  CHECK(read_file(out + "/changes.pdf").starts_with("%PDF"));
  std::size_t sheets = 0;
  for (const auto& e : fs::directory_iterator(out + "/sheets"))
    sheets += e.path().filename().string()[0] == 'R' ? 1 : 0;
  CHECK(sheets >= 2);  // transmittal, changes
  const Outcome none = run("compare C " + next.old);
  CHECK(none.status == 2);
  CHECK(has(none.err, "'C' is no file, and no revision that was issued"));
  CHECK(run("compare nowhere.xml " + next.old).status == 3);
}
