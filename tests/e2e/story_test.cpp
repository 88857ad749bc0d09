// The worked story of projects/story, played through the command line.
#include <doctest/doctest.h>

#include <filesystem>

#include "base/checksum.h"
#include "base/files.h"
#include "e2e/program.h"
#include "history/store.h"

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

struct Story {
  TrialFolder trial;
  std::string file = trial.path + "/weir.xml", folder = trial.path + "/weir.register";

  Outcome issue(const std::string& chapter, const std::string& revision) {
    write_file(file, read_file(DECKQUIRE_SOURCE "/projects/story/" + chapter + ".xml"));
    return run("issue " + file + " --revision " + revision);
  }
  void draw(const std::string& set) {
    const Outcome o = run("draw " + file + " --out " + trial.path + "/" + set);
    CHECK(o.err == "");
    REQUIRE(o.status == 0);
  }
  std::string svg(const std::string& set, const std::string& sheet) {
    return read_file(trial.path + "/" + set + "/sheets/" + sheet + ".svg");
  }
  history::Register read() {
    Findings findings;
    const auto r = history::read_register(folder, findings);
    for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
    REQUIRE(r);
    return *r;
  }
};

std::string marks(const history::Issue& i) {
  std::string out;
  for (const auto& p : i.positions) out += (out.empty() ? "" : " ") + p.mark;
  return out;
}

/// The running numbers of the serials, which all begin with 0733-.
std::string serials(const history::Issue& i) {
  std::string out;
  for (const auto& p : i.positions) {
    CHECK(p.serial.substr(0, 5) == "0733-");
    out += (out.empty() ? "" : " ") + p.serial.substr(5);
  }
  return out;
}

std::string voided(const history::Entry& e) {
  std::string out;
  for (const auto& v : e.voided)
    out += (out.empty() ? "" : ", ") + v.serial + " -> " + v.replaced_by;
  return out;
}

/// "E01 AB, P03 (AB)": every sheet with the letters that touched it, void ones in brackets.
std::string letters(const history::Issue& i) {
  std::string out;
  for (const auto& s : i.sheets) {
    std::string all;
    for (const std::string& r : s.revisions) all += r;
    out += (out.empty() ? "" : ", ") + s.number + " " + (s.withdrawn ? "(" + all + ")" : all);
  }
  return out;
}

/// Clouds and deltas of a revision on a drawn sheet.
std::string clouds(const std::string& svg, const std::string& revision) {
  std::string out;
  for (int n = 1; svg.find("id=\"cloud-" + revision + std::to_string(n) + "\"") != std::string::npos;
       ++n)
    out += revision + std::to_string(n) + " ";
  return out;
}

const history::IssuedMark& mark(const history::Issue& i, const std::string& name) {
  for (const auto& m : i.marks)
    if (m.name == name) return m;
  FAIL("no mark " << name);
  return i.marks.front();
}

}  // namespace

