// The command line: declares the verbs, nothing else.
#include "commands/commands.h"
#include "commands/run.h"

namespace {

using namespace deckquire;

constexpr const char* statuses =
    "Findings go to standard error, one a line:\n"
    "  file:line:column: error|warning|note [code]: what is wrong; what to do\n\n"
    "Exit status: 0 done, 1 the project has errors, 2 the command line is wrong,\n"
    "3 a file could not be read or written.\n\n"
    "To begin:    deckquire new my-bridge\n"
    "             deckquire draw my-bridge/project.xml\n"
    "One verb:    deckquire draw --help";

struct Line {
  commands::DrawOptions draw;
  commands::CompareOptions compare;
  commands::ShopOptions shop;
  commands::IssueOptions issue;
  commands::BuiltOptions built;
  std::string project, schedule, folder, working;
  std::vector<std::string> marks, values;
  bool json = false, csv = false;
};

void add_project(CLI::App& verb, std::string& into) {
  verb.add_option("PROJECT.xml", into, "The project file")->required();
}

void declare_draw(CLI::App& app, Line& line, int& status) {
  CLI::App& draw =
      *app.add_subcommand("draw", "Draw the whole set: PDF, SVG, CSV and an index page");
  add_project(draw, line.draw.project);
  draw.add_option("--out", line.draw.out,
                  "Folder of the set, replaced as a whole when all is well [out/<file stem>]");
  draw.add_option("--style", line.draw.style,
                  "Name of a style, or a style file of your own [the project's]");
  draw.add_option("--sheets", line.draw.sheets,
                  "Only these sheets: series letters, numbers, ranges [all]");
  draw.add_option("--jobs", line.draw.jobs, "Threads; the files do not depend on it [processors]")
      ->check(CLI::Range(1, 256));
  draw.footer(
      "A project with errors draws nothing, and the set of last time stays as it is.\n\n"
      "Examples:\n"
      "  deckquire draw saltmarsh.xml                      to out/saltmarsh, in the project's "
      "style\n"
      "  deckquire draw saltmarsh.xml --style a3           the same on A3\n"
      "  deckquire draw saltmarsh.xml --sheets E,P03-P07   erection plans and five panel sheets");
  draw.callback([&] { status = commands::draw(line.draw); });
}

void declare_shop(CLI::App& app, Line& line, int& status) {
  CLI::App& shop = *app.add_subcommand(
      "shop", "Print what goes with the panels: templates, travellers, hand-over, tags, loads, a workbook");
  add_project(shop, line.shop.project);
  shop.add_option("--out", line.shop.out,
                  "Folder, replaced as a whole when all is well [out/<file stem>-shop]");
  shop.add_option("--style", line.shop.style, "Name of a style, or a style file of your own");
  shop.add_option("--page", line.shop.page, "Paper of the printer: a4, a3, letter, ledger")
      ->default_str("a4");
  shop.footer(
      "Templates are full size: print at 100 %, and measure the square before you use one.\n\n"
      "Example:\n  deckquire shop saltmarsh.xml --page a3");
  shop.callback([&] { status = commands::shop(line.shop); });
}

void declare_check(CLI::App& app, Line& line, int& status) {
  CLI::App& check = *app.add_subcommand("check", "Read and check the project, draw nothing");
  add_project(check, line.project);
  check.add_flag("--json", line.json, "Findings as JSON on standard output");
  check.footer("Example:\n  deckquire check saltmarsh.xml");
  check.callback([&] { status = commands::check(line.project, line.json); });
}

void declare_list(CLI::App& app, Line& line, int& status) {
  CLI::App& list = *app.add_subcommand("list", "Print one schedule, or which schedules there are");
  add_project(list, line.project);
  list.add_option("SCHEDULE", line.schedule, "marks, panels, materials ...; without it: all names");
  CLI::Option* csv = list.add_flag("--csv", line.csv, "As CSV, in SI units and full precision");
  list.add_flag("--json", line.json, "As JSON, in SI units and full precision")->excludes(csv);
  list.footer(
      "Examples:\n"
      "  deckquire list saltmarsh.xml                  which schedules there are\n"
      "  deckquire list saltmarsh.xml panels --csv     every panel, for a spreadsheet");
  list.callback([&] {
    using commands::Form;
    const Form form = line.csv ? Form::csv : line.json ? Form::json : Form::text;
    status = commands::list(line.project, line.schedule, form);
  });
}

void declare_audit(CLI::App& app, Line& line, int& status) {
  CLI::App& audit = *app.add_subcommand(
      "audit", "Measure the sheets: overlaps, sums, references, counts, how full they are");
  add_project(audit, line.project);
  audit.add_option("--style", line.draw.style, "Name of a style, or a style file of your own")
      ->option_text("TEXT");
  audit.add_flag("--json", line.json, "As JSON on standard output, places in mm");
  audit.footer(
      "Each check states what it looked at. Status 1 when something would come back from review.");
  audit.callback([&] { status = commands::audit({line.project, line.draw.style, line.json}); });
}

void declare_why(CLI::App& app, Line& line, int& status) {
  CLI::App& why =
      *app.add_subcommand("why", "Why two marks are two, or which marks could become one");
  add_project(why, line.project);
  why.add_option("MARK", line.marks, "Two marks, or one, or none")->expected(0, 2);
  why.add_flag("--json", line.json, "As JSON on standard output, lengths in mm");
  why.footer(
      "With one mark or none: moves of posts, scuppers, hatches and sleeves that would save a "
      "mould,\n"
      "each tried on the whole deck. Whether a thing may be moved is for the designer to say.\n\n"
      "Examples:\n"
      "  deckquire why saltmarsh.xml DP04 DP03   what makes DP04 another part than DP03\n"
      "  deckquire why saltmarsh.xml DP04        what would make DP04 one with another mark\n"
      "  deckquire why saltmarsh.xml             the smallest moves that save a mark");
  why.callback([&] { status = commands::why(line.project, line.marks, line.json); });
}

void declare_divide(CLI::App& app, Line& line, int& status) {
  CLI::App& divide = *app.add_subcommand(
      "divide", "Compare divisions into panels: types, panels, masses, and what is proven");
  add_project(divide, line.project);
  divide.add_flag("--json", line.json, "As JSON, in SI units and full precision");
  divide.footer(
      "The chosen division comes as <panel/> lines: pasted into the spans they freeze it.\n\n"
      "Example:\n  deckquire divide saltmarsh.xml");
  divide.callback([&] { status = commands::divide(line.project, line.json); });
}

void declare_reckon(CLI::App& app, Line& line, int& status) {
  CLI::App& reckon =
      *app.add_subcommand("reckon", "One calculation by itself, with its steps, limits and source");
  reckon.add_option("WORKING", line.working, "Name of a working; without it: all there are");
  reckon.add_option("VALUES", line.values, "name=value, each with its unit, SI or US")
      ->allow_extra_args();
  reckon.add_flag("--json", line.json, "As JSON on standard output");
  reckon.footer(
      "A bare number is in the unit that the help of the working names first. units=us takes the "
      "US\n"
      "constants of an empirical formula, where it has its own.\n\n"
      "Examples:\n"
      "  deckquire reckon                                     which workings there are\n"
      "  deckquire reckon gutter-spread                       what it takes\n"
      "  deckquire reckon gutter-spread Q=1.5L/s Sx=2% SL=2.5% w=1.8\n"
      "  deckquire reckon grate-in-sag units=us Q=0.1cfs Sx=2% W=10in L=12in p=0.6");
  reckon.callback([&] { status = commands::reckon(line.working, line.values, line.json); });
}

void declare_new(CLI::App& app, Line& line, int& status) {
  CLI::App& start =
      *app.add_subcommand("new", "Start a project: a small bridge to change into yours");
  start.add_option("DIR", line.folder, "A folder that is new or empty")->required();
  start.footer("Example:\n  deckquire new my-bridge");
  start.callback([&] { status = commands::new_project(line.folder); });
}

void declare_issue(CLI::App& app, Line& line, int& status) {
  CLI::App& issue = *app.add_subcommand(
      "issue", "Freeze the file's last revision: marks, positions, serials, sheets");
  add_project(issue, line.issue.project);
  issue.add_option("--revision", line.issue.revision, "Its letter, the last of the file")
      ->required();
  issue.add_option("--status", line.issue.status,
                   "What it goes out for, the same as in the file [the file's]");
  issue.add_option("--by", line.issue.by, "Who issues it [who drew it]");
  issue.add_option("--date", line.issue.date,
                   "When an issued revision got its new status, YYYY-MM-DD");
  issue.footer(
      "Writes an entry into the register, the folder <file stem>.register beside the file: keep it "
      "with\n"
      "the file, and change nothing in it. A revision that came back or was released is issued "
      "again when\n"
      "the file has its new status, with --date.\n\n"
      "Examples:\n"
      "  deckquire issue saltmarsh.xml --revision A --status \"for approval\"\n"
      "  deckquire issue saltmarsh.xml --revision C --by \"I. Vane\"");
  issue.callback([&] { status = commands::issue(line.issue); });
}

void declare_built(CLI::App& app, Line& line, int& status) {
  CLI::App& built =
      *app.add_subcommand("built", "Enter that panels were cast, shipped or set: they are kept");
  commands::BuiltOptions& o = line.built;
  add_project(built, o.project);
  built.add_option("SERIAL", o.serials, "Serials of the panels")->required();
  built.add_option("--date", o.date, "When, YYYY-MM-DD")->required();
  built.add_option("--as", o.stage, "cast, shipped or set [cast]")
      ->check(CLI::IsMember({"cast", "shipped", "set"}))
      ->option_text("STAGE");
  built.add_option("--by", o.by, "Who says so");
  built.add_option("--note", o.note, "What else is to be known of them");
  built.add_option("--length-left", o.length_left, "As measured, of one panel");
  built.add_option("--length-right", o.length_right, "As measured");
  built.add_option("--width-back", o.width_back, "As measured");
  built.add_option("--width-ahead", o.width_ahead, "As measured");
  built.footer(
      "From then on a change that would alter such a panel is an error, which names the ways "
      "out.\n\n"
      "Example:\n  deckquire built saltmarsh.xml 0417-005 0417-006 --date 2027-03-02 --by \"L. "
      "Marr\"");
  built.callback([&] { status = commands::built(line.built); });
}

void declare_compare(CLI::App& app, Line& line, int& status) {
  CLI::App& compare = *app.add_subcommand(
      "compare", "What changed from one project to another: panels, marks, sheets, and why");
  commands::CompareOptions& o = line.compare;
  compare.add_option("OLD", o.before, "A project file, or a revision that was issued of NEW")
      ->required();
  compare.add_option("NEW", o.now, "A project file")->required();
  compare.add_option("--out", o.out, "Folder for R sheets, as PDF and SVG [none]")
      ->option_text("DIR");
  compare.add_option("--style", o.style, "Name of a style, or a style file of your own")
      ->option_text("TEXT");
  compare.add_flag("--json", o.json, "As JSON on standard output, in SI units and full precision");
  compare.footer(
      "How a file is written is no change: order, white space, units, defaults written out. Each "
      "change\n"
      "is traced by building and drawing OLD with that change alone.\n\n"
      "Examples:\n"
      "  deckquire compare sent.xml returned.xml         what the reviewer edited\n"
      "  deckquire compare A saltmarsh.xml --out out/B   against revision A, with R sheets");
  compare.callback([&] { status = commands::compare(line.compare); });
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Shop and erection drawings of FRP bridge decks from one project file", "deckquire"};
  Line line;
  int status = commands::done;
  declare_draw(app, line, status);
  declare_shop(app, line, status);
  declare_check(app, line, status);
  declare_list(app, line, status);
  declare_audit(app, line, status);
  declare_why(app, line, status);
  declare_divide(app, line, status);
  declare_reckon(app, line, status);
  declare_new(app, line, status);
  declare_issue(app, line, status);
  declare_built(app, line, status);
  declare_compare(app, line, status);
  app.set_version_flag("--version", "deckquire " DECKQUIRE_VERSION);
  app.require_subcommand(1);
  app.footer(statuses);
  return commands::run(app, argc, argv, status);
}
