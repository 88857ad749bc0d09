#include "commands/load.h"

#include <fmt/format.h>

#include <memory>
#include <utility>

#include "base/files.h"
#include "deck/objects.h"
#include "history/identities.h"
#include "history/statuses.h"
#include "history/store.h"
#include "project/reader.h"
#include "schedules/as_built.h"
#include "schedules/schedules.h"

namespace deckquire::commands {

namespace {

constexpr std::size_t largest_file = std::size_t{256} << 20;

/// Shapes of the panels that were issued last, from a deck that is built when the first is wanted.
history::IssuedShapes shapes_of(const history::Register& issued, const std::string& folder) {
  const history::Issue* last = issued.last_issue();
  if (last == nullptr || folder.empty()) return {};
  const auto deck = std::make_shared<std::optional<Deck>>();
  const auto tried = std::make_shared<bool>(false);
  return [=, &issued](const std::string& serial) -> std::optional<PanelShape> {
    if (!std::exchange(*tried, true)) {
      Findings unsaid;
      const std::string file = folder + "/" + last->project_file;
      auto project = read_project(history::issued_project(folder, *last), file, unsaid);
      const history::Register before = issued.before(last->revision);
      if (project)
        if (auto built = build(std::move(*project), unsaid, before, folder))
          *deck = std::move(built->deck);
    }
    if (*deck)
      for (const Panel& p : (*deck)->panels)
        if (p.serial == serial) return p.shape;
    return std::nullopt;
  };
}

/// What is no error, but is to be known before a sheet is believed.
void say_where_it_stands(const Loaded& loaded, Findings& findings) {
  const history::Issue* last = loaded.issued.last_issue();
  if (last == nullptr) return;
  const Revision& revision = loaded.project.revisions.back();
  if (history::is_earlier(revision.id, last->revision))
    findings.warning(revision.place, "revision-behind",
                     fmt::format("revision {} was issued on {}, and the file ends with {}",
                                 last->revision, last->date, revision.id),
                     "work on the file that was issued last");
  const history::Issue* same = loaded.issued.find(revision.id);
  if (same && !history::same_content(
                  *same, history::issue_of(loaded.project, loaded.bridge, loaded.deck)))
    findings.warning(revision.place, "revision-issued",
                     fmt::format("revision {} was issued on {} with other panels", revision.id,
                                 same->date),
                     fmt::format("what changed since needs a revision of its own: {}",
                                 history::next_revision(last->revision)));
}

}  // namespace

std::optional<Loaded> load(const std::string& path, Findings& findings) {
  return load_text(read_file(path, largest_file), path, findings);
}

std::optional<Loaded> load_text(const std::string& text, const std::string& path,
                                Findings& findings) {
  auto project = read_project(text, path, findings);
  const std::string folder = history::register_folder(path);
  const auto issued = history::read_register(folder, findings);
  if (!project || !issued) return std::nullopt;
  auto loaded = build(std::move(*project), findings, *issued, folder);
  if (loaded) loaded->text = text;
  if (loaded) say_where_it_stands(*loaded, findings);
  return loaded;
}

std::optional<Loaded> build(Project project, Findings& findings, const history::Register& issued,
                            const std::string& folder) {
  Loaded loaded{std::move(project), {}, {}, {}, issued};
  loaded.bridge = build_bridge(loaded.project, findings);
  // A deck on a bridge that contradicts itself would only repeat the same cause in other words.
  if (findings.has_errors()) return std::nullopt;
  loaded.deck = build_deck(loaded.project, loaded.bridge, findings, check_fit);
  if (findings.has_errors()) return std::nullopt;
  history::keep_identities(loaded.deck, loaded.project, loaded.bridge, loaded.issued, findings,
                           shapes_of(loaded.issued, folder));
  check_fit(loaded.project, loaded.bridge, loaded.deck, findings);
  check_redlines(loaded.project, loaded.bridge, loaded.deck, findings);
  if (findings.has_errors()) return std::nullopt;
  loaded.scope = check_scope(loaded.project, loaded.bridge, loaded.deck, findings);
  if (!loaded.issued.empty())
    find_as_built(loaded.project, loaded.deck,
                  measured_runs(loaded.project, loaded.deck, loaded.issued), findings);
  return loaded;
}

std::vector<Table> schedules_of_set(const Loaded& loaded) {
  const auto& revisions = loaded.project.revisions;
  const history::Register before =
      revisions.empty() ? loaded.issued : loaded.issued.before(revisions.back().id);
  return make_schedules(loaded.project, loaded.bridge, loaded.deck, &before);
}

std::vector<Table> schedules_by_now(const Loaded& loaded) {
  return make_schedules(loaded.project, loaded.bridge, loaded.deck, &loaded.issued);
}

void report(const Findings& findings) {
  for (const Finding& f : findings.sorted()) fmt::print(stderr, "{}\n", to_line(f));
}

}  // namespace deckquire::commands
