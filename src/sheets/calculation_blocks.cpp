// A working as blocks that flow down the columns of a C sheet.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "sheets/calculation_sheet.h"
#include "workings/formula.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using workings::Origin;
using workings::typeset;

std::string with_unit(const std::string& number, const workings::Unit& unit) {
  std::string set = typeset(number);  // 6.750e-5 as a power of ten; alone it needs no brackets
  if (set.starts_with("(") && set.ends_with(")")) set = set.substr(1, set.size() - 2);
  return unit.label.empty() ? set : fmt::format("{} {}", set, unit.label);
}

/// "project, rain: EN 1991-2": where an engineer looks the value up. No line of the file: one that is put
/// in would renew every sheet.
std::string origin_words(const Project& project, const Origin& o) {
  std::string out;
  switch (o.from) {
    case Origin::From::project:
      out = project.element_at(o.place);
      out = out.empty() ? "project" : "project, " + out;
      break;
    case Origin::From::computed:
      out = "computed";
      break;
    case Origin::From::fallback:
      out = "default";
      break;
    case Origin::From::table:
      out = "table";
      break;
    case Origin::From::constant:
    case Origin::From::typed:
      break;
  }
  if (o.words.empty()) return out;
  return out.empty() ? o.words : out + ": " + o.words;
}

paper::TableData inputs_of(const Project& project, const workings::Working& w) {
  paper::TableData t;
  t.columns = {{"Given", "", Align::left, 0},
               {"Value", "", Align::left, 0},
               {"What it is", "", Align::left, 0},
               {"From", "", Align::left, 0}};
  for (const workings::Input& in : w.inputs)
    t.rows.push_back({typeset(in.symbol),
                      in.text.empty() ? with_unit(workings::print_value(in), in.unit) : in.text,
                      in.meaning, origin_words(project, in.origin)});
  return t;
}

/// One line indented; broken lines keep the indent.
double indented(Board& board, const PaperBox& column, double top, double indent,
                const std::string& text) {
  return board.paragraph(LetterUse::note, {column.low.x + indent, top}, column.width() - indent,
                         text);
}

/// `again`: what stands over its continuation in another column.
Block heading_block(const std::string& heading, const std::string& again) {
  return {.draw =
              [heading](Board& board, const PaperBox& column, double top) {
                return board.paragraph(LetterUse::heading, {column.low.x, top}, column.width(),
                                       heading) -
                       1;
              },
          .heads = true,
          .starts = true,
          .heading = again};
}

Block step_block(const workings::Step& step, std::size_t number) {
  return {.draw =
              [step, number](Board& board, const PaperBox& column, double top) {
                const double indent = board.text_width(LetterUse::note, "00") + 2.5;
                board.text(LetterUse::note, {column.low.x, top}, std::to_string(number),
                           Align::left, paper::Stand::top);
                double y = indented(board, column, top, indent,
                                    fmt::format("{}: {}", typeset(step.symbol), step.meaning));
                const double deep = indent + 4;
                if (step.formula.empty()) {
                  y = indented(board, column, y, deep, step.words);
                } else {
                  const std::string formula = typeset(step.formula),
                                    numbers = typeset(step.numbers);
                  y = indented(board, column, y, deep,
                               fmt::format("{} = {}", typeset(step.symbol), formula));
                  const bool plain = numbers.find(' ') == std::string::npos;  // a value taken over
                  if (numbers != formula && !plain)
                    y = indented(board, column, y, deep, "= " + numbers);
                }
                y = indented(board, column, y, deep,
                             "= " + with_unit(workings::print_in(step.si, step.unit), step.unit));
                return y - 0.4 * board.pitch(LetterUse::note);
              },
          .starts = true,
          .follows = number > 1};
}

Block paragraph_block(const std::string& head, const std::string& text) {
  return {.draw =
              [head, text](Board& board, const PaperBox& column, double top) {
                return board.paragraph(LetterUse::note, {column.low.x, top}, column.width(),
                                       head + ": " + text) -
                       0.3 * board.pitch(LetterUse::note);
              },
          .starts = true};
}

