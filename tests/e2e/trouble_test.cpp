#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

const std::string quickstart = DECKQUIRE_SOURCE "/projects/quickstart.xml";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

auto lines(const std::string& text) {
  return std::count(text.begin(), text.end(), '\n');
}

std::string repeated(const std::string& s, int n) {
  std::string out;
  out.reserve(s.size() * static_cast<std::size_t>(n));
  for (int i = 0; i < n; ++i) out += s;
  return out;
}

/// What draw does with a text: refused as a project (1) or as a file (3), in few words, with
/// nothing written. Returns the status.
int refused(const std::string& text) {
  const TrialFolder trial;
  create_file(trial.path + "/bad.xml", text);
  const Outcome o = run("draw " + trial.path + "/bad.xml --out " + trial.path + "/set");
  CHECK(!o.err.empty());
  CHECK(lines(o.err) <= 201);  // the reader stops after 200 findings and says so
  CHECK(o.err.size() < 50000);
  CHECK(o.out == "");
  CHECK(!fs::exists(trial.path + "/set"));
  return o.status;
}

}  // namespace

TEST_CASE("trouble: a project with an error draws nothing and leaves the set of last time") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set", bad = trial.path + "/bad.xml";
  REQUIRE(run("draw " + quickstart + " --out " + set).status == 0);
  const std::string before = sums_below(set);
  create_file(bad, replaced(read_file(quickstart), "height=\"90\"", "hieght=\"90\""));
  const Outcome o = run("draw " + bad + " --out " + set);
  CHECK(o.status == 1);
  CHECK(o.err.starts_with(bad + ":25:13: error ["));
  CHECK(o.err.find("height") != std::string::npos);
  CHECK(before == sums_below(set));
  const Outcome check = run("check " + bad + " --json");
  CHECK(check.status == 1);
  CHECK(check.out.find("\"line\": 25, \"column\": 13") != std::string::npos);
}

TEST_CASE("trouble: values without measure are refused where they stand") {
  const std::string good = read_file(quickstart);
  for (const char* value : {"1e300", "-1e300", "nan", "inf", "1e-300", "99999999999999999999",
                            "0x10", "12,5", "", "1 furlong", "&#1;"}) {
    CAPTURE(value);
    CHECK(refused(replaced(good, "depth=\"130\"", "depth=\"" + std::string(value) + "\"")) == 1);
    CHECK(refused(replaced(good, "<panels longest=\"2490\"",
                           "<panels longest=\"" + std::string(value) + "\"")) == 1);
  }
}

TEST_CASE("trouble: files made to hurt are refused in time") {
  const std::string good = read_file(quickstart);
  CHECK(refused(repeated("<a>", 200000)) == 1);
  CHECK(refused(repeated("<a>", 200000) + repeated("</a>", 200000)) == 1);
  CHECK(refused(replaced(good, "<deck>", "<deck>" + repeated("<deck>", 200000))) == 1);
  CHECK(refused(replaced(good, "number=\"0301\"",
                         "number=\"" + std::string(100u << 20, '9') + "\"")) == 1);
  CHECK(refused(replaced(good, "units=\"mm\"",
                         "units=\"mm\"" + repeated(" units=\"mm\"", 50000))) == 1);
  CHECK(refused(replaced(good, "<parties>", "<parties>" + repeated("<x/>", 100000))) == 1);
  CHECK(refused("") == 1);
  CHECK(refused(std::string(1000, '\0')) == 1);
  CHECK(refused(good.substr(0, good.size() / 2)) == 1);
  CHECK(refused("\xff\xfe<\0p\0>\0") == 1);
  CHECK(refused("<!DOCTYPE x [<!ENTITY a \"&a;\">]>" + good) == 1);
}

TEST_CASE("trouble: files that cannot be read or written have status 3 and are named") {
  const Outcome none = run("draw no-such-file.xml");
  CHECK(none.status == 3);
  CHECK(none.err == "deckquire: no-such-file.xml: cannot open: No such file or directory\n");
  CHECK(run("draw " DECKQUIRE_SOURCE "/projects").status == 3);
  CHECK(run("check /dev/zero").status == 3);
  CHECK(run("draw " + quickstart + " --out /proc/set").status == 3);
  CHECK(run("draw " + quickstart + " --out " DECKQUIRE_SOURCE "/CMakeLists.txt").status == 3);
}

TEST_CASE("trouble: a wrong line has status 2 and the nearest verb") {
  CHECK(run("").status == 2);
  CHECK(run("draw").status == 2);
  CHECK(run("draw " + quickstart + " --jobs 0").status == 2);
  CHECK(run("draw " + quickstart + " --nonsense").status == 2);
  const Outcome near = run("chekc " + quickstart);
  CHECK(near.status == 2);
  CHECK(near.err == "deckquire: there is no verb 'chekc'; did you mean 'check'?\n");
  CHECK(run("--help").status == 0);
  CHECK(run("draw --help").out.find("Examples:") != std::string::npos);
  CHECK(run("--version").out.starts_with("deckquire "));
}

TEST_CASE("new: a project that draws at once; nothing is overwritten") {
  const TrialFolder trial;
  const std::string folder = trial.path + "/mine";
  REQUIRE(run("new " + folder).status == 0);
  CHECK(read_file(folder + "/project.xml") == read_file(quickstart));
  CHECK(read_file(folder + "/project.xsd") == read_file(DECKQUIRE_SOURCE "/projects/project.xsd"));
  CHECK(run("draw " + folder + "/project.xml --out " + trial.path + "/set").status == 0);
  const std::string before = sums_below(folder);
  const Outcome again = run("new " + folder);
  CHECK(again.status == 3);
  CHECK(again.err.find("is there already") != std::string::npos);
  CHECK(before == sums_below(folder));
}
