#include <fmt/core.h>

#include <algorithm>

#include "base/text.h"
#include "project/validate.h"

namespace deckquire {
namespace {

std::size_t code_points(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

/// A limit as its reader would write it: lengths of the table are metric.
std::string limit(const Attribute& row, const std::string& text, const OwnUnit& own) {
  if (row.kind != Kind::length || own.system() == UnitSystem::metric) return text;
  const auto a = std::get<Amount>(read_amount(row.kind, text, own));
  return print_length(Length::from_nanometres(a.nanometres), UnitSystem::imperial);
}

bool is_below(const Amount& a, const Amount& b) {
  return a.nanometres != b.nanometres ? a.nanometres < b.nanometres : a.si < b.si;
}

std::optional<Refusal> out_of_range(const Attribute& row, const Amount& a, const OwnUnit& own) {
  if (row.limits.least.empty()) return std::nullopt;
  const auto least = std::get<Amount>(read_amount(row.kind, row.limits.least, own));
  const auto greatest = std::get<Amount>(read_amount(row.kind, row.limits.greatest, own));
  if (!is_below(a, least) && !is_below(greatest, a)) return std::nullopt;
  std::string remedy = fmt::format("give a value from {} to {}", limit(row, row.limits.least, own),
                                   limit(row, row.limits.greatest, own));
  if (row.kind == Kind::slope) remedy += "; 1.5 % is 0.015";
  return Refusal{"out-of-range", "is out of range", std::move(remedy)};
}

std::optional<Refusal> number_refusal(const Attribute& row, const std::string& text,
                                      const OwnUnit& own) {
  if (is_unjudged(row, own)) return std::nullopt;
  const Reading reading = read_amount(row.kind, text, own);
  if (const auto* refused = std::get_if<Refusal>(&reading)) return *refused;
  return out_of_range(row, std::get<Amount>(reading), own);
}

std::optional<Refusal> word_refusal(const Attribute& row, const std::string& word) {
  if (std::find(row.words.begin(), row.words.end(), word) != row.words.end()) return std::nullopt;
  const std::string near = nearest_word(word, row.words);
  return Refusal{"unknown-word", "is no word known here",
                 near.empty() ? "use one of: " + join(row.words, ", ")
                              : fmt::format("did you mean \"{}\"? Known are: {}", near,
                                            join(row.words, ", "))};
}

std::optional<Refusal> series_refusal(const std::string& text) {
  std::string seen;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == ' ') continue;
    const bool alone = i + 1 == text.size() || text[i + 1] == ' ';
    if (c == 'R')
      return Refusal{"not-yet", fmt::format("names series {}, which is not there yet", c),
                     "leave it out; there are G, E, P, D, T and C"};
    if (!alone || std::string("GEPDTC").find(c) == std::string::npos ||
        seen.find(c) != std::string::npos)
      return Refusal{"wrong-type", "is not a list of sheet series",
                     "write each letter once with blanks between, of G E P D T C"};
    seen += c;
  }
  return std::nullopt;
}

bool is_letters(const std::string& s) {
  return !s.empty() && s.size() <= 4 &&
         std::all_of(s.begin(), s.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// Dates, revisions, threads, letters.
std::optional<Refusal> pattern_refusal(Kind kind, const std::string& text) {
  if (kind == Kind::date && !is_date(text))
    return Refusal{"bad-date", "is no date of the calendar", "write " + how_to_write(kind)};
  if (kind == Kind::revision && !is_revision(text))
    return Refusal{"bad-revision", "is no revision", "write " + how_to_write(kind)};
  const bool wrong =
      (kind == Kind::thread && !is_thread(text)) || (kind == Kind::letters && !is_letters(text));
  if (wrong)
    return Refusal{"wrong-type", "is not " + what_it_is(kind), "write " + how_to_write(kind)};
  return std::nullopt;
}

std::optional<Refusal> text_refusal(Kind kind, const std::string& text) {
  const std::size_t most = kind == Kind::name ? 40 : 2000;
  if (code_points(text) <= most) return std::nullopt;
  return Refusal{"wrong-type", fmt::format("has more than {} characters", most), "shorten it"};
}

}  // namespace

bool is_unjudged(const Attribute& row, const OwnUnit& own) {
  return own.name.empty() && (row.kind == Kind::length || row.kind == Kind::station);
}

std::optional<Refusal> refusal(const Attribute& row, const std::string& raw, const OwnUnit& own) {
  const std::string text(trimmed(raw));
  if (text.empty())
    return Refusal{"empty", "says nothing",
                   row.preset.way == Preset::Way::required ? "write " + how_to_write(row.kind)
                                                           : "write something or leave it out"};
  switch (row.kind) {
    case Kind::text:
    case Kind::name:
      return text_refusal(row.kind, text);
    case Kind::word:
      return word_refusal(row, text);
    case Kind::series:
      return series_refusal(text);
    case Kind::date:
    case Kind::revision:
    case Kind::thread:
    case Kind::letters:
      return pattern_refusal(row.kind, text);
    default:
      return number_refusal(row, text, own);
  }
}

}  // namespace deckquire
