#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/load.h"
#include "commands/register_entry.h"
#include "history/statuses.h"
#include "history/store.h"
#include "project/quantities.h"
#include "project/reader.h"

namespace deckquire::commands {
namespace {

using history::Stage;

const std::map<std::string, Stage>& stages() {
  static const std::map<std::string, Stage> all{
      {"cast", Stage::cast}, {"shipped", Stage::shipped}, {"set", Stage::set}};
  return all;
}

std::string word(Stage stage) {
  for (const auto& [name, s] : stages())
    if (s == stage) return name;
  return "planned";
}

/// A length of the command line, in the project's own unit where it says none.
std::optional<Length> measured(const std::string& text, const char* option,
                               const Project& project) {
  if (text.empty()) return std::nullopt;
  OwnUnit own{"mm"};
  if (project.unit == metres(1)) own = {"m"};
  if (project.unit == inches(1)) own = {"in"};
  if (project.unit == feet(1)) own = {"ft"};
  const Reading reading = read_amount(Kind::length, text, own);
  if (const auto* refused = std::get_if<Refusal>(&reading))
    throw WrongLine(fmt::format("--{}: \"{}\" {}; {}", option, text, refused->what,
                                refused->remedy));
  return Length::from_nanometres(std::get<Amount>(reading).nanometres);
}

/// The revision that panels are made to: the last that the shop may work to.
const history::Issue* made_to(const history::Register& issued) {
  const history::Issue* found = nullptr;
  for (const history::Entry& e : issued.entries)
    if (e.issue && history::may_be_made(issued.status(e.issue->revision))) found = &*e.issue;
  return found;
}

class Record {
 public:
  Record(const BuiltOptions& options, const Project& project, const history::Register& issued,
         const std::string& folder, Findings& findings)
      : options_(options), project_(project), issued_(issued), folder_(folder), findings_(findings) {}

  std::optional<history::Entry> entry() {
    const history::Issue* issue = made_to(issued_);
    if (issue == nullptr) {
      refuse("built-not-released", "no revision is released to the shop, so nothing is made to one",
             "issue one \"for fabrication\" first");
      return std::nullopt;
    }
    history::Entry e;
    const auto lives = issued_.lives();
    for (const std::string& serial : options_.serials) {
      const auto life = std::find_if(lives.begin(), lives.end(),
                                     [&](const auto& l) { return l.serial == serial; });
      if (life == lives.end())
        refuse("serial-unknown", fmt::format("no panel was issued with the serial {}", serial),
               "deckquire list PROJECT.xml panels has them all");
      else
        add(*issue, *life, e);
    }
    if (findings_.has_errors()) return std::nullopt;
    return e;
  }

 private:
  void refuse(const char* code, std::string what, std::string remedy) {
    findings_.error({folder_, 0, 0}, code, std::move(what), std::move(remedy));
  }

  void add(const history::Issue& issue, const history::PanelLife& life, history::Entry& e) {
    const auto place = std::find_if(issue.positions.begin(), issue.positions.end(),
                                    [&](const auto& p) { return p.serial == life.serial; });
    if (life.voided)
      return refuse("serial-void",
                    fmt::format("{} is void{}: {}", life.serial,
                                life.replaced_by.empty() ? "" : ", replaced by " + life.replaced_by,
                                life.reason),
                    "enter the panel that takes its place");
    if (place == issue.positions.end())
      return refuse("built-not-released",
                    fmt::format("{} is not in revision {}, the last that is released to the shop",
                                life.serial, issue.revision),
                    "issue the revision that has it \"for fabrication\" first");
    const Stage stage = stages().at(options_.stage);
    const bool reworked = stage == Stage::cast && life.stage == Stage::cast &&
                          life.events.back().mark != place->mark;
    if (stage <= life.stage && !reworked)
      return refuse("built-already",
                    fmt::format("{} is {} already, on {}", life.serial, word(life.stage),
                                life.events.back().date),
                    "enter what came after that: cast, then shipped, then set");
    const std::string& earliest = life.events.empty() ? issue.date : life.events.back().date;
    if (options_.date < earliest)
      return refuse("built-too-early",
                    fmt::format("{} cannot be {} on {}: {} on {}", life.serial, options_.stage,
                                options_.date,
                                life.events.empty()
                                    ? fmt::format("revision {} was issued", issue.revision)
                                    : "it was " + word(life.stage),
                                earliest),
                    "correct the date");
    if (std::any_of(e.built.begin(), e.built.end(),
                    [&](const auto& b) { return b.serial == life.serial; }))
      return;
    e.built.push_back({life.serial, place->mark, issue.revision, stage, options_.date, options_.by,
                       options_.note, measured(options_.length_left, "length-left", project_),
                       measured(options_.length_right, "length-right", project_),
                       measured(options_.width_back, "width-back", project_),
                       measured(options_.width_ahead, "width-ahead", project_)});
  }

  const BuiltOptions& options_;
  const Project& project_;
  const history::Register& issued_;
  const std::string& folder_;
  Findings& findings_;
};

void check_line(const BuiltOptions& o) {
  if (!is_date(o.date))
    throw WrongLine(fmt::format("--date: \"{}\" is no date; write YYYY-MM-DD", o.date));
  const bool sizes = !o.length_left.empty() || !o.length_right.empty() || !o.width_back.empty() ||
                     !o.width_ahead.empty();
  if (sizes && o.serials.size() > 1)
    throw WrongLine("measured sizes are those of one panel; enter the others by themselves");
}

}  // namespace

int built(const BuiltOptions& options) try {
  check_line(options);
  const std::string folder = history::register_folder(options.project);
  const std::string who = fmt::format("{} panels {}", options.serials.size(), options.stage);
  return enter(options.project, who, [&](const std::string& text) -> std::optional<NewEntry> {
    Findings findings;
    const auto project = read_project(text, options.project, findings);
    const auto issued = history::read_register(folder, findings);
    std::optional<history::Entry> entry;
    if (project && issued) entry = Record(options, *project, *issued, folder, findings).entry();
    report(findings);
    if (!entry) return std::nullopt;
    return NewEntry{*entry, *issued, [entry, folder] {
                      for (const history::BuiltPanel& b : entry->built)
                        fmt::print("{} ({}) {} on {}, to revision {} -> {}\n", b.serial, b.mark,
                                   word(b.stage), b.date, b.revision, folder);
                    }};
  });
} catch (const WrongLine& e) {
  fmt::print(stderr, "deckquire: {}\n", e.what());
  return wrong_command_line;
}

}  // namespace deckquire::commands
