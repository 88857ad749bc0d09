#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <thread>

#include "base/checksum.h"
#include "base/files.h"
#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/tracing.h"
#include "history/identities.h"
#include "history/store.h"
#include "project/quantities.h"
#include "project/reader.h"
#include "writers/output.h"
#include "writers/whole_set.h"

namespace deckquire::commands {
namespace {

namespace fs = std::filesystem;
using history::Change;

/// Both sides, built, named and drawn. What the others refer to does not move.
struct Compared {
  std::string before, now;  // in words: "revision A", "old.xml"
  std::string before_text, now_text;
  std::string folder;
  history::Register issued;  // up to the older one
  std::optional<Loaded> older, newer;
  std::vector<paper::Sheet> older_sheets;
  IssuedSet set;
  std::vector<Change> changes;
  history::Impact impact;
  ChangedSheets sheets;
  std::vector<Trace> traces;
  Former former() const { return {issued, folder, before_text, *older, older_sheets}; }
};

std::string text_of_file(const std::string& path) {
  return read_file(path, std::size_t{256} << 20);
}

/// The register as it stood when that revision had gone out.
history::Register until(const history::Register& all, const std::string& revision) {
  history::Register out;
  for (const history::Entry& e : all.entries) {
    out.entries.push_back(e);
    if (e.issue && e.issue->revision == revision) return out;
  }
  return {};
}

/// The older side from the register beside the newer one. False with a finding.
bool take_issue(Compared& c, const std::string& revision, const std::string& path,
                Findings& findings) {
  c.folder = history::register_folder(path);
  const auto all = history::read_register(c.folder, findings);
  if (!all) return false;
  c.issued = until(*all, revision);
  const history::Issue* issue = c.issued.last_issue();
  if (issue == nullptr)
    throw WrongLine(
        fmt::format("compare: '{}' is no file, and no revision that was issued of {} (see {})",
                    revision, path, c.folder));
  c.before = "revision " + revision;
  c.before_text = history::issued_project(c.folder, *issue);
  auto project = read_project(c.before_text, c.folder + "/" + issue->project_file, findings);
  if (project) c.older = build(std::move(*project), findings, all->before(revision), c.folder);
  return c.older.has_value();
}

/// The older side from a file, taken as if it had been issued. False with a finding.
bool take_file(Compared& c, const std::string& path, Findings& findings) {
  const bool letters = path.size() <= 2 && path.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string::npos;
  if (letters && !fs::exists(path))
    throw WrongLine(fmt::format("compare: '{}' is no file, and no revision: the letters I O Q S X Z are not used",
                                path));
  c.before = path;
  c.before_text = text_of_file(path);
  c.folder = fs::path(path).parent_path().string();
  if (c.folder.empty()) c.folder = ".";
  auto project = read_project(c.before_text, path, findings);
  if (project) c.older = build(std::move(*project), findings);
  return c.older.has_value();
}

void issue_in_memory(Compared& c, const std::string& path, const Drawing& how, Findings& findings) {
  Drawing record = how;
  record.record = true;
  IssuedSet set = draw_issued_set(*c.older, nullptr, record, {}, findings);
  history::Entry entry;
  entry.number = 1;
  entry.issue = history::issue_of(c.older->project, c.older->bridge, c.older->deck);
  entry.issue->style = how.style_name;
  entry.issue->project_file = fs::path(path).filename().string();
  entry.issue->project_checksum = sha256(c.before_text);
  for (SheetState& s : set.states) entry.issue->sheets.push_back(std::move(s.sheet));
  entry.issue->layout = std::move(set.layout);
  c.issued.entries.push_back(std::move(entry));
}

// ---- words

std::size_t line_number(const Place& p) {
  return static_cast<std::size_t>(std::max(0, p.line));
}

std::string place_words(const Change& c) {
  const auto one = [](const Place& p) { return p.line > 0 ? std::to_string(p.line) : "–"; };
  return fmt::format("lines {}, {}", one(c.old_place), one(c.new_place));
}

std::string sheet_list(const Compared& c, const ChangedSheets& sheets) {
  std::vector<std::string> out;
  for (const auto& [number, boxes] : sheets) {
    const auto has = [&, n = number](const std::vector<paper::Sheet>& list) {
      return std::any_of(list.begin(), list.end(), [&](const auto& s) { return s.number == n; });
    };
    const bool was = has(c.older_sheets), is = has(c.set.sheets);
    if (was || is) out.push_back(number + (!was ? " new" : !is ? " void" : ""));
  }
  return join(out, ", ");
}

std::string or_none(const std::string& words) {
  return words.empty() ? "none" : words;
}

void print_text(const Compared& c) {
  fmt::print("from {} to {}: {} changes, {} panels, {} marks, {} sheets\n", c.before, c.now,
             c.changes.size(), c.impact.panels.size(), c.impact.marks.size(), c.sheets.size());
  for (const Trace& t : c.traces) {
    for (std::size_t i : t.group.changes)
      fmt::print("\n{}  ({})", to_words(c.changes[i]), place_words(c.changes[i]));
    if (!t.alone) {
      fmt::print("\n  not traced: it cannot be built without the other changes\n");
      continue;
    }
    fmt::print("\n  panels: {}\n  marks: {}\n  sheets: {}\n", or_none(panel_words(t.impact)),
               or_none(mark_words(t.impact)), or_none(sheet_list(c, t.sheets)));
  }
  if (c.changes.empty() && c.sheets.empty()) return;
  fmt::print("\ngeneral sheets (G) go on with every revision and are not listed\n");
  fmt::print("\nall together\n  panels: {}\n  marks: {}\n  sheets: {}\n",
             or_none(panel_words(c.impact)), or_none(mark_words(c.impact)),
             or_none(sheet_list(c, c.sheets)));
}

// ---- JSON

std::string number_or_null(const std::optional<double>& v) {
  return v ? machine_number(*v) : "null";
}

template <class List, class Print>
std::string json_list(const List& list, Print print) {
  std::string out = "[";
  for (const auto& item : list) out += (out.size() > 1 ? "," : "") + print(item);
  return out + "]";
}

std::string json_impact(const Compared& c, const history::Impact& impact,
                        const ChangedSheets& sheets) {
  const auto q = [](const std::string& s) { return json_string(s); };
  const std::string panels = json_list(impact.panels, [&](const history::PanelChange& p) {
    return fmt::format(
        "{{\"position\":{},\"effect\":{},\"serial_before\":{},\"serial\":{},\"mark_before\":{},"
        "\"mark\":{}}}",
        p.position, q(name_of(p.effect)), q(p.serial_before), q(p.serial), q(p.mark_before),
        q(p.mark));
  });
  const std::string marks = json_list(impact.marks, [&](const history::MarkChange& m) {
    return fmt::format("{{\"mark\":{},\"effect\":{},\"before\":{},\"now\":{}}}", q(m.mark),
                       q(name_of(m.effect)), m.before, m.now);
  });
  const auto has = [](const std::vector<paper::Sheet>& list, const std::string& number) {
    return std::any_of(list.begin(), list.end(), [&](const auto& s) { return s.number == number; });
  };
  const std::string numbers = json_list(sheets, [&](const auto& entry) {
    const bool was = has(c.older_sheets, entry.first), is = has(c.set.sheets, entry.first);
    return fmt::format("{{\"sheet\":{},\"state\":{}}}", q(entry.first),
                       q(was && is ? "changed"
                         : is      ? "new"
                         : was     ? "void"
                                   : "passing"));
  });
  return fmt::format("\"panels\":{},\"marks\":{},\"sheets\":{}", panels, marks, numbers);
}

void print_json(const Compared& c) {
  const auto q = [](const std::string& s) { return json_string(s); };
  const auto change = [&](std::size_t i) {
    const Change& x = c.changes[i];
    const char* way = x.way == Change::Way::added     ? "added"
                      : x.way == Change::Way::removed ? "removed"
                                                      : "changed";
    return fmt::format(
        "{{\"way\":\"{}\",\"element\":{},\"attribute\":{},\"before\":{},\"now\":{},\"before_si\":{}"
        ","
        "\"now_si\":{},\"line_before\":{},\"line\":{}}}",
        way, q(x.element), q(x.attribute), q(x.before), q(x.now), number_or_null(x.before_si),
        number_or_null(x.now_si), line_number(x.old_place), line_number(x.new_place));
  };
  const std::string groups = json_list(c.traces, [&](const Trace& t) {
    return fmt::format("{{\"changes\":{},\"traced\":{},{}}}", json_list(t.group.changes, change),
                       t.alone, json_impact(c, t.impact, t.sheets));
  });
  fmt::print("{{\"before\":{},\"now\":{},\"groups\":{},{}}}\n", q(c.before), q(c.now), groups,
             json_impact(c, c.impact, c.sheets));
}

// ---- R sheets

void write_sheets(const Compared& c, const Drawing& how, const std::string& out) {
  std::vector<paper::Sheet> sheets;
  for (const paper::Sheet& s : c.set.sheets)
    if (s.number[0] == 'R') sheets.push_back(s);
  const Project& project = c.newer->project;
  writers::DocumentInfo info;
  info.title = project.title;
  info.author = project.party("fabricator");
  info.job = project.number;
  info.date = project.revisions.back().date;
  info.inks.assign(how.style.inks.begin(), how.style.inks.end());
  info.hidden = how.style.hidden;
  for (const paper::Sheet& s : sheets) info.sheets.push_back(s.number);
  auto drawings = writers::write_drawings(sheets, info, how.lettering, how.jobs);
  std::vector<writers::OutputFile> files;
  files.push_back({"changes.pdf", std::move(drawings.pdf)});
  for (std::size_t i = 0; i < sheets.size(); ++i)
    files.push_back({"sheets/" + sheets[i].number + ".svg", std::move(drawings.svgs[i])});
  writers::replace_set(out, files);
}

/// Everything that both are drawn in.
struct Desk {
  paper::Style style;
  paper::Lettering lettering;
  explicit Desk(paper::Style s) : style(std::move(s)), lettering(style.fonts) {}
};

bool load_newer(Compared& c, const CompareOptions& options, bool from_register,
                Findings& findings) {
  c.now = options.now;
  c.now_text = text_of_file(options.now);
  if (from_register) {
    c.newer = load_text(c.now_text, options.now, findings);
  } else if (auto project = read_project(c.now_text, options.now, findings)) {
    c.newer = build(std::move(*project), findings, c.issued, c.folder);
  }
  // R sheets are made of the text, and cost a drawn set for every change.
  if (c.newer) c.newer->text = options.out.empty() ? "" : c.now_text;
  return c.newer.has_value();
}

int compare_built(Compared& c, const CompareOptions& options, const Drawing& how,
                  Findings& findings) {
  const PastIssues past{c.issued, c.folder};
  Findings notes;
  auto older = redraw_last_issue(past, how, notes);
  report(notes);
  if (!older) return project_errors;
  c.older_sheets = std::move(older->sheets);
  c.set = draw_issued_set(*c.newer, &past, how, findings, notes);
  c.changes = changes_between(c.before_text, c.before, c.now_text, c.now);
  c.impact = impact_between(*c.older, *c.newer, c.issued);
  c.sheets = sheets_between(c.older_sheets, c.set.sheets);
  c.traces = trace(c.former(), c.now_text, c.changes, how);
  options.json ? print_json(c) : print_text(c);
  if (!options.out.empty()) write_sheets(c, how, options.out);
  return done;
}

}  // namespace

int compare(const CompareOptions& options) try {
  Findings findings;
  Compared c;
  const bool from_register = is_revision(options.before) && !fs::exists(options.before);
  const bool taken = from_register ? take_issue(c, options.before, options.now, findings)
                                   : take_file(c, options.before, findings);
  if (!taken) return report(findings), project_errors;
  Findings of_newer;
  auto style = style_of(c.older->project, options.style, of_newer);
  if (!style) return report(of_newer), project_errors;
  const Desk desk(std::move(*style));
  const int jobs = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  const std::string name = options.style.empty() ? c.older->project.set.style : options.style;
  const Drawing how{desk.style, name, desk.lettering, jobs, false};
  if (!from_register) issue_in_memory(c, options.before, how, of_newer);
  const bool loaded = load_newer(c, options, from_register, of_newer);
  report(of_newer);
  if (!loaded) return project_errors;
  return compare_built(c, options, how, of_newer);
} catch (const WrongLine& e) {
  fmt::print(stderr, "deckquire: {}\n", e.what());
  return wrong_command_line;
}

}  // namespace deckquire::commands
