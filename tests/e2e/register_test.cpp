// The register through the command line: what is refused, two at once, killed at any moment.
#include <doctest/doctest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <thread>

#include "base/files.h"
#include "e2e/program.h"
#include "history/statuses.h"
#include "history/store.h"

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

const std::string story = DECKQUIRE_SOURCE "/projects/story/";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, from);
  return text.replace(at, from.size(), to);
}

/// A project in a folder of its own.
struct Job {
  TrialFolder trial;
  std::string file = trial.path + "/weir.xml", folder = trial.path + "/weir.register";

  void put(const std::string& text) { write_file(file, text); }
  void copy(const std::string& name) { put(read_file(story + name)); }
  void edit(const std::string& from, const std::string& to) {
    put(replaced(read_file(file), from, to));
  }
  Outcome issue(const std::string& arguments) { return run("issue " + file + " " + arguments); }
  Outcome built(const std::string& arguments) { return run("built " + file + " " + arguments); }
  /// A refusal with that code, and nothing written.
  void refused(const Outcome& o, const std::string& code) {
    CHECK(o.status == 1);
    CHECK_MESSAGE(o.err.find("error [" + code + "]") != std::string::npos, o.err);
    CHECK(o.out == "");
  }
  history::Register read() {
    Findings findings;
    const auto r = history::read_register(folder, findings);
    for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
    REQUIRE(r);
    return *r;
  }
  std::size_t entries() { return read().entries.size(); }
};

/// Runs the program, and kills it after so long; true when it was done before.
bool killed_after(const std::vector<std::string>& arguments, std::chrono::microseconds time) {
  std::fflush(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    std::vector<char*> argv;
    std::string program = DECKQUIRE_PROGRAM;
    argv.push_back(program.data());
    std::vector<std::string> copies = arguments;
    for (std::string& a : copies) argv.push_back(a.data());
    argv.push_back(nullptr);
    if (::freopen("/dev/null", "w", stdout) == nullptr) ::_exit(9);
    if (::freopen("/dev/null", "w", stderr) == nullptr) ::_exit(9);
    ::execv(argv[0], argv.data());
    ::_exit(9);
  }
  std::this_thread::sleep_for(time);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status);
}

}  // namespace

TEST_CASE("register: what may not be issued is refused, with the line that says so") {
  Job job;
  job.copy("1-A-for-approval.xml");
  job.refused(job.issue("--revision B"), "revision-missing");
  job.refused(job.issue("--revision A --status \"for fabrication\""), "status-differs");
  job.edit("for approval", "for fabrication");
  job.refused(job.issue("--revision A"), "status-move");
  CHECK(!fs::exists(job.folder));
  job.copy("1-A-for-approval.xml");
  job.edit("depth=\"130\"", "deepth=\"130\"");
  CHECK(job.issue("--revision A").status == 1);
  CHECK(!fs::exists(job.folder));

  job.copy("1-A-for-approval.xml");
  const Outcome a = job.issue("--revision A --status \"for approval\" --by \"L. Marr\"");
  CHECK(a.status == 0);
  CHECK(a.err == "");
  CHECK(job.read().last_issue()->by == "L. Marr");
  CHECK(read_file(job.folder + "/0001-project.xml") == read_file(job.file));
  job.refused(job.issue("--revision A"), "revision-issued");
  job.edit("for approval", "preliminary");
  job.refused(job.issue("--revision A"), "status-move");
  job.copy("1-A-for-approval.xml");
  job.edit("0+006.270", "0+006.370");
  job.edit("for approval", "revise and resubmit");
  job.refused(job.issue("--revision A"), "revision-issued");
  job.copy("2-A-comes-back.xml");
  job.refused(job.issue("--revision A"), "status-date");
  job.refused(job.issue("--revision A --date 2026-11-01"), "status-date");
  CHECK(job.issue("--revision A --date 2026-11-31").status == 2);
  // No panel is another, but a sheet is.
  job.edit("use=\"sluice gear\"", "use=\"gas main\"");
  const Outcome other = job.issue("--revision A --date 2026-11-13");
  job.refused(other, "revision-issued");
  CHECK(other.err.find("sheets are not what was issued as revision A: ") != std::string::npos);
  job.copy("2-A-comes-back.xml");
  job.edit("0+006.270", "0+006.370");
  // Drawn, it says so too, but may be looked at.
  CHECK(run("check " + job.file).err.find("warning [revision-issued]") != std::string::npos);

  job.copy("4-C-for-fabrication.xml");
  job.refused(job.issue("--revision B"), "revision-not-last");
  job.edit("status=\"closed\" answer=\"Opening 600.\" revision=\"B\"", "status=\"open\"");
  job.refused(job.issue("--revision C"), "redline-open");
  job.copy("4-C-for-fabrication.xml");
  CHECK(job.issue("--revision C").status == 0);
  job.copy("3-B-answers.xml");
  const Outcome back = job.issue("--revision B");
  job.refused(back, "revision-backwards");
  CHECK(back.err.find("the next revision is D") != std::string::npos);
  CHECK(run("check " + job.file).err.find("warning [revision-behind]") != std::string::npos);
  CHECK(job.entries() == 2);
}

