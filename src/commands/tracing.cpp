#include "commands/tracing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/parallel.h"
#include "history/identities.h"
#include "paper/layer.h"
#include "paper/sheet_difference.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/clouds.h"

namespace deckquire::commands {
namespace {

using history::Change;
using history::Impact;

history::Issue issue_of(const Loaded& l) {
  return history::issue_of(l.project, l.bridge, l.deck);
}

}  // namespace

Impact impact_between(const Loaded& before, const Loaded& now, const history::Register& issued) {
  const history::Issue old = issue_of(before), fresh = issue_of(now);
  return history::impact_of({before.bridge, before.deck, old}, {now.bridge, now.deck, fresh},
                            issued);
}

namespace {

/// All sheets but the general ones, in the layout of the last issue.
std::vector<paper::Sheet> drawn(const Loaded& l, const history::Register& issued,
                                const Drawing& how) {
  const history::Issue* last = issued.last_issue();
  const sheets::SetHistory history{issued, last->layout};
  const std::vector<Table> tables = make_schedules(l.project, l.bridge, l.deck);
  const std::vector<Finding> none;
  const sheets::SetInput input{l.project, l.bridge,  l.deck,        tables,  l.scope,
                               none,      how.style, how.lettering, &history};
  return sheets::draw_sheets(input, sheets::plan_set(input), 1);
}

const paper::Sheet* numbered(const std::vector<paper::Sheet>& sheets, const std::string& number) {
  for (const paper::Sheet& s : sheets)
    if (s.number == number) return &s;
  return nullptr;
}

bool is_compared(const paper::Sheet& s) {
  return !s.number.empty() && s.number[0] != 'G' && s.number[0] != 'R';
}

}  // namespace

ChangedSheets sheets_between(const std::vector<paper::Sheet>& before,
                             const std::vector<paper::Sheet>& now) {
  ChangedSheets out;
  for (const paper::Sheet& s : now) {
    if (!is_compared(s)) continue;
    const paper::Sheet* old = numbered(before, s.number);
    if (old == nullptr) {
      out[s.number] = {};
      continue;
    }
    const paper::Sheet a = without_revision(*old), b = without_revision(s);
    if (paper::compared_text(a) != paper::compared_text(b))
      out[s.number] = paper::changed_spots(a, b);
  }
  for (const paper::Sheet& s : before)
    if (is_compared(s) && numbered(now, s.number) == nullptr) out[s.number] = {};
  return out;
}

namespace {

Trace traced(const Former& former, const std::string& now_text, history::ChangeGroup group,
             const Drawing& how) {
  Trace out;
  const std::string text = history::with_group(former.text, now_text, group);
  out.group = std::move(group);
  Findings findings;
  auto project = read_project(text, former.loaded.project.file, findings);
  if (!project) return out;
  const auto loaded = build(std::move(*project), findings, former.issued, former.folder);
  if (!loaded) return out;
  out.alone = true;
  out.impact = impact_between(former.loaded, *loaded, former.issued);
  out.sheets = sheets_between(former.sheets, drawn(*loaded, former.issued, how));
  return out;
}

/// "2, 5 to 8" of rising numbers, "B2, B5 to B8" with letters before them.
std::string ranges(const std::vector<int>& numbers, const std::string& letters = "") {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t k = i;
    while (k + 1 < numbers.size() && numbers[k + 1] == numbers[k] + 1) ++k;
    if (k < i + 2) k = i;
    const std::string first = letters + std::to_string(numbers[i]);
    out.push_back(k == i ? first : fmt::format("{} to {}{}", first, letters, numbers[k]));
    i = k + 1;
  }
  return join(out, ", ");
}

/// Numbers of the clouds that ring a spot.
std::string delta_words(const std::string& revision, const std::vector<history::Spot>& spots,
                        const std::vector<paper::PaperBox>& boxes) {
  std::vector<int> numbers;
  for (const sheets::Cloud& cloud : sheets::clouds_of(spots)) {
    const bool rings = std::any_of(cloud.boxes.begin(), cloud.boxes.end(), [&](const auto& c) {
      return std::any_of(boxes.begin(), boxes.end(),
                         [&](const auto& b) { return b.grown(0.5).overlaps(c.grown(0.5)); });
    });
    if (rings) numbers.push_back(cloud.number);
  }
  return ranges(numbers, revision);
}

/// Which sheets a group changes, as they are in the new set: those that only show another change
/// too, or do not come about in it, are left out.
std::string sheet_words(const Trace& trace, const std::string& revision,
                        const std::vector<paper::Sheet>& before,
                        const std::vector<paper::Sheet>& now,
                        const std::map<std::string, std::vector<history::Spot>>& spots) {
  std::vector<std::string> out;
  for (const auto& [number, boxes] : trace.sheets) {
    const bool was = numbered(before, number) != nullptr, is = numbered(now, number) != nullptr;
    if (!was && !is) continue;
    if (!was || !is) {
      out.push_back(number + (was ? " void" : " new"));
      continue;
    }
    const auto found = spots.find(number);
    if (found == spots.end()) continue;
    const std::string deltas = delta_words(revision, found->second, boxes);
    out.push_back(deltas.empty() ? number : number + ": " + deltas);
  }
  return join(out, "; ");
}

std::string line_of(const Place& p) {
  return p.line > 0 ? std::to_string(p.line) : "–";
}

/// Sheets of a mark before and of the marks that its panels have now, where the sheets are others.
std::set<std::pair<std::string, std::string>> replaced_sheets(
    const Impact& impact, const std::vector<paper::Sheet>& before,
    const std::vector<paper::Sheet>& now) {
  const auto showing = [](const std::vector<paper::Sheet>& sheets, const std::string& mark) {
    for (const paper::Sheet& s : sheets)
      if (s.number[0] == 'P' && (s.title + ",").find(mark + ",") != std::string::npos)
        return s.number;
    return std::string();
  };
  std::set<std::pair<std::string, std::string>> out;
  for (const history::PanelChange& p : impact.panels) {
    if (p.mark.empty() || p.mark_before.empty() || p.mark == p.mark_before) continue;
    const std::string a = showing(before, p.mark_before), b = showing(now, p.mark);
    if (!a.empty() && !b.empty() && a != b && numbered(before, b) == nullptr) out.insert({a, b});
  }
  return out;
}

std::vector<sheets::ViewChange> views(const Former& former, const Impact& impact,
                                      const std::vector<paper::Sheet>& sheets, const Drawing& how) {
  const paper::PaperPoint room = sheets::room_for_view(how.style);
  std::vector<sheets::ViewChange> out;
  const auto add = [&](const paper::Sheet& before, const paper::Sheet& now) {
    paper::Sheet a = without_revision(before);
    const paper::Sheet b = without_revision(now);
    // Its own number, in references to its sections, is no change of the view.
    for (paper::Item& item : a.items)
      if (auto* t = std::get_if<paper::Text>(&item); t && t->text == a.number) t->text = b.number;
    for (sheets::ViewChange& v : sheets::changed_views(a, b, how.style, room)) {
      if (a.number != b.number) v.sheet = b.number + ", before " + a.number;
      out.push_back(std::move(v));
    }
  };
  for (const paper::Sheet& s : sheets)
    if (const paper::Sheet* old = numbered(former.sheets, s.number); old && is_compared(s))
      add(*old, s);
  for (const auto& [a, b] : replaced_sheets(impact, former.sheets, sheets))
    add(*numbered(former.sheets, a), *numbered(sheets, b));
  return out;
}

}  // namespace

