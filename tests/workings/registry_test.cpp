// What holds for every working there is: it explains itself, its example runs, what it prints is
// what it computed, and US constants give what SI constants give.
#include <cctype>
#include <cmath>
#include <set>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "support/dice.h"
#include "support/reckoned.h"
#include "workings/formula.h"

using namespace deckquire;
using namespace deckquire::workings;
using deckquire::testing::Dice;

namespace {

Working run_example(const WorkingKind& k) {
  return reckon_typed(k, testing::typed_values(k.example));
}

/// Skips one JSON value at s[i]; false where there is none.
bool skip_json(const std::string& s, std::size_t& i) {
  const auto blanks = [&] {
    while (i < s.size() && std::isspace(static_cast<unsigned char>(s[i]))) ++i;
  };
  const auto word = [&](std::string_view w) {
    if (s.compare(i, w.size(), w) != 0) return false;
    i += w.size();
    return true;
  };
  blanks();
  if (i == s.size()) return false;
  if (s[i] == '"') {
    for (++i; i < s.size() && s[i] != '"'; ++i)
      if (s[i] == '\\') ++i;
    return i++ < s.size();
  }
  if (s[i] == '{' || s[i] == '[') {
    const bool object = s[i] == '{';
    const char end = object ? '}' : ']';
    ++i;
    blanks();
    if (i < s.size() && s[i] == end) return ++i, true;
    for (;;) {
      blanks();
      if (object && (i == s.size() || s[i] != '"')) return false;
      if (object && (!skip_json(s, i) || (blanks(), i == s.size()) || s[i++] != ':')) return false;
      if (!skip_json(s, i)) return false;
      blanks();
      if (i == s.size()) return false;
      if (s[i] == end) return ++i, true;
      if (s[i++] != ',') return false;
    }
  }
  if (word("true") || word("false") || word("null")) return true;
  const std::size_t from = i;
  while (i < s.size() && std::string_view("+-.0123456789eE").find(s[i]) != std::string_view::npos)
    ++i;
  return i > from;
}

bool is_json(const std::string& s) {
  std::size_t i = 0;
  return skip_json(s, i) && s.find_first_not_of(" \n", i) == std::string::npos;
}

}  // namespace

TEST_CASE("workings: the reader of this test knows JSON when it sees it") {
  CHECK(is_json("{\"a\": [1, -2.5e-3, {}], \"b\\\"\": null, \"c\": []}\n"));
  for (const char* bad : {"{\"a\": }", "[1,]", "{1: 2}", "[1", "\"a", "[1] 2", "{\"a\" 1}", "nan"})
    CHECK_FALSE(is_json(bad));
}

TEST_CASE(
    "workings: every one has a name of its own, a group, a source, and inputs that are explained") {
  std::set<std::string> names;
  REQUIRE(registry().size() >= 20);
  for (const WorkingKind& k : registry()) {
    INFO(k.name);
    CHECK(names.insert(k.name).second);
    CHECK(find_working(k.name) == &k);
    for (char c : k.name) CHECK((std::islower(c) || std::isdigit(c) || c == '-'));
    CHECK_FALSE(k.title.empty());
    CHECK_FALSE(k.group.empty());
    CHECK_FALSE(k.sources.empty());
    CHECK_FALSE(k.example.empty());
    REQUIRE(bool(k.work));
    std::set<std::string> symbols{"units"};
    for (const InputSpec& in : k.inputs) {
      INFO(in.symbol);
      CHECK(symbols.insert(in.symbol).second);
      CHECK_FALSE(in.meaning.empty());
      CHECK_FALSE((in.optional && !in.fallback.empty()));
      // A default says where it comes from.
      CHECK((in.fallback.empty() || !in.why.empty()));
      for (System s : {System::si, System::us}) {
        CHECK(in.unit_in(s).kind == in.kind);
        if (in.fallback.empty() || !in.choices.empty() || in.list) continue;
        const Parsed p = parse_quantity(in.fallback, in.unit_in(s));
        REQUIRE(p.si.has_value());
        CHECK(*p.si >= in.least);
        CHECK(*p.si <= in.most);
      }
    }
  }
}

