#include "sheets/calculation_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "sheets/cover.h"
#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;

std::string sheet_number(std::size_t index) {
  return "C" + padded(static_cast<int>(index) + 1, 2);
}

/// About fifty letters wide: formulas are long.
std::vector<PaperBox> columns_of(const paper::Style& style) {
  const PaperBox space = style.drawing_space().grown(-1.6 * style.gap);
  return columns_across(space, 50 * style.letters_of(LetterUse::note), 2.5 * style.gap);
}

/// Places a group, on further sheets where those there are full.
void place(CalculationPages& pages, const std::vector<PaperBox>& boxes) {
  for (int more = 0; !pages.columns.flow(pages.groups.back()) && more < 4; ++more) {
    for (const PaperBox& box : boxes) pages.columns.add(box);
    ++pages.sheets;
  }
  // In the order of the numbers: nothing goes back to what an earlier one has left free.
  if (pages.columns.placed().empty()) return;
  for (std::size_t c = 0; c < pages.columns.placed().back().column; ++c)
    pages.columns.used_to(c, pages.columns.box(c).low.y);
}

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

paper::TableData summary_of(const Calculations& all, Topic topic,
                            const std::map<std::string, std::string>& sheet_of) {
  paper::TableData t;
  t.title = capitals(topic_name(topic));
  t.columns = {{"Check", "", Align::left, 0},  {"Worst", "", Align::left, 0},
               {"Demand", "", Align::left, 0}, {"Limit", "", Align::left, 0},
               {"Ratio", "", Align::right, 0}, {"", "", Align::left, 0},
               {"See", "", Align::left, 0}};
  for (const CheckLine& line : all.summary) {
    if (line.topic != topic) continue;
    const std::string& number = all.list[line.worst].number;
    const auto at = sheet_of.find(number);
    const std::string on =
        line.count > 1 ? fmt::format("{} (of {})", line.on, line.count) : line.on;
    t.rows.push_back({line.what, on, line.demand, line.capacity, decimal(line.ratio, 2),
                      line.kept ? "kept" : "FAILS",
                      at == sheet_of.end() ? number : number + " on " + at->second});
    t.targets.push_back(at == sheet_of.end() ? "" : at->second);
  }
  return t;
}

void add_summary(CalculationPages& pages, const Calculations& all,
                 const std::vector<PaperBox>& boxes) {
  for (int i = 0; i < topic_count; ++i) {
    const Topic topic = static_cast<Topic>(i);
    Blocks group;
    if (const auto table = summary_of(all, topic, pages.sheet_of); !table.rows.empty())
      add_table(group, table, 20);
    std::vector<std::string> missing;
    for (const NotChecked& n : all.not_checked)
      if (n.topic == topic) missing.push_back(n.what + ": needs " + n.needs);
    add_notes(group, "NOT CHECKED: " + capitals(topic_name(topic)), missing);
    if (group.empty()) continue;
    pages.groups.push_back(std::move(group));
    place(pages, boxes);
  }
}

/// Of all that are printed in full, each once, in the order in which they come.
std::vector<std::string> cautions_of(const Calculations& all) {
  std::vector<std::string> out;
  for (const Calculation& c : all.list) {
    if (!c.in_full) continue;
    for (const std::string& s : c.working.cautions)
      if (std::find(out.begin(), out.end(), s) == out.end()) out.push_back(s);
  }
  return out;
}

std::shared_ptr<CalculationPages> laid_out(const SetInput& input,
                                           const std::map<std::string, std::string>& sheet_of) {
  auto pages = std::make_shared<CalculationPages>(input);
  const Calculations& all = input.scope.calculations;
  pages->sheet_of = sheet_of;
  const std::vector<PaperBox> boxes = columns_of(pages->style);
  pages->per_sheet = boxes.size();
  add_summary(*pages, all, boxes);
  const std::vector<std::string> cautions = cautions_of(all);
  if (!cautions.empty()) {
    add_notes(pages->groups.emplace_back(), "CAUTIONS OF THE CALCULATIONS", cautions);
    place(*pages, boxes);
  }
  std::map<std::string, std::string> found;
  for (const Calculation& c : all.list) {
    if (!c.in_full) continue;
    pages->groups.push_back(calculation_blocks(input.project, c, cautions));
    const std::size_t before = pages->columns.placed().size();
    place(*pages, boxes);
    const auto& placed = pages->columns.placed();
    if (placed.size() == before) continue;
    const std::size_t first = placed[before].column / pages->per_sheet;
    found[c.number] = sheet_number(first);
    pages->shown.resize(pages->sheets);
    for (std::size_t k = first; k <= placed.back().column / pages->per_sheet; ++k) {
      auto& [from, to] = pages->shown[k];
      if (from.empty()) from = c.number;
      to = c.number;
    }
  }
  pages->sheet_of = std::move(found);
  return pages;
}

