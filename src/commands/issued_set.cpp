#include "commands/issued_set.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/checksum.h"
#include "commands/tracing.h"
#include "history/store.h"
#include "paper/layer.h"
#include "paper/sheet_difference.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/clouds.h"
#include "sheets/layout_hints.h"
#include "sheets/redlines.h"
#include "sheets/sheet_index.h"
#include "sheets/title_block.h"
#include "sheets/transmittal.h"

namespace deckquire::commands {
namespace {

using history::Issue;
using history::IssuedSheet;
using history::Register;
using sheets::SetHistory;

/// Everything that the sheets of one set are drawn from.
struct Materials {
  Materials(const Loaded& from, const Drawing& drawing, const Findings& findings)
      : loaded(from),
        how(drawing),
        tables(schedules_of_set(from)),
        remarks(findings.sorted()) {}
  sheets::SetInput input(const SetHistory* history) const {
    return {loaded.project, loaded.bridge, loaded.deck,  tables, loaded.scope,
            remarks,        how.style,     how.lettering, history};
  }
  const Loaded& loaded;
  const Drawing& how;
  std::vector<Table> tables;
  std::vector<Finding> remarks;
};

const IssuedSheet* sheet_of(const Issue* issue, const std::string& number) {
  if (issue == nullptr) return nullptr;
  for (const IssuedSheet& s : issue->sheets)
    if (s.number == number) return &s;
  return nullptr;
}

/// Where that revision changed a sheet, from the issue that recorded it.
std::vector<history::Spot> spots_of_revision(const Register& issued, const std::string& revision,
                                             const std::string& sheet) {
  for (const history::Entry& e : issued.entries) {
    const IssuedSheet* s = e.issue ? sheet_of(&*e.issue, sheet) : nullptr;
    if (s && !s->withdrawn && !s->revisions.empty() && s->revisions.back() == revision)
      return s->spots;
  }
  return {};
}

int deltas(const std::vector<history::Spot>& spots) {
  return static_cast<int>(sheets::clouds_of(spots).size());
}

/// Of a sheet as it was issued last.
std::vector<SetHistory::Touch> touches(const Register& issued, const IssuedSheet* sheet) {
  std::vector<SetHistory::Touch> out;
  for (std::size_t i = 0; sheet && i < sheet->revisions.size(); ++i) {
    const std::string& revision = sheet->revisions[i];
    out.push_back({revision, deltas(spots_of_revision(issued, revision, sheet->number))});
  }
  return out;
}

std::optional<Loaded> load_issue(const PastIssues& past, const Issue& issue, Findings& findings) {
  const std::string path = past.folder + "/" + issue.project_file;
  Findings own;  // what the old project is told is no news
  auto project = read_project(history::issued_project(past.folder, issue), path, own);
  std::optional<Loaded> loaded;
  if (project)
    loaded = build(std::move(*project), own, past.issued.before(issue.revision), past.folder);
  if (!loaded)
    findings.error({path, 0, 0}, "issue-not-readable",
                   fmt::format("the project of revision {} cannot be built any more",
                               issue.revision),
                   "use the version of this program that issued it");
  return loaded;
}

/// A set that was issued, drawn again; G sheets stay blank.
struct Redrawn {
  sheets::SetPlan plan;
  std::vector<paper::Sheet> sheets;
  history::LayoutHints layout;
};

Redrawn redraw(const Materials& materials, const Register& before, const Issue* as_issued) {
  std::optional<SetHistory> history;
  if (const Issue* last = before.last_issue()) history.emplace(SetHistory{before, last->layout});
  const sheets::SetInput input = materials.input(history ? &*history : nullptr);
  Redrawn out;
  out.plan = sheets::plan_set(input);
  if (history)
    for (const sheets::SheetPlan& s : out.plan.sheets)
      if (const IssuedSheet* own = sheet_of(as_issued, s.number))
        history->touched[s.number] = touches(before, own);
  out.sheets = sheets::draw_sheets(input, out.plan, materials.how.jobs);
  out.layout = sheets::hints_of(out.plan, input, out.sheets);
  return out;
}

bool is_compared(const std::string& number) {
  return number[0] != 'G' && number[0] != 'R';
}

/// What one issue did to the sheets of the one before.
struct Step {
  std::map<std::string, std::vector<SetHistory::Touch>> touched;
  std::map<std::string, std::vector<history::Spot>> spots;  // of this revision
  std::map<std::string, SheetChange> changes;
};

const paper::Sheet* numbered(const std::vector<paper::Sheet>& sheets, const std::string& number) {
  for (const paper::Sheet& s : sheets)
    if (s.number == number) return &s;
  return nullptr;
}

Step compare(const Register& issued, const std::vector<paper::Sheet>& before,
             const sheets::SetPlan& plan, const std::vector<paper::Sheet>& now,
             const std::string& revision) {
  Step step;
  for (std::size_t i = 0; i < now.size(); ++i) {
    const std::string& number = plan.sheets[i].number;
    const IssuedSheet* last = sheet_of(issued.last_issue(), number);
    std::vector<SetHistory::Touch> touched = touches(issued, last);
    const paper::Sheet* old = is_compared(number) ? numbered(before, number) : nullptr;
    SheetChange change = last && !last->withdrawn ? SheetChange::changed : SheetChange::added;
    if (old) {
      const paper::Sheet a = paper::without_revision(*old), b = paper::without_revision(now[i]);
      if (paper::compared_text(a) == paper::compared_text(b)) change = SheetChange::same;
      if (change == SheetChange::changed)
        step.spots[number] = sheets::spots_of(paper::changed_spots(a, b));
    }
    if (change != SheetChange::same && (touched.empty() || touched.back().revision != revision))
      touched.push_back({revision, deltas(step.spots[number])});
    step.touched[number] = std::move(touched);
    step.changes[number] = change;
  }
  return step;
}

/// Clouds and deltas of the revisions that touched a sheet; the last one's clouds always.
void add_clouds(paper::Sheet& sheet, const Register& issued, const Step& step,
                const Drawing& how) {
  const auto touched = step.touched.find(sheet.number);
  if (touched == step.touched.end()) return;
  for (const SetHistory::Touch& t : touched->second) {
    const bool newest = &t == &touched->second.back();
    if (t.deltas == 0) continue;
    if (!newest && !how.style.keep_clouds && !how.style.keep_deltas) continue;
    const auto own = step.spots.find(sheet.number);
    const bool this_one = newest && own != step.spots.end() && !own->second.empty();
    sheets::draw_clouds(sheet, t.revision,
                        this_one ? own->second
                                 : spots_of_revision(issued, t.revision, sheet.number),
                        how.style, how.lettering,
                        newest || how.style.keep_clouds ? sheets::CloudParts::ring_and_delta
                                                        : sheets::CloudParts::delta);
  }
}

/// The sheets of an issue as the register records them.
std::vector<SheetState> states_of(const sheets::SetInput& input, const sheets::SetPlan& plan,
                                  const std::vector<paper::Sheet>& sheets, const Step& step,
                                  bool fingerprints) {
  std::vector<SheetState> out;
  const Project& project = input.project;
  const std::string revision = project.revisions.empty() ? "" : project.revisions.back().id;
  const std::string status = project.revisions.empty() ? "" : project.revisions.back().status;
  const Issue* last = input.history ? input.history->issued.last_issue() : nullptr;
  for (const sheets::IndexLine& line : sheets::index_lines(input, plan)) {
    SheetState s;
    s.sheet.number = line.number;
    s.sheet.title = line.title;
    s.sheet.withdrawn = line.withdrawn;
    s.status = line.withdrawn ? "void" : status;
    const IssuedSheet* before = sheet_of(last, line.number);
    if (before && !before->withdrawn && !before->revisions.empty() && line.number[0] != 'R')
      s.replaces = before->revisions.back();
    if (line.withdrawn) {
      s.change = SheetChange::withdrawn;
      if (before) s.sheet.revisions = before->revisions;
      if (s.sheet.revisions.empty() || s.sheet.revisions.back() != line.revision)
        s.sheet.revisions.push_back(line.revision);
      if (before && before->withdrawn) s.sheet.revisions = before->revisions;
      out.push_back(std::move(s));
      continue;
    }
    const paper::Sheet* drawn = numbered(sheets, line.number);
    if (fingerprints && drawn) s.sheet.fingerprint = fingerprint(*drawn);
    const auto touched = step.touched.find(line.number);
    if (touched == step.touched.end()) {
      s.sheet.revisions = {revision};
    } else {
      for (const SetHistory::Touch& t : touched->second) s.sheet.revisions.push_back(t.revision);
      s.change = step.changes.at(line.number);
      const auto own = step.spots.find(line.number);
      if (own != step.spots.end()) s.sheet.spots = own->second;
      if (s.change == SheetChange::same && before) s.sheet.spots = before->spots;
    }
    if (s.change == SheetChange::same) s.replaces.clear();
    out.push_back(std::move(s));
  }
  return out;
}

/// The register as if every issue had been drawn in this style.
std::optional<Register> in_style(const PastIssues& past, const Drawing& how, Findings& findings) {
  const auto other = [&](const history::Entry& e) {
    return e.issue && e.issue->style != how.style_name;
  };
  Register out = past.issued;
  if (std::none_of(out.entries.begin(), out.entries.end(), other)) return out;
  std::vector<paper::Sheet> before;
  for (history::Entry& e : out.entries) {
    if (!e.issue) continue;
    const auto loaded = load_issue(past, *e.issue, findings);
    if (!loaded) return std::nullopt;
    const Register until = out.before(e.issue->revision);
    const Materials materials(*loaded, how, {});
    Redrawn now = redraw(materials, until, nullptr);
    const Step step = compare(until, before, now.plan, now.sheets, e.issue->revision);
    std::optional<SetHistory> history;
    if (const Issue* last = until.last_issue())
      history.emplace(SetHistory{until, last->layout, step.touched});
    e.issue->sheets.clear();
    for (SheetState& s : states_of(materials.input(history ? &*history : nullptr), now.plan,
                                   now.sheets, step, true))
      e.issue->sheets.push_back(std::move(s.sheet));
    e.issue->layout = now.layout;
    e.issue->style = how.style_name;
    before = std::move(now.sheets);
  }
  return out;
}

/// Whether the sheets come out as they were issued.
void check_fingerprints(const Issue& issue, const std::vector<paper::Sheet>& sheets,
                        Findings& findings) {
  std::vector<std::string> other;
  for (const paper::Sheet& s : sheets)
    if (const IssuedSheet* own = sheet_of(&issue, s.number))
      if (is_compared(s.number) && own->fingerprint != fingerprint(s)) other.push_back(s.number);
  if (!other.empty())
    findings.note({}, "drawn-otherwise",
                  fmt::format("sheets of revision {} come out otherwise than they were issued: {}",
                              issue.revision, join(other, ", ")),
                  "another version of this program drew them; what changed is found against how "
                  "this one draws them");
}

std::string words_of(const SheetState& s) {
  switch (s.change) {
    case SheetChange::same:
      return "unchanged";
    case SheetChange::added:
      return "new";
    case SheetChange::withdrawn:
      return "not to be used";
    case SheetChange::changed:
      break;
  }
  const int n = deltas(s.sheet.spots);
  return n == 0 ? "changed" : fmt::format("changed, {} spot{}", n, n == 1 ? "" : "s");
}

sheets::SentSheet sent(const SheetState& s) {
  return {s.sheet.number, s.sheet.title, s.sheet.revisions.empty() ? "" : s.sheet.revisions.back(),
          s.status, words_of(s), s.replaces.empty() ? "" : s.sheet.number + " " + s.replaces};
}

/// What can be drawn only when it is known what a revision touched.
void finish(IssuedSet& set, const sheets::SetInput& input, const Register& issued,
            const Step& step, const Drawing& how,
            const std::optional<sheets::RevisionReport>& changes) {
  std::vector<sheets::SentSheet> list, after;
  for (const SheetState& s : states_of(input, set.plan, set.sheets, step, false))
    list.push_back(sent(s));
  if (changes) {  // how many sheets they take
    const Revision& r = input.project.revisions.back();
    sheets::SetPlan trial;
    sheets::plan_revision_sheets(trial, input, *changes);
    for (const sheets::SheetPlan& s : trial.sheets)
      after.push_back({"", s.title, r.id, r.status, "of this revision", ""});
  }
  const std::size_t first = set.plan.sheets.size();
  sheets::plan_transmittal(set.plan, input, std::move(list), std::move(after));
  const int count = static_cast<int>(set.plan.sheets.size() - first);
  if (changes) sheets::plan_revision_sheets(set.plan, input, *changes, count + 1);
  for (std::size_t i = first; i < set.plan.sheets.size(); ++i)
    set.sheets.push_back(sheets::is_revision_sheet(set.plan, i)
                             ? sheets::draw_revision(input, set.plan, i)
                             : sheets::draw_transmittal(input, set.plan, i));
  sheets::plan_general(set.plan, input, &set.sheets);
  for (std::size_t i = 0; i < set.sheets.size(); ++i) {
    if (set.plan.sheets[i].series == 'G') continue;
    sheets::name_revision(set.sheets[i], input, set.plan, i);
    add_clouds(set.sheets[i], issued, step, how);
  }
}

void add_redlines(IssuedSet& set, const sheets::SetInput& input, Findings& findings) {
  sheets::check_redline_sheets(input, set.plan, findings);
  for (std::size_t i = 0; i < set.sheets.size(); ++i)
    if (set.plan.sheets[i].series != 'G')
      for (int number : sheets::draw_redlines(set.sheets[i], input, set.plan, i))
        findings.note({}, "redline-no-room",
                      fmt::format("sheet {} has no room for redline {}", set.sheets[i].number,
                                  number),
                      "the list of redlines has it");
}

}  // namespace

std::string fingerprint(const paper::Sheet& sheet) {
  return sha256(paper::compared_text(paper::without_revision(sheet)));
}

std::optional<RedrawnIssue> redraw_last_issue(const PastIssues& past, const Drawing& how,
                                              Findings& findings) {
  const std::optional<Register> issued = in_style(past, how, findings);
  const Issue* last = issued ? issued->last_issue() : nullptr;
  if (last == nullptr) return std::nullopt;
  auto loaded = load_issue(past, *last, findings);
  if (!loaded) return std::nullopt;
  Redrawn old = redraw(Materials(*loaded, how, {}), issued->before(last->revision), last);
  return RedrawnIssue{std::move(*loaded), std::move(old.plan), std::move(old.sheets)};
}

IssuedSet draw_issued_set(const Loaded& loaded, const Drawing& how, const Findings& remarks,
                          Findings& findings) {
  if (loaded.project.revisions.empty() || loaded.issued.empty())
    return draw_issued_set(loaded, nullptr, how, remarks, findings);
  const Register before = loaded.issued.before(loaded.project.revisions.back().id);
  const PastIssues past{before, history::register_folder(loaded.project.file)};
  return draw_issued_set(loaded, &past, how, remarks, findings);
}

IssuedSet draw_issued_set(const Loaded& loaded, const PastIssues* past, const Drawing& how,
                          const Findings& remarks, Findings& findings) {
  std::optional<Register> issued;
  if (past && past->issued.last_issue()) issued = in_style(*past, how, findings);
  const Issue* last = issued ? issued->last_issue() : nullptr;
  std::optional<RedrawnIssue> old;
  if (last) old = redraw_last_issue({*issued, past->folder}, how, findings);
  const std::vector<paper::Sheet> none;
  const std::vector<paper::Sheet>& before = old ? old->sheets : none;
  if (last) check_fingerprints(*last, before, findings);
  const Materials materials(loaded, how, remarks);
  std::optional<SetHistory> history;
  if (last) history.emplace(SetHistory{*issued, last->layout});
  const sheets::SetInput input = materials.input(history ? &*history : nullptr);
  IssuedSet set;
  set.plan = sheets::plan_set(input);
  set.sheets = sheets::draw_sheets(input, set.plan, how.jobs);
  Step step;
  if (last) {
    step = compare(*issued, before, set.plan, set.sheets, loaded.project.revisions.back().id);
    history->touched = step.touched;
    std::optional<sheets::RevisionReport> changes;
    if (old && !loaded.text.empty())
      changes =
          revision_report({*issued, past->folder, history::issued_project(past->folder, *last),
                           old->loaded, before},
                          loaded, set.sheets,
                          step.spots, how);
    finish(set, input, *issued, step, how, changes);
  }
  add_redlines(set, input, findings);
  sheets::draw_covers(set.sheets, input, set.plan, how.jobs);
  set.states = states_of(input, set.plan, set.sheets, step, how.record);
  if (how.record) set.layout = sheets::hints_of(set.plan, input, set.sheets);
  set.tables = sheets::with_panel_sheets(materials.tables, input, set.plan);
  if (last) {
    std::vector<sheets::SentSheet> list;
    for (const SheetState& s : set.states) list.push_back(sent(s));
    for (Table& t : std::vector<Table>{sheets::transmittal_table(list),
                                       sheets::revised_marks(input),
                                       sheets::voided_serials(input)})
      set.tables.push_back(std::move(t));
  }
  return set;
}

}  // namespace deckquire::commands