TEST_CASE("register: what cannot have been built is refused") {
  Job job;
  job.copy("1-A-for-approval.xml");
  const std::string day = " --date 2027-01-11";
  job.refused(job.built("0733-001" + day), "built-not-released");
  REQUIRE(job.issue("--revision A").status == 0);
  job.refused(job.built("0733-001" + day), "built-not-released");
  job.copy("4-C-for-fabrication.xml");
  REQUIRE(job.issue("--revision C").status == 0);
  job.refused(job.built("0733-099" + day), "serial-unknown");
  job.refused(job.built("0733-003" + day), "serial-void");  // of the hatch as it was in revision A
  job.refused(job.built("0733-001 --date 2026-12-01"), "built-too-early");
  CHECK(job.built("0733-001 --date 2026-13-01").status == 2);
  CHECK(job.built("0733-001 --as baked" + day).status == 2);
  CHECK(job.built("0733-001 0733-002 --length-left 2490" + day).status == 2);
  CHECK(job.built("0733-001 --length-left long" + day).status == 2);
  CHECK(job.entries() == 2);
  const Outcome one = job.built(
      "0733-001 --by \"L. Marr\" --note \"edge made good\" --length-left 2489.5 --length-right "
      "2.491m" +
      day);
  CHECK(one.status == 0);
  const history::BuiltPanel b = job.read().entries[2].built.at(0);
  CHECK(b.length_left == mm(2489.5));
  CHECK(b.length_right == mm(2491));
  CHECK(b.revision == "C");
  CHECK(b.note == "edge made good");
  job.refused(job.built("0733-001" + day), "built-already");
  CHECK(job.built("0733-001 --as set" + day).status == 0);
  job.refused(job.built("0733-001 --as shipped" + day), "built-already");
}

TEST_CASE("register: a cast panel is reworked, or accepted as it was built") {
  for (const std::string way : {"rework", "accept"}) {
    Job job;
    job.copy("3-B-answers.xml");
    REQUIRE(job.issue("--revision B").status == 0);
    job.copy("4-C-for-fabrication.xml");
    REQUIRE(job.issue("--revision C").status == 0);
    REQUIRE(job.built("0733-003 --date 2027-01-11").status == 0);
    job.copy("6-D-replaces-the-panel.xml");
    job.edit("on=\"0733-009\" way=\"replace\"", "on=\"0733-003\" way=\"" + way + "\"");
    const Outcome d = job.issue("--revision D");
    CHECK(d.err == "");
    REQUIRE(d.status == 0);
    const history::Register r = job.read();
    const history::IssuedPosition third = r.last_issue()->positions.at(2);
    CHECK(third.serial == "0733-003");
    CHECK(third.mark == (way == "rework" ? "DP07" : "DP03"));
    CHECK(third.wanted.empty() == (way == "rework"));
    CHECK(r.entries.back().voided.empty());
    // Drawn again it is what was issued; checks look at the panel that is there.
    const Outcome check = run("check " + job.file);
    CHECK(check.err == "");
    CHECK(check.out.find("8 panels of 6 marks") != std::string::npos);
    const std::string holes = run("list " + job.file + " panels --csv").out;
    CHECK(rows_of(holes).at(2).at("mark") == third.mark);
    // Shipped, it needs no second decision; changed once more, it does.
    CHECK(job.built("0733-003 --as shipped --date 2027-02-01").status == 0);
    job.edit("0+006.330", "0+006.360");
    CHECK(run("check " + job.file).status == 1);
  }
}

