#include "commands/load.h"

#include <fmt/format.h>

#include "base/files.h"
#include "deck/objects.h"
#include "project/reader.h"

namespace deckquire::commands {

std::optional<Loaded> load(const std::string& path, Findings& findings) {
  auto project = read_project(read_file(path, std::size_t{256} << 20), path, findings);
  if (!project) return std::nullopt;
  return build(std::move(*project), findings);
}

std::optional<Loaded> build(Project project, Findings& findings) {
  Loaded loaded{std::move(project), {}, {}, {}};
  loaded.bridge = build_bridge(loaded.project, findings);
  // A deck on a bridge that contradicts itself would only repeat the same cause in other words.
  if (findings.has_errors()) return std::nullopt;
  loaded.deck = build_deck(loaded.project, loaded.bridge, findings, check_fit);
  if (findings.has_errors()) return std::nullopt;
  check_fit(loaded.project, loaded.bridge, loaded.deck, findings);
  check_redlines(loaded.project, loaded.bridge, loaded.deck, findings);
  if (findings.has_errors()) return std::nullopt;
  loaded.scope = check_scope(loaded.project, loaded.bridge, loaded.deck, findings);
  return loaded;
}

void report(const Findings& findings) {
  for (const Finding& f : findings.sorted()) fmt::print(stderr, "{}\n", to_line(f));
}

}  // namespace deckquire::commands
