#include "e2e/program.h"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "base/files.h"

namespace deckquire {

Outcome run(const std::string& arguments, const std::string& before) {
  const TrialFolder folder;
  Outcome o;
  const std::string command = before + " timeout -s KILL 20 " DECKQUIRE_PROGRAM " " + arguments;
  o.out = output_of("{ " + command + "; } 2>" + folder.path + "/err", &o.status);
  o.err = read_file(folder.path + "/err");
  return o;
}

std::vector<std::string> example_projects() {
  std::vector<std::string> files;
  for (const auto& e : std::filesystem::directory_iterator(DECKQUIRE_SOURCE "/projects"))
    if (e.path().extension() == ".xml") files.push_back(e.path().string());
  std::sort(files.begin(), files.end());
  return files;
}

const DrawnSet& drawn(const std::string& project) {
  static const TrialFolder trial;
  static std::map<std::string, DrawnSet> sets;
  DrawnSet& set = sets[project];
  if (set.folder.empty()) {
    set.folder = trial.path + "/" + std::filesystem::path(project).stem().string();
    set.outcome = run("draw " + project + " --jobs 2 --out " + set.folder);
  }
  return set;
}

namespace {

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      fields.emplace_back();
    else
      fields.back() += c;
  }
  return fields;
}

}  // namespace

std::vector<std::map<std::string, std::string>> rows_of(const std::string& csv) {
  std::istringstream in(csv);
  std::string line;
  std::getline(in, line);
  const auto names = fields_of(line);
  std::vector<std::map<std::string, std::string>> rows;
  while (std::getline(in, line)) {
    const auto fields = fields_of(line);
    rows.emplace_back();
    for (std::size_t i = 0; i < names.size() && i < fields.size(); ++i)
      rows.back()[names[i]] = fields[i];
  }
  return rows;
}

std::string sums_below(const std::string& folder) {
  return output_of("cd " + folder + " && find . -type f | sort | xargs -d '\\n' sha256sum");
}

int times(const std::string& word, const std::string& text) {
  std::istringstream in(text);
  int n = 0;
  for (std::string w; in >> w;) n += w == word;
  return n;
}

}  // namespace deckquire
