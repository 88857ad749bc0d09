#include "history/store.h"

#include <filesystem>
#include <functional>
#include <fstream>
#include <thread>

#include "base/checksum.h"
#include "base/files.h"
#include "history/entry_xml.h"
#include "history/sample.h"
#include "support/shell.h"

using namespace sample;

namespace {

namespace fs = std::filesystem;

/// An issue with something of everything.
Entry full_issue() {
  const Project p = project("DP", "0417-");
  Deck d = deck(p, {shape(2000), shape(2000.4), shape(2010)}, {mm(0), mm(3000), mm(6000.000001)});
  Entry e;
  e.issue = issue_of(p, {}, d);
  Issue& i = *e.issue;
  i.by = "I. \"Vane\" & <son>";
  i.style = "a1";
  i.project_file = "0001-project.xml";
  i.project_checksum = sha256("");
  i.positions[1].turned = true;
  i.positions[2].wanted = i.marks[0].signature;
  i.marks[1].opposite_of = "DP01";
  i.marks[1].sheet = "P02";
  i.sheets.push_back({"P01", "Panel DP01", sha256("x"), {"A", "B"}, {{1.5, 2, 30.25, 40}}, false});
  i.sheets.push_back({"P02", "", "", {}, {}, true});
  i.layout.erection_ratio = 50;
  i.layout.strips.push_back({1, 3, 1});
  i.layout.panels.push_back({"P01", {"DP01", "DP02"}, 20});
  i.layout.callouts["E01"]["two\nlines"] = {1, 2, 3, 4};
  e.voided.push_back({"0417-009", "DP01", "A", "0417-010", "position 3 needs DP02"});
  return e;
}

Entry cast(const std::string& serial) {
  Entry e;
  e.built.push_back({serial, "DP01", "A", Stage::cast, "2027-03-02", "L. Marr", "crack filled",
                     mm(1999.5), {}, inches(118.125), {}});
  return e;
}

bool add(const std::string& folder, const Entry& e, const Appending& how = {}) {
  Findings findings;
  const auto seen = read_register(folder, findings);
  REQUIRE(seen);
  return append(folder, *seen, e, "<project/>\n", how);
}

Register read(const std::string& folder) {
  Findings findings;
  const auto r = read_register(folder, findings);
  for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
  REQUIRE(r);
  return *r;
}

std::string faults(const std::string& folder) {
  Findings findings;
  const auto r = read_register(folder, findings);
  std::string out;
  for (const Finding& f : findings.sorted()) {
    CHECK(f.severity == Severity::error);
    CHECK(f.remedy != "");
    out += f.code + " " + fs::path(f.place.file).filename().string() + ":" +
           std::to_string(f.place.line) + "\n";
  }
  CHECK(out.empty() == r.has_value());
  return out;
}

struct Stop {};

/// Stops before the n-th operation on the disk, as a kill would; false: there are fewer.
bool stopped(const std::string& folder, const Entry& e, int n) {
  int step = 0;
  Appending how;
  how.before_step = [&](const char*) {
    if (++step == n) throw Stop();
  };
  try {
    const bool in = add(folder, e, how);
    CHECK(in);
    return false;
  } catch (const Stop&) {
    return true;
  }
}

}  // namespace

TEST_CASE("store: an entry is read as it was written, and written again as it was read") {
  for (const Entry& e : {full_issue(), cast("0417-001")}) {
    const std::string text = write_entry(e, sha256("before"));
    Findings findings;
    const auto back = read_entry(text, "0002.xml", findings);
    for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
    REQUIRE(back);
    CHECK(back->before == sha256("before"));
    CHECK(write_entry(back->entry, back->before) == text);
    if (e.issue) {
      CHECK(back->entry.issue->marks[0].signature == e.issue->marks[0].signature);
      CHECK(back->entry.issue->marks[0].variants == e.issue->marks[0].variants);
      CHECK(back->entry.issue->positions[2].start == e.issue->positions[2].start);
      CHECK(back->entry.issue->by == e.issue->by);
      
      CHECK(back->entry.issue->layout.callouts.at("E01").count("two\nlines") == 1);
    } else {
      CHECK(back->entry.built[0].length_left == e.built[0].length_left);
      CHECK(back->entry.built[0].width_back == e.built[0].width_back);
      CHECK(!back->entry.built[0].length_right);
    }
  }
}

