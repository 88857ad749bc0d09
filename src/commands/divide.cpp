// Divisions of the deck compared, and the chosen one in lines to paste into the project.
#include <fmt/format.h>

#include <algorithm>

#include "base/files.h"
#include "checks/fit.h"
#include "commands/commands.h"
#include "commands/merge_hints.h"
#include "deck/alternatives.h"
#include "project/reader.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

using writers::json_string;

/// A length as the project may have it: a bare number in its own unit where that is exact.
std::string written(Length a, const Project& project) {
  const std::int64_t unit = project.unit.in_nanometres(), n = a.in_nanometres();
  const std::int64_t whole = n / unit;
  std::int64_t rest = n % unit;
  std::string digits;
  while (rest > 0 && digits.size() < 9) {
    rest *= 10;
    digits += static_cast<char>('0' + rest / unit);
    rest %= unit;
  }
  if (rest == 0) return fmt::format("{}{}{}", whole, digits.empty() ? "" : ".", digits);
  return fmt::format("{}.{:06} mm", n / 1'000'000, n % 1'000'000);
}

struct Alike {
  Length length;
  int times = 0;
};

std::vector<Alike> runs_of(const std::vector<Length>& panels) {
  std::vector<Alike> out;
  for (Length p : panels) {
    if (out.empty() || out.back().length != p) out.push_back({p, 0});
    ++out.back().times;
  }
  return out;
}

void print_table(const Alternatives& a, const Project& project) {
  const UnitSystem u = project.units;
  const std::string mass = u == UnitSystem::metric ? "kg" : "lb";
  fmt::print("{:>5} {:>8} {:>6} {:>12} {:>8} {:>11} {:>11}  {}\n", "marks", "outlines", "panels",
             "heaviest " + mass, "mean " + mass, "longest", "shortest", "division");
  for (const Alternative& x : a.all)
    fmt::print("{:>5} {:>8} {:>6} {:>12} {:>8} {:>11} {:>11}  {}\n", x.setups, x.outlines, x.panels,
               print_mass(x.heaviest, u), print_mass(x.mean, u), print_length(x.longest, u),
               print_length(x.shortest, u), x.name);
  fmt::print(
      "\nproven: no division within the rules has fewer than {} outlines (pitch and width{})\n",
      a.at_least, a.proven ? "" : "; whether that many do is not proven");
  fmt::print("compared, not proven: marks with all that lies on the panels, {}\n", a.bound);
  for (const std::string& s : a.left_alone) fmt::print("left as it stands: {}\n", s);
}

void print_lines(const Alternative& chosen, const Project& project) {
  fmt::print("\nThe division chosen, to paste instead of <panels/>:\n");
  for (std::size_t i = 0; i < chosen.spans.size(); ++i) {
    fmt::print("  span {}:\n", project.deck.spans[i].name);
    for (const Alike& r : runs_of(chosen.spans[i]))
      fmt::print("    <panel length=\"{}\" times=\"{}\"/>\n", written(r.length, project), r.times);
  }
}

std::string json_spans(const Alternative& a, const Project& project) {
  std::string out;
  for (std::size_t i = 0; i < a.spans.size(); ++i) {
    std::string runs;
    for (const Alike& r : runs_of(a.spans[i]))
      runs += fmt::format("{}{{\"length_mm\": {}, \"times\": {}}}", runs.empty() ? "" : ", ",
                          machine_number(r.length.in_mm()), r.times);
    out += fmt::format("{}\n      {{\"span\": {}, \"panels\": [{}]}}", i == 0 ? "" : ",",
                       json_string(project.deck.spans[i].name), runs);
  }
  return out;
}

/// Marks of the division chosen that would be one if fittings moved; nothing of a deck with errors.
struct Hints {
  std::optional<Loaded> deck;
  std::vector<Merger> mergers;
};

Hints hints_for(const Project& project, const Alternative& chosen) {
  Findings said;  // by `check`, of the project as it is divided then
  Hints h{build(with_division(project, chosen.spans), said), {}};
  if (h.deck) h.mergers = merge_hints(*h.deck);
  return h;
}

void print_hints(const Hints& h) {
  fmt::print("\n");
  if (h.deck)
    print_merge_hints(*h.deck, h.mergers);
  else
    fmt::print("The deck of this division has errors: no hints which marks could be one.\n");
}

void print_json(const Alternatives& a, const Project& project, const Hints& hints) {
  fmt::print("{{\n  \"outlines_at_least\": {},\n  \"compared\": {},\n", a.at_least,
             json_string(a.bound));
  fmt::print("  \"left_as_it_stands\": [");
  for (std::size_t i = 0; i < a.left_alone.size(); ++i)
    fmt::print("{}{}", i == 0 ? "" : ", ", json_string(a.left_alone[i]));
  fmt::print("],\n  \"alternatives\": [");
  for (std::size_t i = 0; i < a.all.size(); ++i) {
    const Alternative& x = a.all[i];
    fmt::print("{}\n    {{\"division\": {}, \"marks\": {}, \"outlines\": {}, \"panels\": {}, ",
               i == 0 ? "" : ",", json_string(x.name), x.setups, x.outlines, x.panels);
    fmt::print("\"heaviest_kg\": {}, \"mean_kg\": {}, \"longest_mm\": {}, \"shortest_mm\": {}, ",
               machine_number(x.heaviest.in_si()), machine_number(x.mean.in_si()),
               machine_number(x.longest.in_mm()), machine_number(x.shortest.in_mm()));
    fmt::print("\"spans\": [{}]}}", json_spans(x, project));
  }
  fmt::print("\n  ],\n  \"mergers\": {}\n}}\n",
             hints.deck ? json_merge_hints(*hints.deck, hints.mergers, "  ") : "null");
}

}  // namespace

int divide(const std::string& path, bool json) {
  Findings findings;
  const auto project = read_project(read_file(path, std::size_t{256} << 20), path, findings);
  Alternatives found;
  if (project) {
    const Bridge bridge = build_bridge(*project, findings);
    if (!findings.has_errors()) found = compare_divisions(*project, bridge, findings, check_fit);
  }
  report(findings);
  if (!project || findings.has_errors()) return project_errors;
  if (found.all.empty()) {
    for (const std::string& s : found.left_alone) fmt::print(stderr, "deckquire: divide: {}\n", s);
    return project_errors;
  }
  const Hints hints = hints_for(*project, found.all.front());
  if (json) {
    print_json(found, *project, hints);
  } else {
    print_table(found, *project);
    print_lines(found.all.front(), *project);
    print_hints(hints);
  }
  return done;
}

}  // namespace deckquire::commands