TEST_CASE("register: one that is damaged stops every verb that needs it") {
  Job job;
  job.copy("1-A-for-approval.xml");
  REQUIRE(job.issue("--revision A").status == 0);
  const std::string entry = job.folder + "/0001.xml", text = read_file(entry);
  write_file(entry, replaced(text, "for approval", "for fabrication"));
  for (const char* verb : {"check", "list", "draw"}) {
    const Outcome o = run(std::string(verb) + " " + job.file);
    CHECK(o.status == 1);
    CHECK(o.err.find(entry + ":") == 0);
    CHECK(o.err.find("[register-changed]") != std::string::npos);
  }
  job.copy("4-C-for-fabrication.xml");
  job.refused(job.issue("--revision C"), "register-changed");
  CHECK(!fs::exists(job.folder + "/0002.xml"));
}

TEST_CASE("register: killed at any moment, issue and built leave it as it was or with the entry") {
  using clock = std::chrono::steady_clock;
  const auto time_of = [](const auto& what) {
    const auto start = clock::now();
    what();
    return std::chrono::duration_cast<std::chrono::microseconds>(clock::now() - start);
  };
  Job job;
  const auto copy = [&](const std::string& name) {  // few sheets: it is about the register
    job.copy(name);
    job.edit("<set>", "<set series=\"G T\">");
    job.edit(" sheet=\"P03\"", "");
  };
  copy("3-B-answers.xml");
  REQUIRE(job.issue("--revision B").status == 0);
  copy("4-C-for-fabrication.xml");
  const auto issue_time = time_of([&] { REQUIRE(job.issue("--revision C").status == 0); });
  const auto built_time =
      time_of([&] { REQUIRE(job.built("0733-008 --date 2027-01-11").status == 0); });
  const std::string text = read_file(job.file);
  const auto with_revision = [&](const std::string& letter) {
    job.put(replaced(text, "</revisions>",
                     "<revision id=\"" + letter +
                         "\" date=\"2026-12-05\" by=\"I. Vane\" status=\"for "
                         "fabrication\">again</revision></revisions>"));
  };
  std::size_t before = job.entries();
  int done = 0, undone = 0;
  constexpr int rounds = 72;
  for (int i = 0; i < rounds; ++i) {
    const bool issue = i % 6 == 0;
    // Runs differ in time; towards its end one writes.
    const auto time = (issue ? issue_time : built_time) * (rounds / 2 + i) / rounds;
    std::vector<std::string> line{"built", job.file, "", "--date", "2027-01-11", "--as", ""};
    if (issue) {
      const std::string next = history::next_revision(job.read().last_issue()->revision);
      with_revision(next);
      line = {"issue", job.file, "--revision", next};
    } else {
      static const char* const stages[] = {"cast", "shipped", "set"};
      line[2] = "0733-00" + std::to_string(1 + i / 3 % 7);
      line[6] = stages[i / 21 % 3];
    }
    killed_after(line, time);
    const history::Register r = job.read();  // opens, whatever happened
    CHECK((r.entries.size() == before || r.entries.size() == before + 1));
    if (r.entries.size() > before) CHECK(r.entries.back().issue.has_value() == issue);
    ++(r.entries.size() == before ? undone : done);
    before = r.entries.size();
  }
  MESSAGE("killed ", rounds, " times: ", done, " with the entry, ", undone, " without");
  // And the next run goes on.
  with_revision("WA");
  CHECK(job.issue("--revision WA").status == 0);
  CHECK(job.entries() == before + 1);
  for (const auto& e : fs::directory_iterator(job.folder)) CHECK(e.path().extension() != ".part");
}

TEST_CASE("register: of two at once both get in, one after the other, or one is told") {
  Job job;
  job.copy("4-C-for-fabrication.xml");
  job.edit("status=\"for fabrication\"", "status=\"for approval\"");
  REQUIRE(job.issue("--revision C").status == 0);
  job.copy("4-C-for-fabrication.xml");
  REQUIRE(job.issue("--revision C --date 2026-12-07").status == 0);
  Outcome a, b, c;
  std::thread first([&] { a = job.built("0733-001 --date 2027-01-11"); });
  std::thread second([&] { b = job.built("0733-002 --date 2027-01-11"); });
  std::thread third([&] { c = job.built("0733-002 --date 2027-01-11"); });
  first.join();
  second.join();
  third.join();
  CHECK(a.status == 0);
  CHECK(b.status + c.status == 1);  // the same panel is cast once
  CHECK((b.status == 1 ? b : c).err.find("built-already") != std::string::npos);
  CHECK(job.entries() == 4);
}
