#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <thread>

#include "base/parallel.h"
#include "commands/commands.h"
#include "commands/load.h"
#include "paper/lettering.h"
#include "paper/style.h"
#include "schedules/schedules.h"
#include "sheets/set.h"
#include "writers/output.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

namespace fs = std::filesystem;

/// Where named styles are: told by the environment, beside the sources that built the program, or
/// beside an installed program.
std::string styles_folder() {
  if (const char* told = std::getenv("DECKQUIRE_STYLES")) return told;
  std::error_code none;
  if (fs::is_directory(DECKQUIRE_STYLES, none)) return DECKQUIRE_STYLES;
  return (fs::read_symlink("/proc/self/exe", none).parent_path() / "../share/deckquire/styles")
      .string();
}

std::vector<std::string> parts_of(const std::string& list) {
  std::vector<std::string> parts(1);
  for (char c : list) {
    if (c == ',')
      parts.emplace_back();
    else if (c != ' ')
      parts.back() += c;
  }
  return parts;
}

/// Sheets that one part of the list names: a series letter, a number, or a range "P03-P07".
bool named(const std::string& part, const std::string& number) {
  const std::size_t dash = part.find('-');
  if (dash != std::string::npos) {
    const std::string from = part.substr(0, dash), to = part.substr(dash + 1);
    return number[0] == from[0] && number >= from && number <= to;
  }
  return part == number || (part.size() == 1 && number[0] == part[0]);
}

/// False, and a message, when a part of the list names no sheet of the set.
bool choose(const std::string& list, std::vector<paper::Sheet>& sheets) {
  if (list.empty()) return true;
  const std::vector<std::string> parts = parts_of(list);
  for (const std::string& part : parts)
    if (part.empty() || std::none_of(sheets.begin(), sheets.end(), [&](const paper::Sheet& s) {
          return named(part, s.number);
        })) {
      std::fprintf(stderr, "deckquire: --sheets: '%s' names no sheet of this set (%s to %s)\n",
                   part.c_str(), sheets.front().number.c_str(), sheets.back().number.c_str());
      return false;
    }
  std::erase_if(sheets, [&](const paper::Sheet& s) {
    return std::none_of(parts.begin(), parts.end(),
                        [&](const std::string& part) { return named(part, s.number); });
  });
  return true;
}

writers::DocumentInfo information(const Project& project, const paper::Style& style,
                                  const std::vector<paper::Sheet>& sheets) {
  writers::DocumentInfo info;
  info.title = project.title;
  info.author = project.party("fabricator");
  info.job = project.number;
  info.date = project.revisions.empty() ? "" : project.revisions.back().date;
  info.inks.assign(style.inks.begin(), style.inks.end());
  for (const paper::Sheet& s : sheets) info.sheets.push_back(s.number);
  return info;
}

std::vector<writers::OutputFile> written(const std::vector<paper::Sheet>& sheets,
                                         const std::vector<Table>& tables,
                                         const writers::DocumentInfo& info,
                                         const paper::Lettering& lettering, int jobs) {
  std::vector<writers::OutputFile> files(sheets.size());
  for_each_index(
      sheets.size(), jobs, [] { return 0; },
      [&](int, std::size_t i) {
        files[i] = {"sheets/" + sheets[i].number + ".svg",
                    writers::write_svg(sheets[i], info, lettering)};
      });
  files.push_back({"set.pdf", writers::write_pdf(sheets, info, lettering, jobs)});
  for (const Table& t : tables)
    files.push_back({"tables/" + t.name + ".csv", writers::write_csv(t)});
  files.push_back({"index.html", writers::write_index(sheets, tables, info)});
  return files;
}

int processors() {
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

void progress(const char* text) {
  if (isatty(2)) std::fprintf(stderr, "%s\n", text);
}

}  // namespace

int draw(const DrawOptions& options) {
  Findings findings;
  progress("reading ...");
  const auto loaded = load(options.project, findings);
  if (!loaded) {
    report(findings);
    return project_errors;
  }
  const Project& project = loaded->project;
  const std::string wanted = options.style.empty() ? project.set.style : options.style;
  const paper::Style style = paper::read_style(wanted, styles_folder(), findings);
  report(findings);
  if (findings.has_errors()) return project_errors;
  const paper::Lettering lettering(style.fonts);
  const std::vector<Table> tables = make_schedules(project, loaded->bridge, loaded->deck);
  const CheckScope scope = check_scope(project);
  const int jobs = options.jobs > 0 ? options.jobs : processors();
  progress("drawing ...");
  const std::vector<Finding> remarks = findings.sorted();
  auto sheets = sheets::draw_set(
      {project, loaded->bridge, loaded->deck, tables, scope, remarks, style, lettering}, jobs);
  if (!choose(options.sheets, sheets)) return wrong_command_line;
  progress("writing ...");
  const std::string out = options.out.empty()
                              ? (fs::path("out") / fs::path(options.project).stem()).string()
                              : options.out;
  const auto info = information(project, style, sheets);
  writers::replace_set(out, written(sheets, tables, info, lettering, jobs));
  fmt::print("{} panels of {} marks on {} sheets: {}\n", loaded->deck.panels.size(),
             loaded->deck.marks.size(), sheets.size(), (fs::path(out) / "set.pdf").string());
  return done;
}

}  // namespace deckquire::commands