TEST_CASE(
    "workings: every example runs, and each line of numbers gives the value printed below it") {
  int lines = 0;
  for (const WorkingKind& k : registry()) {
    INFO(k.name);
    const Working w = run_example(k);
    CHECK_FALSE(w.results.empty());
    CHECK(to_text(w) == to_text(run_example(k)));
    CHECK(is_json(to_json(w)));
    for (const Step& s : w.steps) {
      INFO(s.symbol << " = " << s.formula << " = " << s.numbers);
      CHECK(s.formula.empty() != s.words.empty());
      if (s.formula.empty()) continue;
      ++lines;
      const double value = s.unit.from_si(s.si);
      const double printed = evaluate(s.numbers, [](std::string_view) { return std::nan(""); });
      // Numbers are printed with four digits; a difference of two of them has less.
      CHECK(std::abs(printed - value) <= 0.01 * std::abs(value) + 1e-12);
    }
  }
  CHECK(lines > 100);
}

TEST_CASE("workings: without values each says what is missing, and nothing else") {
  for (const WorkingKind& k : registry()) {
    INFO(k.name);
    std::string said;
    try {
      reckon_typed(k, {});
    } catch (const WorkingError& e) {
      said = e.what();
    }
    int missing = 0;
    for (const InputSpec& in : k.inputs) {
      const bool needed = !in.optional && in.fallback.empty();
      missing += needed;
      if (needed) CHECK(said.find(in.symbol + " is missing (" + in.meaning) != std::string::npos);
    }
    int named = 0;
    for (std::size_t at = 0; (at = said.find(" is missing (", at)) != std::string::npos; ++at)
      ++named;
    // One that needs none by itself takes either of several, and says so in its own words.
    if (missing > 0) CHECK(named == missing);
  }
}

TEST_CASE("workings: US constants give what SI constants give, within their rounding") {
  // FHWA rounds the constants of both systems on their own: the rational method's differ by 0.83 %,
  // the gutter's by 0.24 %. What is left over at the end of a deck is a small difference of large
  // numbers.
  int compared = 0;
  for (const WorkingKind& k : registry()) {
    if (!k.us_constants) continue;
    INFO(k.name);
    const Working si = run_example(k);
    Values values;
    for (const InputSpec& in : k.inputs)
      for (const Input& given : si.inputs)
        if (given.symbol == in.symbol) values[in.symbol] = {given.si, given.text, given.origin};
    const Working us = reckon(k, values, System::us);
    REQUIRE(us.results.size() == si.results.size());
    for (std::size_t i = 0; i < si.results.size(); ++i) {
      INFO(si.results[i].symbol << ": SI " << si.results[i].si << ", US " << us.results[i].si);
      CHECK(us.results[i].symbol == si.results[i].symbol);
      if (si.results[i].symbol.ends_with("end")) continue;
      CHECK(std::abs(us.results[i].si - si.results[i].si) <= 0.012 * std::abs(si.results[i].si));
      ++compared;
    }
  }
  CHECK(compared > 40);
}

TEST_CASE("workings: values by chance give numbers, or an error that says which values") {
  // Every input anywhere in its range, optional ones there or not: never a mistake of the program.
  Dice dice{5};
  int done = 0, refused = 0;
  for (const WorkingKind& k : registry()) {
    const Working example = run_example(k);
    for (int i = 0; i < 200; ++i) {
      Values values;
      for (const InputSpec& in : k.inputs) {
        if (in.optional && dice.upto(2) == 0) continue;
        Given g;
        for (const Input& e : example.inputs)
          if (e.symbol == in.symbol) g = {e.si, e.text, {}};
        if (in.list && g.text.empty()) continue;
        if (!in.choices.empty())
          g.text = in.choices[dice.upto(static_cast<int>(in.choices.size()))];
        // Half near the example, half all over.
        if (in.choices.empty() && !in.list && i % 2 == 0) g.si *= std::pow(10, dice.next() - 0.5);
        if (in.choices.empty() && !in.list && i % 2 == 1)
          g.si = in.least > 0
                     ? in.least * std::pow(std::min(in.most, 1e9) / in.least, dice.next())
                     : std::max(in.least, -1e3) +
                           (std::min(in.most, 1e3) - std::max(in.least, -1e3)) * dice.next();
        if (in.kind == Kind::count) g.si = std::floor(std::min(g.si, 500.0));
        values[in.symbol] = g;
      }
      INFO(k.name);
      try {
        const Working w = reckon(k, values, k.us_constants && i % 3 == 0 ? System::us : System::si);
        for (const Step& s : w.steps) CHECK(std::isfinite(s.si));
        CHECK(is_json(to_json(w)));
        ++done;
      } catch (const WorkingError& e) {
        CHECK(std::string_view(e.what()).size() > 10);
        ++refused;
      }
    }
  }
  CHECK(done > 1000);
  CHECK(refused > 100);
}