std::vector<Change> changes_between(const std::string& before, const std::string& before_file,
                                    const std::string& now, const std::string& now_file) {
  std::vector<Change> out = history::changes(history::statements_of(before, before_file),
                                             history::statements_of(now, now_file));
  std::erase_if(out, [](const Change& c) { return c.element.starts_with("revision "); });
  return out;
}

std::vector<Trace> trace(const Former& former, const std::string& now_text,
                         const std::vector<Change>& changes, const Drawing& how) {
  std::vector<history::ChangeGroup> groups = history::groups_of(changes);
  std::vector<Trace> out(groups.size());
  for_each_index(
      groups.size(), how.jobs, [] { return 0; },
      [&](int, std::size_t i) {
        if (i < most_traced)
          out[i] = traced(former, now_text, groups[i], how);
        else
          out[i].group = groups[i];
      });
  return out;
}

std::string panel_words(const Impact& impact) {
  std::map<history::PanelEffect, std::vector<int>> by;
  for (const history::PanelChange& p : impact.panels) by[p.effect].push_back(p.position);
  std::vector<std::string> out;
  for (const auto& [effect, positions] : by)
    out.push_back(ranges(positions) + " (" + history::name_of(effect) + ")");
  return join(out, "; ");
}

std::string mark_words(const Impact& impact) {
  std::vector<std::string> out;
  for (const history::MarkChange& m : impact.marks)
    out.push_back(m.effect == history::MarkEffect::goes ? m.mark + " goes"
                  : m.effect == history::MarkEffect::quantity
                      ? fmt::format("{}: {}, was {}", m.mark, m.now, m.before)
                      : fmt::format("{} {}: {}", m.mark, history::name_of(m.effect), m.now));
  return join(out, "; ");
}

sheets::RevisionReport revision_report(
    const Former& former, const Loaded& loaded, const std::vector<paper::Sheet>& sheets,
    const std::map<std::string, std::vector<history::Spot>>& spots, const Drawing& how) {
  const std::string revision = loaded.project.revisions.back().id;
  sheets::RevisionReport out;
  out.before = "revision " + former.issued.last_issue()->revision;
  out.now = "revision " + revision;
  const std::vector<Change> changes =
      changes_between(former.text, former.loaded.project.file, loaded.text, loaded.project.file);
  const Impact impact = impact_between(former.loaded, loaded, former.issued);
  std::vector<sheets::ChangeLine> lines(changes.size());
  std::size_t together = 0;
  for (const Trace& t : trace(former, loaded.text, changes, how)) {
    together += t.alone ? 0 : t.group.changes.size();
    for (std::size_t i : t.group.changes) {
      const Change& c = changes[i];
      const bool whole = c.way != Change::Way::changed;
      const char* verb = c.way == Change::Way::added ? " added" : " removed";
      lines[i] = {c.element + (whole ? verb : " " + c.attribute),
                  c.before,
                  c.now,
                  line_of(c.old_place) + ", " + line_of(c.new_place),
                  t.alone ? panel_words(t.impact) : "not traced",
                  t.alone ? mark_words(t.impact) : "not traced",
                  t.alone ? sheet_words(t, revision, former.sheets, sheets, spots) : "not traced"};
    }
  }
  out.changes = std::move(lines);
  if (together > 0)
    out.remarks.push_back(
        "What is not traced cannot be built by itself, or comes after the first " +
        std::to_string(most_traced) +
        " changes; the sum of all changes below is exact all the same.");
  paper::TableData sum;
  sum.title = "ALL CHANGES TOGETHER";
  sum.columns = {{"Panels, by position", "", paper::Align::left, 0},
                 {"Marks", "", paper::Align::left, 0}};
  const std::string panels = panel_words(impact), marks = mark_words(impact);
  sum.rows.push_back({panels.empty() ? "none" : panels, marks.empty() ? "none" : marks});
  out.tables.push_back(std::move(sum));
  out.views = views(former, impact, sheets, how);
  return out;
}

}  // namespace deckquire::commands
