// A working as lines of text.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "workings/formula.h"
#include "workings/working.h"

namespace deckquire::workings {
namespace {

/// Characters, not bytes.
std::size_t width(std::string_view s) {
  return static_cast<std::size_t>(
      std::count_if(s.begin(), s.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

std::string filled(std::string_view s, std::size_t to) {
  return std::string(s) + std::string(to > width(s) ? to - width(s) : 0, ' ');
}

std::string with_label(const std::string& number, const Unit& unit) {
  return number + (unit.label.empty() ? "" : " ") + std::string(unit.label);
}

std::string origin_words(const Origin& o) {
  constexpr std::array<std::string_view, 6> from{"", "project", "computed", "default", "table", ""};
  std::string out(from[static_cast<std::size_t>(o.from)]);
  if (o.place.line > 0) out += fmt::format(" {}:{}", o.place.file, o.place.line);
  if (!o.words.empty()) out += (out.empty() ? "" : ": ") + o.words;
  return out;
}

/// Rows of columns in line, the last one free.
std::string columns(const std::vector<std::vector<std::string>>& lines) {
  std::vector<std::size_t> widths;
  for (const auto& line : lines) {
    widths.resize(std::max(widths.size(), line.size()));
    for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], width(line[i]));
  }
  std::string out;
  for (const auto& line : lines) {
    std::string text = " ";
    for (std::size_t i = 0; i < line.size(); ++i) text += " " + filled(line[i], widths[i] + 1);
    text.erase(text.find_last_not_of(' ') + 1);
    out += text + "\n";
  }
  return out;
}

constexpr std::size_t longest_line = 110, widest_column = 70;  // characters, of the inputs' lines

/// Where an input comes from stands behind it, or below it where the line grows too long.
std::string inputs(const Working& w) {
  if (w.inputs.empty()) return "";
  std::vector<std::vector<std::string>> lines;
  for (const Input& in : w.inputs)
    lines.push_back({typeset(in.symbol) + " =",
                     in.text.empty() ? with_label(print_value(in), in.unit) : in.text,
                     in.meaning});
  const std::vector<std::string> texts = split_lines(columns(lines));
  std::size_t behind = 0;
  for (const std::string& t : texts) behind = std::max(behind, width(t));
  std::string out = "\nGiven\n";
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const std::string origin = origin_words(w.inputs[i].origin);
    const std::size_t at = std::min(behind, std::max(widest_column, width(texts[i]))) + 2;
    out += texts[i];
    if (!origin.empty() && at + width(origin) <= longest_line)
      out += std::string(at - width(texts[i]), ' ') + origin;
    else if (!origin.empty())
      out += "\n      " + origin;
    out += '\n';
  }
  return out;
}

std::string steps(const Working& w) {
  std::string out = w.steps.empty() ? "" : "\nSteps\n";
  for (const Step& s : w.steps) {
    const std::string symbol = typeset(s.symbol);
    const std::string under(width(symbol) + 4, ' ');
    const std::string value = with_label(print_in(s.si, s.unit), s.unit);
    out += fmt::format("  {}: {}\n", symbol, s.meaning);
    if (s.formula.empty()) {
      out += fmt::format("{}{}\n", under, s.words);
    } else {
      const std::string formula = typeset(s.formula), numbers = typeset(s.numbers);
      out += fmt::format("{}= {}\n", under, formula);
      if (numbers != formula) out += fmt::format("{}= {}\n", under, numbers);
    }
    out += fmt::format("{}= {}\n", under, value);
  }
  return out;
}

std::string results(const Working& w) {
  std::vector<std::vector<std::string>> lines;
  for (const Result& r : w.results)
    lines.push_back(
        {typeset(r.symbol) + " =", with_label(print_in(r.si, r.unit), r.unit), r.meaning});
  return lines.empty() ? "" : "\nResult\n" + columns(lines);
}

std::string limits(const Working& w) {
  std::string out = w.limits.empty() ? "" : "\nLimits of the method\n";
  for (const Limit& l : w.limits) {
    out += fmt::format("  {}  {}", l.kept ? "kept    " : "NOT KEPT", l.words);
    if (!l.condition.empty())
      out += fmt::format(": {} ({})", typeset(l.condition), typeset(l.numbers));
    out += l.kept || l.otherwise.empty() ? "\n" : fmt::format("; {}\n", l.otherwise);
  }
  return out;
}

std::string verdicts(const Working& w) {
  std::string out = w.verdicts.empty() ? "" : "\nVerdict\n";
  for (const Verdict& v : w.verdicts)
    out +=
        fmt::format("  {}  {}: {} {} {} ({:.1f} %)\n", v.kept() ? "kept    " : "NOT KEPT", v.words,
                    with_label(print_in(v.demand, v.unit), v.unit), v.kept() ? "≤" : ">",
                    with_label(print_in(v.capacity, v.unit), v.unit), 100 * v.ratio());
  return out;
}

std::string lines_of(std::string_view head, const std::vector<std::string>& lines) {
  if (lines.empty()) return "";
  std::string out = fmt::format("\n{}\n", head);
  for (const std::string& s : lines) out += "  " + s + "\n";
  return out;
}

}  // namespace

std::string print_value(const Input& in) {
  if (!in.text.empty()) return in.text;
  return in.origin.from == Origin::From::computed ? print_in(in.si, in.unit)
                                                  : print_given(in.si, in.unit);
}

std::string to_text(const Working& w) {
  return fmt::format("{} ({})\n", w.title, w.name) + inputs(w) + steps(w) + results(w) + limits(w) +
         verdicts(w) + lines_of("Not checked", w.not_checked) + lines_of("Source", w.sources) +
         lines_of("Cautions", w.cautions);
}

}  // namespace deckquire::workings