TEST_CASE("store: entries follow each other, none is overwritten, all is in the folder") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/b.register";
  CHECK(read(folder).empty());
  CHECK(!fs::exists(folder));
  REQUIRE(add(folder, full_issue()));
  const std::string first = read_file(folder + "/0001.xml");
  REQUIRE(add(folder, cast("0417-001")));
  const Register r = read(folder);
  REQUIRE(r.entries.size() == 2);
  CHECK(r.entries[0].number == 1);
  CHECK(r.entries[1].built.size() == 1);
  CHECK(read_file(folder + "/0001.xml") == first);
  CHECK(issued_project(folder, *r.last_issue()) == "<project/>\n");
  CHECK(r.last_issue()->project_checksum == sha256("<project/>\n"));
  // The seal can be verified without this program.
  int status = 0;
  CHECK(output_of("cd " + folder + " && head -n -2 0001.xml | sha256sum | cut -c 1-64", &status)
            .substr(0, 64) == first.substr(first.rfind("sha256=\"") + 8, 64));
  CHECK(register_folder("a/b.c/saltmarsh.xml") == "a/b.c/saltmarsh.register");
}

TEST_CASE("store: what was not seen is not built upon") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/b.register";
  CHECK(append(folder, {}, full_issue(), "x"));
  CHECK(!append(folder, {}, full_issue(), "x"));
  CHECK(read(folder).entries.size() == 1);
}

TEST_CASE("store: stopped before any operation it is as before, and the next run goes through") {
  int operations = 0;
  for (const bool behind_another : {false, true})
    for (int n = 1;; ++n) {
      const TrialFolder trial;
      const std::string folder = trial.path + "/b.register";
      if (behind_another) REQUIRE(add(folder, cast("0417-001")));
      const std::size_t before = behind_another ? 1 : 0;
      const bool was_stopped = stopped(folder, full_issue(), n);
      const std::size_t now = read(folder).entries.size();
      CAPTURE(n);
      if (!was_stopped) {
        CHECK(now == before + 1);
        break;
      }
      ++operations;
      CHECK((now == before || now == before + 1));
      // Whatever it left is taken away, also when it is stopped a second time at any point.
      for (int again = 1; stopped(folder, cast("0417-002"), again); ++again)
        CHECK(read(folder).entries.size() <= now + 1);
      const Register r = read(folder);
      CHECK(r.entries.back().built.size() == 1);
      for (const auto& e : fs::directory_iterator(folder))
        CHECK(e.path().extension() != ".part");
    }
  CHECK(operations >= 16);
}

TEST_CASE("store: half a file of a stopped run is no entry, and is taken away") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/b.register";
  REQUIRE(add(folder, cast("0417-001")));
  std::ofstream(folder + "/0002.xml.part") << "<?xml version=";
  std::ofstream(folder + "/0002-project.xml") << "<project";
  CHECK(read(folder).entries.size() == 1);
  REQUIRE(add(folder, full_issue()));
  CHECK(read(folder).entries.size() == 2);
  CHECK(!fs::exists(folder + "/0002.xml.part"));
}

TEST_CASE("store: of two at once one goes first, the other is told that there is more now") {
  for (int round = 0; round < 20; ++round) {
    const TrialFolder trial;
    const std::string folder = trial.path + "/b.register";
    bool first = false, second = false;
    std::thread a([&] { first = append(folder, {}, cast("0417-001"), ""); });
    std::thread b([&] { second = append(folder, {}, cast("0417-002"), ""); });
    a.join();
    b.join();
    CHECK(first != second);
    CHECK(read(folder).entries.size() == 1);
  }
}

TEST_CASE("store: who waits too long is told who writes") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/b.register";
  std::string message;
  Appending how;
  how.who = "issue of revision A";
  how.before_step = [&](const char* what) {
    if (std::string(what) != "save the folder" || !message.empty()) return;
    message = "none";
    Appending other;
    other.wait_milliseconds = 100;
    try {
      append(folder, {}, cast("0417-001"), "", other);
    } catch (const FileError& e) {
      message = e.what();
    }
  };
  CHECK(append(folder, {}, full_issue(), "x", how));
  CHECK(message.find("another run writes to this register") != std::string::npos);
  CHECK(message.find("issue of revision A") != std::string::npos);
}

