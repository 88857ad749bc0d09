#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/merge_hints.h"
#include "deck/differences.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

using writers::json_string;

/// The marks as words of the command line name them, in either case; a word that names none is
/// reported with the nearest one.
std::optional<std::vector<int>> find_marks(const Deck& deck,
                                           const std::vector<std::string>& words) {
  std::vector<std::string> names;
  for (const Mark& m : deck.marks) names.push_back(m.name);
  const auto same = [](const std::string& a, const std::string& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char p, char q) {
      return std::tolower(static_cast<unsigned char>(p)) ==
             std::tolower(static_cast<unsigned char>(q));
    });
  };
  std::vector<int> found;
  for (const std::string& w : words) {
    const auto at = std::find_if(names.begin(), names.end(),
                                 [&](const std::string& name) { return same(name, w); });
    if (at != names.end()) {
      found.push_back(static_cast<int>(at - names.begin()));
      continue;
    }
    const std::string near = nearest_word(w, names);
    fmt::print(stderr, "deckquire: why: there is no mark '{}'; {}\n", w,
               !near.empty()   ? "did you mean '" + near + "'?"
               : names.empty() ? "the deck has no panels"
                               : fmt::format("they are {} to {}", names.front(), names.back()));
    return std::nullopt;
  }
  return found;
}

struct Question {
  const Loaded& loaded;
  bool json;
  const Deck& deck() const { return loaded.deck; }
  const Mark& mark(int i) const { return deck().marks[static_cast<std::size_t>(i)]; }
};

bool opposite_hands(const Question& q, int a, int b) {
  if (q.mark(a).opposite_of == b || q.mark(b).opposite_of == a) return true;
  const PanelShape image = mirror(q.mark(a).shape);
  const Length tolerance = q.loaded.project.deck.marks.tolerance;
  return same_type(q.mark(b).shape, image, tolerance) ||
         same_type(q.mark(b).shape, half_turn(image), tolerance);
}

std::string json_mark(const Question& q, const Mark& m) {
  return fmt::format("{{\"mark\": {}, \"quantity\": {}, \"positions\": [{}]}}", json_string(m.name),
                     m.quantity, join(positions(q.deck(), m), ", "));
}

std::string json_differences(const ShapeComparison& c) {
  std::vector<std::string> rows;
  for (const Difference& d : c.list)
    rows.push_back(fmt::format(
        "\n    {{\"of\": {}, \"words\": {}, \"things\": {}, \"amount_mm\": {}, \"follows\": {}}}",
        json_string(d.of), json_string(d.words), d.things, machine_number(d.amount), d.follows));
  return "[" + join(rows, ",") + (rows.empty() ? "]" : "\n  ]");
}

void print_pair_json(const Question& q, int a, int b, const ShapeComparison& c) {
  fmt::print(
      "{{\n  \"marks\": [{}, {}],\n  \"same\": {},\n  \"turned\": {},\n  \"opposite_hand\": {},\n"
      "  \"differences\": {}\n}}\n",
      json_mark(q, q.mark(a)), json_mark(q, q.mark(b)), a == b, c.turned,
      a != b && opposite_hands(q, a, b), json_differences(c));
}

void print_differences(const ShapeComparison& c, const std::string& indent) {
  for (const Difference& d : c.list)
    fmt::print("{}{}{}\n", indent, d.words, d.follows ? " (follows)" : "");
}

void print_pair(const Question& q, int a, int b, const ShapeComparison& c) {
  const Mark &m = q.mark(a), &n = q.mark(b);
  const bool hands = opposite_hands(q, a, b);
  if (hands)
    fmt::print("{} is the opposite hand of {}: its mirror image, and so another part\n", m.name,
               n.name);
  fmt::print("{} differs from {}{}:\n", introduced(q.deck(), m), introduced(q.deck(), n),
             c.turned ? " turned end for end" : "");
  print_differences(c, "  ");
  if (!hands) fmt::print("They are not opposite hands of each other.\n");
}

int explain(const Question& q, int a, int b) {
  ShapeComparison c;
  if (a != b) c = compare_shapes(q.mark(a).shape, q.mark(b).shape, q.loaded.project);
  if (q.json) {
    print_pair_json(q, a, b, c);
  } else if (a == b) {
    fmt::print("{} is one mark: its panels are the same part within {}\n",
               introduced(q.deck(), q.mark(a)),
               print_length(q.loaded.project.deck.marks.tolerance, q.loaded.project.units));
  } else {
    print_pair(q, a, b, c);
  }
  return done;
}

void print_mergers_json(const Question& q, const std::vector<Merger>& mergers) {
  fmt::print("{{\n  \"marks\": {},\n  \"mergers\": {}\n}}\n", q.deck().marks.size(),
             json_merge_hints(q.loaded, mergers, "  "));
}

/// The mark that differs from this one in the fewest things.
void print_nearest(const Question& q, int index) {
  int nearest = -1;
  ShapeComparison best;
  for (int i = 0; i < static_cast<int>(q.deck().marks.size()); ++i) {
    if (i == index) continue;
    ShapeComparison c = compare_shapes(q.mark(index).shape, q.mark(i).shape, q.loaded.project);
    if (nearest >= 0 && !less_different(c, best)) continue;
    nearest = i;
    best = std::move(c);
  }
  if (nearest < 0) return fmt::print("{} is the only mark\n", introduced(q.deck(), q.mark(index)));
  fmt::print("Nearest to it is {}.\n", q.mark(nearest).name);
  print_pair(q, index, nearest, best);
}

int hints(const Question& q, std::optional<int> only) {
  const auto mergers = merge_hints(q.loaded, only);
  if (q.json) {
    print_mergers_json(q, mergers);
    return done;
  }
  if (only) print_nearest(q, *only);
  print_merge_hints(q.loaded, mergers);
  return done;
}

}  // namespace

int why(const std::string& project, const std::vector<std::string>& marks, bool json) {
  Findings findings;
  const auto loaded = load(project, findings);
  report(findings);
  if (!loaded) return project_errors;
  const auto found = find_marks(loaded->deck, marks);
  if (!found) return wrong_command_line;
  const Question q{*loaded, json};
  if (found->size() == 2) return explain(q, (*found)[0], (*found)[1]);
  return hints(q, found->empty() ? std::nullopt : std::optional<int>(found->front()));
}

}  // namespace deckquire::commands