TEST_CASE("story: from the first issue to the record of what was built") {
  Story s;
  // A goes out, and comes back.
  REQUIRE(s.issue("1-A-for-approval", "A").status == 0);
  REQUIRE(s.issue("2-A-comes-back", "A --date 2026-11-13").status == 0);
  history::Register r = s.read();
  REQUIRE(r.entries.size() == 2);
  const history::Issue a = *r.entries[0].issue;
  CHECK(a.date == "2026-11-02");
  CHECK(a.by == "I. Vane");
  CHECK(a.status == "for approval");
  CHECK(a.project_checksum ==
        sha256(read_file(DECKQUIRE_SOURCE "/projects/story/1-A-for-approval.xml")));
  CHECK(marks(a) == "DP01 DP02 DP03 DP02 DP04 DP05 DP02 DP06");
  CHECK(serials(a) == "001 002 003 004 005 006 007 008");
  CHECK(r.status("A") == "revise and resubmit");
  CHECK(!r.entries[1].issue);
  CHECK(r.entries[1].status->date == "2026-11-13");

  CHECK(letters(a) == "G01 A, E01 A, E02 A, P01 A, P02 A, P03 A, P04 A, P05 A, P06 A, D01 A, D02 A, T01 A, "
                      "T02 A, T03 A");
  for (const auto& m : a.marks) CHECK(m.sheet == "P" + m.name.substr(2));

  // B answers: another opening of the hatch, scuppers elsewhere, so two new marks.
  REQUIRE(s.issue("3-B-answers", "B").status == 0);
  r = s.read();
  const history::Issue b = *r.entries[2].issue;
  CHECK(marks(b) == "DP01 DP02 DP07 DP02 DP04 DP05 DP02 DP08");
  CHECK(serials(b) == "001 002 009 004 005 006 007 010");
  CHECK(voided(r.entries[2]) == "0733-003 -> 0733-009, 0733-008 -> 0733-010");
  // Sheets of panels that changed are void, the new ones have new numbers; all other
  // panels stay as they were.
  CHECK(letters(b) == "G01 AB, E01 AB, E02 AB, P01 A, P02 A, P03 (AB), P04 A, P05 A, P06 (AB), P07 B, "
                      "P08 B, D01 A, D02 AB, T01 AB, T02 AB, T03 AB, R01 B, R02 B, R03 B");
  s.draw("b");
  CHECK(clouds(s.svg("b", "P01"), "B") == "");
  CHECK(clouds(s.svg("b", "P07"), "B") == "");  // a new sheet is new all over
  CHECK(clouds(s.svg("b", "P04"), "B") == "");
  CHECK(clouds(s.svg("b", "E01"), "B").find("B1 B2 ") == 0);
  CHECK(!fs::exists(s.trial.path + "/b/sheets/P03.svg"));
  CHECK(mark(b, "DP02").signature == mark(a, "DP02").signature);

  // C is released: nothing of what is made changes.
  REQUIRE(s.issue("4-C-for-fabrication", "C").status == 0);
  r = s.read();
  const history::Issue c = *r.entries[3].issue;
  CHECK(marks(c) == marks(b));
  CHECK(serials(c) == serials(b));
  CHECK(r.entries[3].voided.empty());
  CHECK(letters(c) == "G01 ABC, E01 AB, E02 AB, P01 A, P02 A, P03 (AB), P04 A, P05 A, P06 (AB), P07 B, "
                      "P08 B, D01 A, D02 AB, T01 AB, T02 AB, T03 AB, R01 C, R02 C");

  s.draw("c");

  // Three panels are cast.
  const Outcome cast =
      run("built " + s.file + " 0733-001 0733-002 0733-009 --date 2027-01-11 --by \"L. Marr\"");
  CHECK(cast.status == 0);
  CHECK(cast.out.find("0733-009 (DP07) cast on 2027-01-11, to revision C") != std::string::npos);

  // D would move the hatch in one of them.
  const Outcome refused = s.issue("5-D-moves-the-hatch", "D");
  CHECK(refused.status == 1);
  CHECK(refused.err.find(s.file + ":39:5: error [built-panel-changed]: panel 0733-009 (DP07, position "
                                  "3) was cast on 2027-01-11 to revision C, but the design now asks "
                                  "for hatch H1 at x = 1296 instead of 1236; ") == 0);
  for (const char* way : {"way=\"rework\"", "way=\"replace\"", "way=\"accept\"",
                          "<decision on=\"0733-009\"", "revision=\"D\""})
    CHECK(refused.err.find(way) != std::string::npos);
  CHECK(s.read().entries.size() == 5);

  // With a decision the cast panel is void, and a new one takes its place.
  const Outcome d_out = s.issue("6-D-replaces-the-panel", "D");
  CHECK(d_out.status == 0);
  CHECK(d_out.err == "");
  r = s.read();
  REQUIRE(r.entries.size() == 6);
  const history::Issue d = *r.entries[5].issue;
  CHECK(marks(d) == "DP01 DP02 DP09 DP02 DP04 DP05 DP02 DP08");
  CHECK(serials(d) == "001 002 011 004 005 006 007 010");
  CHECK(voided(r.entries[5]) == "0733-009 -> 0733-011");
  CHECK(r.entries[5].voided[0].reason ==
        "position 3 needs DP09; The frame cannot be moved in a cast panel.");

  CHECK(letters(d) == "G01 ABCD, E01 ABD, E02 ABD, P01 A, P02 A, P03 (AB), P04 A, P05 A, P06 (AB), "
                      "P07 (BD), P08 B, P09 D, D01 A, D02 AB, T01 ABD, T02 ABD, T03 ABD, R01 D, R02 D");
  s.draw("d");
  CHECK(clouds(s.svg("d", "E01"), "D").find("D1 ") == 0);
  CHECK(clouds(s.svg("d", "P04"), "D") == "");
  CHECK(run("audit " + s.file).status == 0);
  // C and D have one status: sheets that D did not touch are the same files.
  for (const char* sheet : {"P01", "P02", "P04", "P05", "D01", "D02"})
    CHECK_MESSAGE(s.svg("c", sheet) == s.svg("d", sheet), sheet);

  // All are set, and the set becomes the record.
  CHECK(run("built " + s.file +
            " 0733-001 0733-002 0733-011 0733-004 0733-005 0733-006 0733-007 0733-010 --date "
            "2027-03-15 --as set")
            .status == 0);
  CHECK(run("built " + s.file + " 0733-009 --date 2027-03-15 --as shipped").status == 1);
  const Outcome e_out = s.issue("7-E-as-built", "E");
  CHECK(e_out.status == 0);
  CHECK(e_out.err == "");
  r = s.read();
  REQUIRE(r.entries.size() == 8);
  REQUIRE(r.entries[7].issue);
  const history::Issue e = *r.entries[7].issue;
  CHECK(marks(e) == marks(d));
  CHECK(serials(e) == serials(d));
  CHECK(letters(e) == "G01 ABCDE, E01 ABD, E02 ABD, P01 A, P02 A, P03 (AB), P04 A, P05 A, P06 (AB), "
                      "P07 (BD), P08 B, P09 D, D01 A, D02 AB, T01 ABD, T02 ABD, T03 ABD, R01 E, R02 E");
  CHECK(r.status("E") == "as built");

  // The lives of the panels.
  std::string lives;
  for (const history::PanelLife& l : r.lives())
    lives += l.serial.substr(5) + " " + l.mark + (l.voided ? " void" : "") + " " +
             std::to_string(l.events.size()) + "\n";
  CHECK(lives ==
        "001 DP01 2\n002 DP02 2\n003 DP03 void 0\n004 DP02 1\n005 DP04 1\n006 DP05 1\n007 DP02 1\n"
        "008 DP06 void 0\n009 DP07 void 1\n010 DP08 1\n011 DP09 1\n");
}
