// The command line: declares the verbs, nothing else.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include "base/text.h"
#include "commands/commands.h"

namespace {

using namespace deckquire;

const std::vector<std::string> verbs{"draw", "check", "list", "new", "reckon", "compare", "issue"};

/// A mistyped verb gets the nearest one, which the parser does not offer.
bool known_verb(int argc, char** argv) {
  if (argc < 2 || argv[1][0] == '-') return true;
  const std::string word = argv[1];
  for (const std::string& v : verbs)
    if (v == word) return true;
  const std::string near = nearest_word(word, verbs);
  std::fprintf(stderr, "deckquire: there is no verb '%s'; %s\n", word.c_str(),
               near.empty() ? "see deckquire --help" : ("did you mean '" + near + "'?").c_str());
  return false;
}

struct Line {
  commands::DrawOptions draw;
  std::string project, schedule, folder;
  bool json = false, csv = false;
};

void declare_draw(CLI::App& app, Line& line, int& status) {
  CLI::App* draw =
      app.add_subcommand("draw", "Draw the whole set: PDF, SVG, CSV and an index page");
  draw->add_option("PROJECT", line.draw.project, "The project file, XML")->required();
  draw->add_option("--out", line.draw.out,
                   "Folder to write; replaced as a whole [out/<file stem>]");
  draw->add_option("--style", line.draw.style, "Style name or file [the project's own]");
  draw->add_option("--sheets", line.draw.sheets,
                   "Only these: series, numbers, ranges (E,P03-P07,T01)");
  draw->add_option("--jobs", line.draw.jobs, "Threads [one a processor]")
      ->check(CLI::Range(1, 256));
  draw->footer("Example:  deckquire draw projects/saltmarsh.xml --style a3 --sheets E");
  draw->callback([&] { status = commands::draw(line.draw); });
}

void declare_reports(CLI::App& app, Line& line, int& status) {
  CLI::App* check =
      app.add_subcommand("check", "Read and check, draw nothing; findings name the line");
  check->add_option("PROJECT", line.project, "The project file, XML")->required();
  check->add_flag("--json", line.json, "Findings as JSON on standard output");
  check->callback([&] { status = commands::check(line.project, line.json); });

  CLI::App* list =
      app.add_subcommand("list", "Print one schedule; without its name, which there are");
  list->add_option("PROJECT", line.project, "The project file, XML")->required();
  list->add_option("SCHEDULE", line.schedule, "For example marks, panels, materials");
  auto* csv = list->add_flag("--csv", line.csv, "As CSV, in SI units");
  list->add_flag("--json", line.json, "As JSON, in SI units")->excludes(csv);
  list->callback([&] {
    const commands::Form form = line.csv    ? commands::Form::csv
                                : line.json ? commands::Form::json
                                            : commands::Form::text;
    status = commands::list(line.project, line.schedule, form);
  });
}

void declare_others(CLI::App& app, Line& line, int& status) {
  CLI::App* fresh = app.add_subcommand("new", "Start a project: a small bridge and the schema");
  fresh->add_option("DIR", line.folder, "A new or empty folder")->required();
  fresh->callback([&] { status = commands::new_project(line.folder); });
  for (const char* verb : {"reckon", "compare", "issue"}) {
    CLI::App* later = app.add_subcommand(verb, "(not there yet)");
    later->allow_extras();
    later->callback([verb, &status] { status = commands::not_there_yet(verb); });
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (!known_verb(argc, argv)) return commands::wrong_command_line;
  CLI::App app{"deckquire: shop and erection drawings of FRP bridge decks from one XML project"};
  Line line;
  int status = commands::done;
  declare_draw(app, line, status);
  declare_reports(app, line, status);
  declare_others(app, line, status);
  app.set_version_flag("--version", "deckquire " DECKQUIRE_VERSION);
  app.require_subcommand(1);
  app.footer(
      "Findings go to standard error, one a line: file:line:column: severity [code]: what; "
      "remedy.\n"
      "Exit status: 0 done, 1 the project has errors, 2 the command line is wrong, 3 a file could\n"
      "not be read or written. Start with:  deckquire new my-bridge");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? commands::done : commands::wrong_command_line;
  } catch (const std::exception& e) {
    std::fprintf(stderr, "deckquire: %s\n", e.what());
    return commands::file_trouble;
  }
  return status;
}
