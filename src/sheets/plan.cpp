#include "sheets/plan.h"
#include "sheets/bay_scene.h"
#include "sheets/calculation_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <variant>

#include "schedules/schedules.h"
#include "sheets/cover.h"
#include "sheets/details.h"
#include "sheets/erection_layout.h"
#include "sheets/layout_hints.h"
#include "sheets/setting_plan.h"
#include "sheets/table_sheet.h"

namespace deckquire::sheets {
namespace {

std::string numbered(char series, int index) {
  return series + padded(index + 1, 2);
}

bool wanted(const SetInput& input, char series) {
  const auto& list = input.project.set.series;
  return list.empty() || std::find(list.begin(), list.end(), std::string(1, series)) != list.end();
}

void add(SetPlan& plan, char series, int index, const std::string& title) {
  SheetPlan sheet;
  sheet.series = series;
  sheet.number = numbered(series, index);
  sheet.title = title;
  sheet.subject = index;
  plan.sheets.push_back(std::move(sheet));
}

std::string erection_title(const SetInput& input, const SetPlan& plan, int sheet) {
  Length from, to;
  bool first = true;
  for (const Strip& s : plan.strips) {
    if (s.sheet != sheet) continue;
    if (first) from = &s == &plan.strips.front() ? input.bridge.alignment.from() : s.from;
    first = false;
    to = &s == &plan.strips.back() ? input.bridge.alignment.to() : s.to;
  }
  const UnitSystem u = input.project.units;
  return fmt::format("ERECTION PLAN {} TO {}", print_station(from, u), print_station(to, u));
}

void plan_erection(SetPlan& plan, const SetInput& input) {
  auto layout = lay_out_erection(input);
  plan.strips = std::move(layout.strips);
  plan.bay = typical_bay(input);
  plan.erection_ratio = layout.ratio;
  plan.strip_height = layout.strip_height;
  for (int i = 0; i < plan.strip_sheets(); ++i) add(plan, 'E', i, erection_title(input, plan, i));
  plan_setting(plan, input);
}

/// Parts the last sheet's mark over two where that is of use.
bool plan_parts(SetPlan& plan, const SetInput& input) {
  SheetPlan back = plan.sheets.back();
  plan.sheets.pop_back();
  const auto parts = part_panel(input, plan, back.subject);
  if (!parts) {
    plan.sheets.push_back(std::move(back));
    return false;
  }
  SheetPlan ahead = back;
  ahead.number += "-2";
  back.part = parts->first, ahead.part = parts->second;
  ahead.part->other = back.number;
  back.part->other = ahead.number;
  back.title += ", PART 1 OF 2";
  ahead.title += ", PART 2 OF 2";
  plan.sheets.push_back(std::move(back));
  plan.sheets.push_back(std::move(ahead));
  return true;
}

void plan_panels(SetPlan& plan, const SetInput& input) {
  for (const auto& [number, marks] : panel_groups(input, plan)) {
    add(plan, 'P', number - 1, panel_title(input, marks));
    plan.sheets.back().subject = marks.front();
    plan.sheets.back().marks = marks;
    const SheetPlan first = plan.sheets.back();
    const bool parted = marks.size() == 1 && plan_parts(plan, input);
    if (!second_panel_sheet(input.style)) continue;
    SheetPlan second = first;
    second.title += ", TABLES";
    second.number += parted ? "-3" : "-2";
    second.second = true;
    plan.sheets.push_back(std::move(second));
  }
}

std::string details_title(const SetPlan& plan, const std::string& sheet) {
  std::vector<std::string> titles;
  for (const DetailRef& d : plan.details)
    if (d.sheet == sheet) titles.push_back(d.letter);
  return "DETAILS " + join(titles, ", ");
}

std::vector<SheetPlan> plan_details(SetPlan& plan, const SetInput& input) {
  int index = 0;
  SetPlan own;
  for (const auto& group : arrange_details(input)) {
    for (Detail d : group)
      plan.details.push_back(
          {d, detail_title(d), view_letter(plan.details.size()), numbered('D', index)});
    add(own, 'D', index, details_title(plan, numbered('D', index)));
    ++index;
  }
  return std::move(own.sheets);
}

void plan_tables(SetPlan& plan, const SetInput& input) {
  int index = 0;
  const std::vector<Table> tables = with_panel_sheets(input.tables, input, plan);
  plan.tables = sheet_tables({input.project, input.bridge, input.deck, tables, input.scope,
                              input.findings, input.style, input.lettering});
  for (SheetPlan& sheet : arrange_tables(input, plan.tables)) {
    sheet.subject = index;
    sheet.number = numbered('T', index++);
    plan.sheets.push_back(std::move(sheet));
  }
}

void plan_calculations(SetPlan& plan) {
  if (!plan.calculations) return;
  const CalculationPages& pages = *plan.calculations;
  for (std::size_t i = 0; i < pages.sheets; ++i) {
    std::string title = i == 0 ? "CALCULATIONS, SUMMARY" : "CALCULATIONS";
    if (i < pages.shown.size() && !pages.shown[i].first.empty()) {
      const auto& [from, to] = pages.shown[i];
      title += (i == 0 ? ", " : " ") + from + (from == to ? "" : " TO " + to);
    }
    add(plan, 'C', static_cast<int>(i), title);
  }
}

/// Panel sheets refer to details, but come before them.
void plan_panels_and_details(SetPlan& plan, const SetInput& input) {
  std::vector<SheetPlan> details;
  if (wanted(input, 'D')) details = plan_details(plan, input);
  if (wanted(input, 'P')) plan_panels(plan, input);
  plan.sheets.insert(plan.sheets.end(), details.begin(), details.end());
}

}  // namespace

std::string view_letter(std::size_t index) {
  static const std::string letters = "ABCDEFGHJKLMNPRTUVWY";
  const std::size_t n = letters.size();
  const std::string last(1, letters[index % n]);
  return index < n ? last : std::string(1, letters[index / n - 1]) + last;
}

std::vector<Table> with_panel_sheets(std::vector<Table> tables, const SetInput& input,
                                     const SetPlan& plan) {
  std::map<std::string, std::string> sheet_of;
  const auto& marks = input.deck.marks;
  for (std::size_t i = 0; i < marks.size(); ++i)
    sheet_of[marks[i].name] = plan.panel_sheet(static_cast<int>(i));
  for (Table& t : tables) {
    const auto column = [&](const char* name) {
      return static_cast<std::size_t>(
          std::find_if(t.columns.begin(), t.columns.end(),
                       [&](const deckquire::Column& c) { return c.name == name; }) -
          t.columns.begin());
    };
    const std::size_t mark = column("mark"), sheet = column("sheet");
    if (mark == t.columns.size() || sheet == t.columns.size()) continue;
    for (auto& row : t.rows)
      if (const auto* name = std::get_if<std::string>(&row[mark]); name && sheet_of.count(*name))
        row[sheet] = sheet_of[*name];
  }
  return tables;
}

// The general sheets come first, but how many there are depends on the index of all others.
void plan_general(SetPlan& plan, const SetInput& input, std::vector<paper::Sheet>* drawn) {
  std::size_t count = 0;
  while (count < plan.sheets.size() && plan.sheets[count].series == 'G') ++count;
  for (; count < lay_out_cover(input, plan).sheets; ++count) {
    SheetPlan more;
    more.series = 'G';
    more.number = numbered('G', static_cast<int>(count));
    more.title = "GENERAL NOTES AND DATA";
    more.subject = static_cast<int>(count);
    const auto at = static_cast<std::ptrdiff_t>(count);
    plan.sheets.insert(plan.sheets.begin() + at, more);
    if (drawn) drawn->insert(drawn->begin() + at, paper::Sheet{});
  }
}

SetPlan plan_panel_sheets(const SetInput& input) {
  SetPlan plan;
  if (wanted(input, 'C')) plan.calculations = lay_out_calculations(input);
  plan_panels_and_details(plan, input);
  return plan;
}

SetPlan plan_set(const SetInput& input) {
  SetPlan plan;
  add(plan, 'G', 0, "COVER AND GENERAL NOTES");
  if (wanted(input, 'C')) plan.calculations = lay_out_calculations(input);
  if (wanted(input, 'E')) plan_erection(plan, input);
  plan_panels_and_details(plan, input);
  if (wanted(input, 'E')) plan_erection_words(plan, input);
  if (wanted(input, 'T')) plan_tables(plan, input);
  plan_calculations(plan);
  plan_general(plan, input);
  return plan;
}

const DetailRef* SetPlan::find(Detail d) const {
  for (const DetailRef& r : details)
    if (r.detail == d) return &r;
  return nullptr;
}

std::string SetPlan::panel_sheet(int mark) const {
  for (const SheetPlan& s : sheets)
    if (s.series == 'P' && std::find(s.marks.begin(), s.marks.end(), mark) != s.marks.end())
      return s.number;
  return panel_sheet_number(mark);
}

std::string SetPlan::setting_sheet() const {
  return setting_sheets > 0 ? numbered('E', strip_sheets()) : "";
}

const std::string& SetPlan::erection_sheet(int panel) const {
  static const std::string none;
  for (const Strip& s : strips) {
    if (panel < s.first || panel >= s.first + s.count) continue;
    for (const SheetPlan& sheet : sheets)
      if (sheet.series == 'E' && sheet.subject == s.sheet) return sheet.number;
  }
  return none;
}

}  // namespace deckquire::sheets