paper::TableData verdicts_of(const workings::Working& w) {
  paper::TableData t;
  t.columns = {{"Verdict", "", Align::left, 0},
               {"Demand", "", Align::left, 0},
               {"Limit", "", Align::left, 0},
               {"Ratio", "", Align::right, 0},
               {"", "", Align::left, 0}};
  for (const workings::Verdict& v : w.verdicts)
    t.rows.push_back({v.words, with_unit(workings::print_in(v.demand, v.unit), v.unit),
                      with_unit(workings::print_in(v.capacity, v.unit), v.unit),
                      decimal(v.ratio(), 2), v.kept() ? "kept" : "FAILS"});
  return t;
}

/// The results that are read across, in the units in which they were declared; a unit that is the same all
/// down stands in the head.
paper::TableData results_of(const workings::Working& w) {
  paper::TableData t;
  const auto result = [&](const std::string& symbol) -> const workings::Result& {
    return *std::find_if(w.results.begin(), w.results.end(),
                         [&](const workings::Result& r) { return r.symbol == symbol; });
  };
  // Rows that count in whole degrees need no decimals.
  std::vector<char> whole(w.table.heads.size(), 1);
  for (const auto& row : w.table.rows)
    for (std::size_t k = 0; k < row.size(); ++k) {
      const double printed = std::stod(workings::print_in(result(row[k]).si, result(row[k]).unit));
      if (printed != std::round(printed)) whole[k] = 0;
    }
  for (std::size_t k = 0; k < w.table.heads.size(); ++k)
    t.columns.push_back({w.table.heads[k], std::string(result(w.table.rows.front()[k]).unit.label), Align::right, 0});
  for (const auto& row : w.table.rows) {
    t.rows.emplace_back();
    for (std::size_t k = 0; k < row.size(); ++k) {
      const std::string figure = workings::print_in(result(row[k]).si, result(row[k]).unit);
      t.rows.back().push_back(whole[k] ? decimal(std::stod(figure), 0) : figure);
    }
  }
  return t;
}

/// Steps that the table of results stands for: those of all its rows but the first.
bool in_later_row(const workings::Working& w, const std::string& symbol) {
  return std::any_of(w.table.rows.begin() + (w.table.rows.empty() ? 0 : 1), w.table.rows.end(),
                     [&](const auto& row) { return std::find(row.begin(), row.end(), symbol) != row.end(); });
}

}  // namespace

Blocks calculation_blocks(const Project& project, const Calculation& c,
                          const std::vector<std::string>& cautions) {
  const workings::Working& w = c.working;
  Blocks out;
  std::string heading = fmt::format("{}: {}", c.number, w.title);
  if (!c.on.empty()) heading += ", " + c.on;
  out.push_back(heading_block(heading, c.number));
  if (!w.inputs.empty()) add_table(out, inputs_of(project, w), 12);
  std::size_t number = 0;
  for (const workings::Step& step : w.steps)
    if (!in_later_row(w, step.symbol)) out.push_back(step_block(step, ++number));
  if (!w.table.rows.empty()) add_table(out, results_of(w), 12);
  for (const workings::Curve& curve : w.curves) out.push_back(curve_block(curve));
  if (!w.verdicts.empty()) add_table(out, verdicts_of(w), 12);
  for (const workings::Limit& l : w.limits) {
    std::string text = l.words;
    if (!l.condition.empty())
      text += fmt::format(", {} ({})", typeset(l.condition), typeset(l.numbers));
    if (!l.kept) text += ". NOT SO: " + l.otherwise;
    out.push_back(paragraph_block(l.kept ? "Holds" : "LIMIT", text));
  }
  for (const std::string& s : w.not_checked) out.push_back(paragraph_block("NOT CHECKED", s));
  for (const std::string& s : w.sources) out.push_back(paragraph_block("Source", s));
  std::vector<std::string> numbers;
  for (std::size_t i = 0; i < cautions.size(); ++i)
    if (std::find(w.cautions.begin(), w.cautions.end(), cautions[i]) != w.cautions.end())
      numbers.push_back(std::to_string(i + 1));
  if (!numbers.empty())
    out.push_back(paragraph_block(numbers.size() > 1 ? "Cautions" : "Caution",
                                  join(numbers, ", ") + " of the list after the summary"));
  add_space(out);
  return out;
}

}  // namespace deckquire::sheets