double greatest_ratio(const Calculation& c) {
  double out = -1;
  for (const workings::Verdict& v : c.working.verdicts) out = std::max(out, v.ratio());
  return out;
}

/// Of a topic and mark the one with the greatest ratio; nullptr when none has a verdict.
const Calculation* worst_of(const Calculations& all, Topic topic, int mark) {
  const Calculation* worst = nullptr;
  for (const Calculation& c : all.list)
    if (c.topic == topic && !c.working.verdicts.empty() &&
        std::find(c.marks.begin(), c.marks.end(), mark) != c.marks.end() &&
        (worst == nullptr || greatest_ratio(c) > greatest_ratio(*worst)))
      worst = &c;
  return worst;
}

}  // namespace

CalculationPages::CalculationPages(const SetInput& input)
    : style(reading_style(input.style)),
      board(scratch, style, input.lettering),
      columns(board, {}) {}

std::shared_ptr<const CalculationPages> lay_out_calculations(const SetInput& input) {
  const Calculations& all = input.scope.calculations;
  if (all.list.empty()) return nullptr;
  // The summary names sheets that stand after it: with numbers as wide as the true ones first.
  std::map<std::string, std::string> guess;
  for (const Calculation& c : all.list)
    if (c.in_full) guess[c.number] = "C00";
  return laid_out(input, laid_out(input, guess)->sheet_of);
}

paper::Sheet draw_calculations(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  const CalculationPages& pages = *plan.calculations;
  paper::Sheet sheet = blank_sheet(input, own);
  paper::Board furniture(sheet, input.style, input.lettering);
  const PaperBox text = furnish(furniture, input, plan, index, "none").text;
  paper::Board board(sheet, pages.style, input.lettering);
  double y = purpose(board, text,
                     "Computed from this deck at every run; for a licensed engineer to follow and "
                     "accept.");
  const std::size_t page = static_cast<std::size_t>(own.subject);
  draw_placed(board, pages.columns, page * pages.per_sheet, pages.per_sheet);
  std::vector<std::string> left = cautions();
  const double air = board.pitch(LetterUse::note);
  const auto room = [&](const std::vector<std::string>& list) {
    paper::Sheet scratch;
    paper::Board trial(scratch, pages.style, input.lettering);
    return notes(trial, text, y, "CAUTIONS", list) > text.low.y + air;
  };
  const bool all = room(left);
  while (!left.empty() && !room(left)) left.pop_back();
  y = notes(board, text, y, "CAUTIONS", left);
  if (!all && y > text.low.y)
    board.paragraph(LetterUse::note, {text.low.x, y}, text.width(), "All cautions: see G01.");
  return sheet;
}

std::string calculations_of_mark(const SetInput& input, const SetPlan& plan, int mark) {
  constexpr std::pair<Topic, const char*> topics[] = {{Topic::strength, "strength"},
                                                      {Topic::posts, "rail posts"},
                                                      {Topic::hold_down, "uplift"},
                                                      {Topic::lifting, "lifting"}};
  std::vector<std::string> done, not_done;
  for (const auto& [topic, word] : topics) {
    const Calculation* worst = worst_of(input.scope.calculations, topic, mark);
    if (worst == nullptr) {
      not_done.push_back(word);
      continue;
    }
    const double ratio = greatest_ratio(*worst);
    std::string where = worst->number;
    if (plan.calculations)
      if (const auto at = plan.calculations->sheet_of.find(where);
          at != plan.calculations->sheet_of.end())
        where += " on " + at->second;
    done.push_back(fmt::format("{} {}{}, {}", word, decimal(ratio, 2),
                               ratio > 1 + 1e-9 ? " FAILS" : "", where));
  }
  if (!not_done.empty()) done.push_back("NOT CHECKED: " + join(not_done, ", "));
  return join(done, "; ");
}

}  // namespace deckquire::sheets
