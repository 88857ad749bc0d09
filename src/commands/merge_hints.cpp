#include "commands/merge_hints.h"

#include <fmt/format.h>

#include "writers/writers.h"

namespace deckquire::commands {
namespace {

using writers::json_string;

const Mark& mark(const Loaded& loaded, int index) {
  return loaded.deck.marks[static_cast<std::size_t>(index)];
}

std::string json_merger(const Loaded& loaded, const Merger& m) {
  std::vector<std::string> moves;
  for (const FittingMove& f : m.moves)
    moves.push_back(fmt::format("{{\"of\": {}, \"name\": {}, \"ahead_mm\": {}, \"left_mm\": {}}}",
                                json_string(feature_name(f.kind)), json_string(f.name),
                                machine_number(f.ahead), machine_number(f.left)));
  return fmt::format("{{\"from\": {}, \"into\": {}, \"marks_after\": {}, \"moves\": [{}]}}",
                     json_string(mark(loaded, m.from).name), json_string(mark(loaded, m.into).name),
                     m.marks, join(moves, ", "));
}

/// "posts by up to 300, scuppers by up to 250 (freedom), hatches and sleeves by up to 100"
std::string reach_words(const Project& p) {
  const auto far = [&](double v) { return print_length(mm(v), p.units); };
  std::string posts = "rail posts by up to " + far(furthest_move);
  std::string scuppers = "scuppers by up to " + far(furthest_move);
  if (const auto freedom = post_freedom(p))
    posts += fmt::format(" (those of the rule {}, their freedom)", far(*freedom));
  if (const auto freedom = scupper_freedom(p))
    scuppers += fmt::format(" (those of the rule {} upstream, their freedom)", far(*freedom));
  return fmt::format("{}, {}, hatches and sleeves by up to {}", posts, scuppers,
                     far(furthest_move_of_openings));
}

}  // namespace

std::vector<Merger> merge_hints(const Loaded& loaded, std::optional<int> only) {
  const Rebuild rebuild = [](const Project& changed) -> std::optional<Deck> {
    Findings findings;
    auto built = build(changed, findings);
    if (!built) return std::nullopt;
    return std::move(built->deck);
  };
  return find_mergers({loaded.project, loaded.bridge, loaded.deck}, rebuild, only);
}

void print_merge_hints(const Loaded& loaded, const std::vector<Merger>& mergers) {
  const UnitSystem units = loaded.project.units;
  const std::size_t n = loaded.deck.marks.size();
  if (mergers.empty()) {
    fmt::print("No two marks become one by moving {}.\n", reach_words(loaded.project));
    return;
  }
  for (const Merger& m : mergers)
    fmt::print("{} would make {} a {}: {} marks instead of {}, {} fewer\n", move_words(m, units),
               introduced(loaded.deck, mark(loaded, m.from)), mark(loaded, m.into).name, m.marks, n,
               n - m.marks == 1 ? "one mould" : fmt::format("{} moulds", n - m.marks));
  fmt::print(
      "Each was tried on the whole deck by itself, moving {}. The designer has to allow "
      "every move.\n",
      reach_words(loaded.project));
}

std::string json_merge_hints(const Loaded& loaded, const std::vector<Merger>& mergers,
                             const std::string& indent) {
  std::vector<std::string> rows;
  for (const Merger& m : mergers) rows.push_back("\n" + indent + "  " + json_merger(loaded, m));
  return "[" + join(rows, ",") + (rows.empty() ? "" : "\n" + indent) + "]";
}

std::vector<std::string> positions(const Deck& deck, const Mark& m) {
  std::vector<std::string> out;
  for (int p : m.positions)
    out.push_back(std::to_string(deck.panels[static_cast<std::size_t>(p)].position));
  return out;
}

std::string introduced(const Deck& deck, const Mark& m) {
  const auto at = positions(deck, m);
  return m.quantity == 1
             ? fmt::format("{} (1 panel, position {})", m.name, at.front())
             : fmt::format("{} ({} panels, positions {})", m.name, m.quantity, join(at, ", "));
}

}  // namespace deckquire::commands
