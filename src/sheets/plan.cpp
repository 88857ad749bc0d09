#include "sheets/bay_scene.h"
#include "sheets/plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "schedules/schedules.h"
#include "sheets/cover.h"
#include "sheets/details.h"
#include "sheets/erection_layout.h"
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
}

void plan_panels(SetPlan& plan, const SetInput& input) {
  const auto& marks = input.deck.marks;
  for (int i = 0; i < static_cast<int>(marks.size()); ++i) {
    const std::string title = "PANEL " + marks[static_cast<std::size_t>(i)].name;
    add(plan, 'P', i, title);
    if (!second_panel_sheet(input.style)) continue;
    add(plan, 'P', i, title + ", TABLES");
    plan.sheets.back().number += "-2";
    plan.sheets.back().second = true;
  }
}

// Letters of details, as the trade leaves out what reads as a figure or another letter.
std::string detail_letter(std::size_t index) {
  static const std::string letters = "ABCDEFGHJKLMNPRTUVWY";
  const std::size_t n = letters.size();
  const std::string last(1, letters[index % n]);
  return index < n ? last : std::string(1, letters[index / n - 1]) + last;
}

std::string details_title(const SetPlan& plan, const std::string& sheet) {
  std::vector<std::string> titles;
  for (const DetailRef& d : plan.details)
    if (d.sheet == sheet) titles.push_back(d.letter);
  return "DETAILS " + join(titles, ", ");
}

void plan_details(SetPlan& plan, const SetInput& input) {
  int index = 0;
  for (const auto& group : arrange_details(input)) {
    for (Detail d : group)
      plan.details.push_back(
          {d, detail_title(d), detail_letter(plan.details.size()), numbered('D', index)});
    add(plan, 'D', index, details_title(plan, numbered('D', index)));
    ++index;
  }
}

void plan_tables(SetPlan& plan, const SetInput& input) {
  int index = 0;
  plan.tables = sheet_tables(input);
  for (SheetPlan& sheet : arrange_tables(input, plan.tables)) {
    sheet.subject = index;
    sheet.number = numbered('T', index++);
    plan.sheets.push_back(std::move(sheet));
  }
}

// The general sheets come first, but how many there are depends on the index of all others.
void plan_general(SetPlan& plan, const SetInput& input) {
  for (std::size_t count = 1; count < lay_out_cover(input, plan).sheets; ++count) {
    SheetPlan more;
    more.series = 'G';
    more.number = numbered('G', static_cast<int>(count));
    more.title = "GENERAL NOTES AND DATA";
    more.subject = static_cast<int>(count);
    plan.sheets.insert(plan.sheets.begin() + static_cast<std::ptrdiff_t>(count), more);
  }
}

}  // namespace

SetPlan plan_set(const SetInput& input) {
  SetPlan plan;
  add(plan, 'G', 0, "COVER AND GENERAL NOTES");
  if (wanted(input, 'E')) plan_erection(plan, input);
  if (wanted(input, 'P')) plan_panels(plan, input);
  if (wanted(input, 'D')) plan_details(plan, input);
  if (wanted(input, 'E')) plan_erection_words(plan, input);
  if (wanted(input, 'T')) plan_tables(plan, input);
  plan_general(plan, input);
  return plan;
}

const DetailRef* SetPlan::find(Detail d) const {
  for (const DetailRef& r : details)
    if (r.detail == d) return &r;
  return nullptr;
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
