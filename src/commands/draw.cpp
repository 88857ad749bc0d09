#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <thread>

#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/issued_set.h"
#include "commands/load.h"
#include "commands/sheet_list.h"
#include "paper/lettering.h"
#include "paper/style.h"
#include "writers/output.h"
#include "writers/whole_set.h"

namespace deckquire::commands {
namespace {

namespace fs = std::filesystem;

/// Keeps the sheets that the list asks for.
void keep_chosen(const std::string& list, std::vector<paper::Sheet>& sheets) {
  std::vector<std::string> numbers;
  for (const paper::Sheet& s : sheets) numbers.push_back(s.number);
  const SheetChoice choice = choose_sheets(list, numbers);
  if (!choice.strange.empty())
    throw WrongLine(fmt::format("--sheets: '{}' names no sheet of this set; it has {}",
                                choice.strange.front(), join(numbers, " ")));
  std::vector<paper::Sheet> kept;
  for (std::size_t i = 0; i < sheets.size(); ++i)
    if (choice.wanted[i]) kept.push_back(std::move(sheets[i]));
  sheets = std::move(kept);
}

writers::DocumentInfo information(const Project& project, const paper::Style& style,
                                  const std::vector<paper::Sheet>& sheets) {
  writers::DocumentInfo info;
  info.title = project.title;
  info.author = project.party("fabricator");
  info.job = project.number;
  info.date = project.revisions.empty() ? "" : project.revisions.back().date;
  info.inks.assign(style.inks.begin(), style.inks.end());
  info.hidden = style.hidden;
  for (const paper::Sheet& s : sheets) info.sheets.push_back(s.number);
  return info;
}

std::vector<writers::OutputFile> written(const std::vector<paper::Sheet>& sheets,
                                         const std::vector<Table>& tables,
                                         const writers::DocumentInfo& info,
                                         writers::Drawings drawings) {
  std::vector<writers::OutputFile> files;
  files.push_back({"index.html", writers::write_index(sheets, tables, info)});
  files.push_back({"set.pdf", std::move(drawings.pdf)});
  for (std::size_t i = 0; i < sheets.size(); ++i)
    files.push_back({"sheets/" + sheets[i].number + ".svg", std::move(drawings.svgs[i])});
  for (const Table& t : tables)
    files.push_back({"tables/" + t.name + ".csv", writers::write_csv(t)});
  return files;
}

int jobs_of(const DrawOptions& options) {
  if (options.jobs > 0) return options.jobs;
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

/// One line on a terminal that the next step overwrites; nothing in a pipe.
void progress(const char* step) {
  if (isatty(STDERR_FILENO)) fmt::print(stderr, "\r\x1b[K{}", step);
}

std::string out_folder(const DrawOptions& options) {
  if (!options.out.empty()) return options.out;
  return (fs::path("out") / fs::path(options.project).stem()).string();
}

std::string count(std::size_t n, const char* one) {
  return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
}

int draw_set(const Loaded& loaded, const paper::Style& style, const Findings& remarks,
             const DrawOptions& options) {
  const Project& project = loaded.project;
  const Deck& deck = loaded.deck;
  const paper::Lettering lettering(style.fonts);
  progress("drawing the sheets");
  Findings findings;
  IssuedSet set = draw_issued_set(
      loaded, {style, style_name(project, options.style), lettering, jobs_of(options)}, remarks,
      findings);
  progress("");
  report(findings);
  if (findings.has_errors()) return project_errors;
  std::vector<paper::Sheet> sheets = std::move(set.sheets);
  keep_chosen(options.sheets, sheets);
  const auto info = information(project, style, sheets);
  progress("writing PDF and SVG");
  auto drawings = writers::write_drawings(sheets, info, lettering, jobs_of(options));
  progress("saving the set");
  const std::string out = out_folder(options);
  writers::replace_set(out, written(sheets, set.tables, info, std::move(drawings)));
  progress("");
  fmt::print("{}, {}, {} -> {}\n", count(deck.panels.size(), "panel"),
             count(deck.marks.size(), "mark"), count(sheets.size(), "sheet"), out);
  const bool kept = loaded.scope.calculations.kept() && !remarks.has_errors();
  return kept ? done : project_errors;
}

}  // namespace

int draw(const DrawOptions& options) try {
  Findings findings;
  progress("reading the project");
  const auto loaded = load(options.project, findings);
  const auto style = loaded ? style_of(loaded->project, options.style, findings) : std::nullopt;
  progress("");
  report(findings);
  return style ? draw_set(*loaded, *style, findings, options) : project_errors;
} catch (const WrongLine& e) {
  progress("");
  fmt::print(stderr, "deckquire: {}\n", e.what());
  return wrong_command_line;
} catch (...) {
  progress("");
  throw;
}

}  // namespace deckquire::commands
