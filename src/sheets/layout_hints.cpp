#include "sheets/layout_hints.h"

#include <algorithm>
#include <numeric>

#include "base/text.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using history::LayoutHints;

/// 3 of "P03" and "P03-2".
int running_number(const std::string& sheet) {
  int n = 0;
  for (std::size_t i = 1; i < sheet.size() && sheet[i] >= '0' && sheet[i] <= '9' && n < 99999; ++i)
    n = 10 * n + (sheet[i] - '0');
  return n;
}

int mark_named(const SetInput& input, const std::string& name) {
  const auto& marks = input.deck.marks;
  for (std::size_t i = 0; i < marks.size(); ++i)
    if (marks[i].name == name) return static_cast<int>(i);
  return -1;
}

/// The highest number that a P sheet ever had.
int highest_panel_sheet(const SetHistory& history) {
  int highest = 0;
  for (const LayoutHints::PanelSheet& s : history.layout.panels)
    highest = std::max(highest, running_number(s.number));
  for (const history::Entry& e : history.issued.entries)
    for (std::size_t i = 0; e.issue && i < e.issue->sheets.size(); ++i)
      if (const std::string& number = e.issue->sheets[i].number; number.starts_with("P"))
        highest = std::max(highest, running_number(number));
  return highest;
}

int plan_ratio(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  if (own.part) return own.part->ratio;
  const std::vector<PanelJob> jobs = panel_jobs(input, plan, own);
  paper::Sheet sheet = blank_sheet(input, own);
  paper::Board board(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(board, input, plan, index, "as shown");
  if (jobs.size() == 1)
    return arrange_panel(board, jobs.front(), spaces).layout[PanelView::top].ratio;
  return arrange_shared_sheet(board, jobs, spaces).parts.front().layout[PanelView::top].ratio;
}

void keep_panels(LayoutHints& out, const SetPlan& plan, const SetInput& input) {
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    const SheetPlan& s = plan.sheets[i];
    if (s.series != 'P' || s.second || s.number.find('-') != std::string::npos) continue;
    LayoutHints::PanelSheet kept{s.number, {}, plan_ratio(input, plan, i)};
    for (int m : s.marks) kept.marks.push_back(input.deck.marks[static_cast<std::size_t>(m)].name);
    out.panels.push_back(std::move(kept));
  }
  if (input.history == nullptr) return;
  // Marks that are out of use: should they come back, so does their sheet.
  for (LayoutHints::PanelSheet old : input.history->layout.panels) {
    std::erase_if(old.marks, [&](const std::string& m) { return mark_named(input, m) >= 0; });
    const auto same = std::find_if(out.panels.begin(), out.panels.end(),
                                   [&](const auto& p) { return p.number == old.number; });
    if (same == out.panels.end())
      out.panels.push_back(std::move(old));
    else
      same->marks.insert(same->marks.end(), old.marks.begin(), old.marks.end());
  }
  std::sort(out.panels.begin(), out.panels.end(), [](const auto& a, const auto& b) {
    return running_number(a.number) < running_number(b.number);
  });
}

const LayoutHints::PanelSheet* sheet_with(const LayoutHints& hints, const std::string& mark) {
  for (const LayoutHints::PanelSheet& s : hints.panels)
    if (std::find(s.marks.begin(), s.marks.end(), mark) != s.marks.end()) return &s;
  return nullptr;
}

}  // namespace

LayoutHints hints_of(const SetPlan& plan, const SetInput& input,
                     const std::vector<paper::Sheet>& sheets) {
  LayoutHints out;
  out.erection_ratio = plan.strips.empty() ? 0 : plan.erection_ratio;
  for (const Strip& s : plan.strips) {
    const auto panel = [&](int i) {
      return input.deck.panels[static_cast<std::size_t>(i)].position;
    };
    out.strips.push_back({panel(s.first), panel(s.first + s.count - 1), s.sheet});
  }
  keep_panels(out, plan, input);
  for (const paper::Sheet& s : sheets)
    for (const auto& [words, at] : s.callouts) out.callouts[s.number][words] = {at.x, at.y, at.x, at.y};
  return out;
}

std::vector<PanelGroup> panel_groups(const SetInput& input, const SetPlan& plan) {
  std::vector<PanelGroup> out;
  std::vector<int> rest(input.deck.marks.size());
  std::iota(rest.begin(), rest.end(), 0);
  int highest = 0;
  if (input.history) {
    for (const LayoutHints::PanelSheet& s : input.history->layout.panels) {
      PanelGroup kept{running_number(s.number), {}};
      for (const std::string& name : s.marks)
        if (const int m = mark_named(input, name); m >= 0 && std::erase(rest, m) > 0)
          kept.marks.push_back(m);
      if (!kept.marks.empty()) out.push_back(std::move(kept));
    }
    highest = highest_panel_sheet(*input.history);
  }
  for (std::vector<int>& marks : share_panel_sheets(input, plan, rest))
    out.push_back({++highest, std::move(marks)});
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.number < b.number; });
  return out;
}

int kept_ratio(const SetInput& input, const std::string& mark) {
  if (input.history == nullptr) return 0;
  if (const auto* own = sheet_with(input.history->layout, mark)) return own->ratio;
  const history::Issue* last = nullptr;
  for (const history::Entry& e : input.history->issued.entries)
    if (e.issue) last = &*e.issue;
  const int index = mark_named(input, mark);
  for (const history::IssuedPosition& p : last ? last->positions : decltype(last->positions){})
    for (const Panel& panel : input.deck.panels)
      if (panel.mark == index && panel.position == p.position)
        if (const auto* before = sheet_with(input.history->layout, p.mark)) return before->ratio;
  return 0;
}

}  // namespace deckquire::sheets
