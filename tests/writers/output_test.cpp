#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <filesystem>
#include <functional>

#include "base/files.h"
#include "base/text.h"
#include "writers/output.h"
#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;
namespace fs = std::filesystem;

namespace {

const std::vector<OutputFile> first_set{{"set.pdf", "one"},
                                        {"index.html", "one"},
                                        {"sheets/E01.svg", "one"},
                                        {"sheets/E02.svg", "one"},
                                        {"tables/marks.csv", "one"}};
const std::vector<OutputFile> second_set{{"set.pdf", "two"},
                                         {"index.html", "two"},
                                         {"sheets/E01.svg", "two"},
                                         {"tables/marks.csv", "two"}};

/// Every file below, with what is in it: "set.pdf=one sheets/E01.svg=one".
std::string contents(const std::string& folder) {
  std::vector<std::string> lines;
  for (const auto& e : fs::recursive_directory_iterator(folder))
    if (e.is_regular_file())
      lines.push_back(e.path().lexically_relative(folder).string() + "=" +
                      read_file(e.path().string()));
  std::sort(lines.begin(), lines.end());
  return join(lines, " ");
}

std::size_t entries(const std::string& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), {}));
}

/// Runs in a child process; its exit status, or minus the signal that killed it.
int in_child(const std::function<int()>& work) {
  const pid_t child = fork();
  if (child == 0) _exit(work());
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

constexpr const char* first_whole =
    "index.html=one set.pdf=one sheets/E01.svg=one sheets/E02.svg=one tables/marks.csv=one";

}  // namespace

TEST_CASE("output: a set in a new folder, folders above made, nothing left beside it") {
  TrialFolder trial;
  replace_set(trial.path + "/a/b/set", first_set);
  CHECK(contents(trial.path + "/a/b/set") == first_whole);
  CHECK(entries(trial.path + "/a/b") == 1);
}

TEST_CASE("output: sheets of last time go, files of others stay, links stay links") {
  TrialFolder trial;
  const std::string set = trial.path + "/set/";  // a slash at the end names the same folder
  replace_set(set, first_set);
  write_file(set + "letter.txt", "mine");
  fs::create_directories(set + "sheets/marked up");
  write_file(set + "sheets/marked up/E01.svg", "mine");
  write_file(set + "sheets/notes.txt", "mine");
  fs::create_symlink("set.pdf", set + "latest.pdf");
  replace_set(set, second_set);
  CHECK(contents(set) ==
        "index.html=two latest.pdf=two letter.txt=mine set.pdf=two sheets/E01.svg=two "
        "sheets/marked up/E01.svg=mine sheets/notes.txt=mine tables/marks.csv=two");
  CHECK(fs::is_symlink(set + "latest.pdf"));
  CHECK(entries(trial.path) == 1);
}

TEST_CASE("output: a disk that is full, as a limit of file size, leaves the set of last time") {
  TrialFolder trial;
  const std::string set = trial.path + "/set";
  replace_set(set, first_set);
  const int status = in_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{100, 100};
    setrlimit(RLIMIT_FSIZE, &limit);
    std::vector<OutputFile> files = second_set;
    files.push_back({"sheets/E09.svg", std::string(5000, 'x')});
    try {
      replace_set(set, files);
      return 1;
    } catch (const FileError&) {
      return 0;
    }
  });
  CHECK(status == 0);
  CHECK(contents(set) == first_whole);
  CHECK(entries(trial.path) == 1);
}

TEST_CASE("output: a run killed on the way leaves the set of last time, the next one cleans up") {
  TrialFolder trial;
  const std::string set = trial.path + "/set";
  replace_set(set, first_set);
  const int status = in_child([&] {
    const rlimit limit{100, 100};
    setrlimit(RLIMIT_FSIZE, &limit);  // the signal that it sends is death, by default
    const rlimit no_core{0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    std::vector<OutputFile> files = second_set;
    files.push_back({"sheets/E09.svg", std::string(5000, 'x')});
    replace_set(set, files);
    return 1;
  });
  CHECK(status == -SIGXFSZ);
  CHECK(contents(set) == first_whole);
  CHECK(entries(trial.path) == 2);  // its half-written stage
  replace_set(set, second_set);
  CHECK(entries(trial.path) == 1);
  CHECK(contents(set).find("set.pdf=two") != std::string::npos);
}

TEST_CASE("output: a run killed between two renames is mended by the next one") {
  TrialFolder trial;
  const std::string set = trial.path + "/set";
  replace_set(set, first_set);
  write_file(set + "/letter.txt", "mine");
  fs::rename(set, trial.path + "/.set.previous-x");  // where exchange_by_renaming() puts it
  replace_set(set, second_set);
  CHECK(entries(trial.path) == 1);
  CHECK(contents(set).find("letter.txt=mine") != std::string::npos);
}

TEST_CASE("output: places that cannot be written, or should not be, are refused by name") {
  TrialFolder trial;
  write_file(trial.path + "/file", "mine");
  CHECK_THROWS_WITH_AS(replace_set(trial.path + "/file", first_set),
                       (trial.path + "/file: is not a folder").c_str(), FileError);
  CHECK_THROWS_AS(replace_set(trial.path + "/file/set", first_set), FileError);
  CHECK_THROWS_AS(replace_set("/proc/set", first_set), FileError);
  CHECK_THROWS_AS(replace_set(".", first_set), FileError);
  CHECK_THROWS_AS(replace_set("/", first_set), FileError);
  CHECK(read_file(trial.path + "/file") == "mine");
}

TEST_CASE("output: a folder without leave to write is an error and stays as it is") {
  TrialFolder trial;
  const std::string set = trial.path + "/set";
  replace_set(set, first_set);
  fs::permissions(trial.path, fs::perms{0555});
  const int status = in_child([&] {
    if (geteuid() == 0 && setuid(65534) != 0) return 2;  // root may write anywhere
    try {
      replace_set(set, second_set);
      return 1;
    } catch (const FileError&) {
      return 0;
    }
  });
  fs::permissions(trial.path, fs::perms::owner_all);
  CHECK(status == 0);
  CHECK(contents(set) == first_whole);
}

TEST_CASE("output: a folder full of other things is not taken for a set") {
  TrialFolder trial;
  fs::create_directory(trial.path + "/many");
  for (int i = 0; i < 1001; ++i) fs::create_directory(trial.path + "/many/" + std::to_string(i));
  CHECK_THROWS_AS(replace_set(trial.path + "/many", first_set), FileError);
  CHECK(entries(trial.path + "/many") == 1001);
  CHECK(entries(trial.path) == 1);
}