TEST_CASE("store: damage is found, and said with file and line") {
  const TrialFolder trial;
  const std::string good = trial.path + "/good.register";
  REQUIRE(add(good, full_issue()));
  REQUIRE(add(good, cast("0417-001")));
  REQUIRE(add(good, cast("0417-002")));
  const auto damaged = [&](const std::function<void(const std::string&)>& damage) {
    static int n = 0;
    const std::string folder = trial.path + "/" + std::to_string(++n);
    fs::copy(good, folder);
    damage(folder);
    return faults(folder);
  };
  const auto edit = [](const std::string& file, const std::string& from, const std::string& to) {
    std::string text = read_file(file);
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
    write_file(file, text);
  };
  const auto lines = [](const std::string& file) {
    const std::string text = read_file(file);
    return std::to_string(std::count(text.begin(), text.end(), '\n'));
  };
  CHECK(damaged([](const std::string&) {}) == "");
  CHECK(damaged([&](const std::string& f) { edit(f + "/0002.xml", "2027-03-02", "2027-03-01"); }) ==
        "register-changed 0002.xml:" + lines(good + "/0002.xml") + "\n");
  CHECK(damaged([&](const std::string& f) { fs::resize_file(f + "/0003.xml", 100); }) ==
        "register-incomplete 0003.xml:1\n");
  CHECK(damaged([&](const std::string& f) { fs::resize_file(f + "/0003.xml", 0); }) ==
        "register-incomplete 0003.xml:0\n");
  CHECK(damaged([&](const std::string& f) { fs::remove(f + "/0002.xml"); }) ==
        "register-gap 0002.xml:0\n");
  CHECK(damaged([&](const std::string& f) { fs::remove(f + "/0001-project.xml"); }) ==
        "register-project 0001-project.xml:1\n");
  CHECK(damaged([&](const std::string& f) { write_file(f + "/0001-project.xml", "<other/>"); }) ==
        "register-project 0001-project.xml:1\n");
  // A whole entry put in the place of another.
  CHECK(damaged([&](const std::string& f) {
          fs::copy_file(f + "/0003.xml", f + "/0002.xml", fs::copy_options::overwrite_existing);
        }) == "register-order 0002.xml:1\n");
  CHECK(damaged([&](const std::string& f) {
          Entry e = cast("0417-007");
          e.number = 2;
          write_file(f + "/0002.xml", write_entry(e, sha256("something else")));
        }) == "register-order 0002.xml:1\n");
  CHECK(damaged([&](const std::string& f) {
          Entry e = cast("0417-007");
          e.number = 2;
          write_file(f + "/0002.xml", write_entry(e, sha256(read_file(f + "/0001.xml"))));
        }) == "register-order 0003.xml:1\n");
}

TEST_CASE("store: what is no folder is not taken for a register that is empty") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/b.register";
  write_file(folder, "not a folder");
  Findings findings;
  CHECK_THROWS_AS(read_register(folder, findings), FileError);
  CHECK_THROWS_AS(append(folder, {}, cast("0417-001"), ""), FileError);
}

TEST_CASE("store: an entry of a later version is not guessed at") {
  const auto sealed = [](std::string text, const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
    const std::size_t at = text.rfind("  <seal");
    text.replace(text.rfind("sha256=\"") + 8, 64, sha256(text.substr(0, at)));
    return text;
  };
  Entry e = cast("0417-001");
  e.number = 1;
  const std::string text = write_entry(e, "");
  const auto said = [](const std::string& t) {
    Findings findings;
    CHECK(!read_entry(t, "0001.xml", findings));
    std::string out;
    for (const Finding& f : findings.sorted()) out += to_line(f) + "\n";
    return out;
  };
  CHECK(said(sealed(text, "<built ", "<moved ")).find(
            "0001.xml:3:3: error [register-unknown]: <moved> is not known inside <entry>") == 0);
  CHECK(said(sealed(text, " note=", " colour=")).find("<built> has no attribute colour") !=
        std::string::npos);
  CHECK(said(sealed(text, " date=\"2027-03-02\"", "")).find("<built> lacks its attribute date") !=
        std::string::npos);
  CHECK(said(sealed(text, "register:1", "register:2")).find("no entry of a register") !=
        std::string::npos);
  CHECK(said(sealed(text, "1999.5", "1999,5")).find("\"1999,5\" is no number") !=
        std::string::npos);
  CHECK(said(sealed(text, "\"cast\"", "\"baked\"")).find("\"baked\" is no stage") !=
        std::string::npos);
}

TEST_CASE("store: the page about the register names every element and attribute of it") {
  const std::string page = read_file(DECKQUIRE_SOURCE "/projects/register.md");
  std::string text = write_entry(full_issue(), "x") + write_entry(cast("0417-001"), "x");
  Entry back;
  back.status = StatusChange{"A", "approved as noted", "2027-01-01", "R. Ostler"};
  text += write_entry(back, "x");
  const auto is_name = [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; };
  int names = 0;
  for (std::size_t at = 0; (at = text.find_first_of("< ", at)) != std::string::npos; ++at) {
    std::size_t end = at + 1;
    while (end < text.size() && is_name(text[end])) ++end;
    const std::string name = text.substr(at + 1, end - at - 1);
    const bool attribute = text[at] == ' ' && text.compare(end, 2, "=\"") == 0;
    if (name.empty() || name == "xmlns" || name == "version" || name == "encoding") continue;
    if (!attribute && text[at] != '<') continue;
    ++names;
    const std::string wanted = attribute ? " " + name : "<" + name;
    const bool there = page.find(wanted + ">") != std::string::npos ||
                       page.find(wanted + " ") != std::string::npos;
    CHECK_MESSAGE(there, wanted);
  }
  CHECK(names > 60);
}
