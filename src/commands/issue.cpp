#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/files.h"
#include "base/text.h"
#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/issued_set.h"
#include "commands/load.h"
#include "commands/register_entry.h"
#include "history/identities.h"
#include "history/statuses.h"
#include "history/store.h"
#include "project/quantities.h"

namespace deckquire::commands {
namespace {

using history::Issue;

/// When a revision got the status that it has.
std::string status_date(const history::Register& issued, const std::string& revision) {
  std::string date;
  for (const history::Entry& e : issued.entries) {
    if (e.issue && e.issue->revision == revision) date = e.issue->date;
    if (e.status && e.status->revision == revision) date = e.status->date;
  }
  return date;
}

/// The revision that is asked for, when the file and the register allow it.
class Request {
 public:
  Request(const IssueOptions& options, const Loaded& loaded, Findings& findings)
      : options_(options), loaded_(loaded), findings_(findings) {}

  /// The entry to add; nothing, and an error, when there is none to be.
  std::optional<history::Entry> entry() {
    const Revision* revision = asked();
    if (revision == nullptr) return std::nullopt;
    const Issue now = history::issue_of(loaded_.project, loaded_.bridge, loaded_.deck);
    const Issue* same = loaded_.issued.find(revision->id);
    history::Entry e;
    if (same) {
      if (!may_change(*revision, *same, now)) return std::nullopt;
      e.status = history::StatusChange{revision->id, revision->status, options_.date,
                                       by(*revision)};
    } else {
      if (!may_go_out(*revision) || !is_dated(*revision)) return std::nullopt;
      e.issue = now;
      e.issue->by = by(*revision);
      e.voided = history::voided_by(now, loaded_.issued, loaded_.project);
    }
    if (!is_fit(*revision)) return std::nullopt;
    return e;
  }

 private:
  std::string by(const Revision& r) const { return options_.by.empty() ? r.by : options_.by; }

  void refuse(const Place& place, const char* code, std::string what, std::string remedy) {
    findings_.error(place, code, std::move(what), std::move(remedy));
  }

  /// The file's last revision, when it is the one named on the command line with the same status.
  const Revision* asked() {
    const auto& all = loaded_.project.revisions;
    const auto r = std::find_if(all.begin(), all.end(),
                                [&](const Revision& x) { return x.id == options_.revision; });
    if (r == all.end()) {
      refuse(all.back().place, "revision-missing",
             fmt::format("the file names no revision {}; its last is {}", options_.revision,
                         all.back().id),
             fmt::format("add <revision id=\"{}\" ...>, which says what changed",
                         options_.revision));
      return nullptr;
    }
    if (&*r != &all.back()) {
      refuse(r->place, "revision-not-last",
             fmt::format("revision {} is not the last of the file, that is {}", r->id,
                         all.back().id),
             "issue what the file says now as its last revision");
      return nullptr;
    }
    if (!options_.status.empty() && options_.status != r->status) {
      refuse(r->place, "status-differs",
             fmt::format("the file has revision {} as \"{}\", which the sheets say too, and not as "
                         "\"{}\"",
                         r->id, r->status, options_.status),
             fmt::format("write status=\"{}\" there, or leave --status out", options_.status));
      return nullptr;
    }
    return &*r;
  }

  bool may_go_out(const Revision& r) {
    const Issue* last = loaded_.issued.last_issue();
    if (last && !history::is_earlier(last->revision, r.id)) {
      refuse(r.place, "revision-backwards",
             fmt::format("revision {} comes before {}, which was issued on {}", r.id,
                         last->revision, last->date),
             fmt::format("the next revision is {}", history::next_revision(last->revision)));
      return false;
    }
    const std::string before = last ? loaded_.issued.status(last->revision) : "";
    const std::string why = history::refused_issue(before, r.status);
    if (!why.empty()) refuse(r.place, "status-move", why, "give the revision another status");
    return why.empty();
  }

  bool may_change(const Revision& r, const Issue& same, const Issue& now) {
    const std::string from = loaded_.issued.status(r.id);
    if (loaded_.issued.last_issue() != &same) {
      refuse(r.place, "revision-backwards",
             fmt::format("revision {} was followed by {}", r.id,
                         loaded_.issued.last_issue()->revision),
             "work on the file that was issued last");
      return false;
    }
    if (!history::same_content(same, now)) {
      refuse(r.place, "revision-issued",
             fmt::format("the file has other panels than revision {} that was issued on {}", r.id,
                         same.date),
             fmt::format("add a revision {} for what changed", history::next_revision(r.id)));
      return false;
    }
    if (from == r.status) {
      refuse(r.place, "revision-issued",
             fmt::format("revision {} is issued \"{}\" already, on {}", r.id, from, same.date),
             fmt::format("a new status is written in the file; a change needs a revision: {}",
                         history::next_revision(r.id)));
      return false;
    }
    const std::string why = history::refused_change(from, r.status);
    if (!why.empty())
      refuse(r.place, "status-move", why,
             fmt::format("write its former status, or add a revision {}",
                         history::next_revision(r.id)));
    const std::string last = status_date(loaded_.issued, r.id);
    const bool early = !options_.date.empty() && options_.date < last;
    if (options_.date.empty() || early)
      refuse(r.place, "status-date",
             early ? fmt::format("revision {} was \"{}\" on {}, after {}", r.id, from, last,
                                 options_.date)
                   : fmt::format("when did revision {} become \"{}\"?", r.id, r.status),
             "give the day with --date YYYY-MM-DD");
    return why.empty() && !options_.date.empty() && !early;
  }

  /// A revision has its date in the file, which the sheets say too.
  bool is_dated(const Revision& r) {
    if (options_.date.empty() || options_.date == r.date) return true;
    refuse(r.place, "date-differs",
           fmt::format("the file has revision {} of {}, which the sheets say too, and not of {}",
                       r.id, r.date, options_.date),
           "correct the file, or leave --date out");
    return false;
  }

  /// What may not leave the house in that status.
  bool is_fit(const Revision& r) {
    if (r.status != "preliminary" && !loaded_.scope.calculations.kept()) {
      refuse(r.place, "issue-with-errors",
             fmt::format("calculations are not kept, and revision {} is to go out \"{}\"", r.id,
                         r.status),
             "deckquire check names them; preliminary revisions may go out with them");
      return false;
    }
    if (!history::may_be_made(r.status)) return true;
    for (const Redline& line : loaded_.project.redlines)
      if (line.status == RedlineStatus::open)
        refuse(line.place, "redline-open",
               fmt::format("the redline on {} is open, and revision {} is to go out \"{}\"",
                           line.on, r.id, r.status),
               "answer it, and say by which revision");
    warn_not_built(r);
    return !findings_.has_errors();
  }

  void warn_not_built(const Revision& r) {
    if (r.status != history::as_built) return;
    std::vector<std::string> open;
    for (const history::PanelLife& life : loaded_.issued.lives())
      if (life.position > 0 && life.stage == history::Stage::planned) open.push_back(life.serial);
    if (!open.empty())
      findings_.warning(r.place, "as-built-incomplete",
                        fmt::format("{} of the panels are not entered as cast, shipped or set: {} "
                                    "...",
                                    open.size(), open.front()),
                        "enter them with deckquire built");
  }

  const IssueOptions& options_;
  const Loaded& loaded_;
  Findings& findings_;
};

/// Fingerprints, letters and spots of the sheets, and the layout that later sets keep. False, and
/// errors, where they cannot be drawn.
bool add_sheets(Issue& issue, const Loaded& loaded, Findings& findings) {
  const Project& project = loaded.project;
  const auto style = style_of(project, "", findings);
  if (!style) return false;
  const paper::Lettering lettering(style->fonts);
  const Findings remarks = findings;
  const IssuedSet set = draw_issued_set(
      loaded, {*style, style_name(project, ""), lettering, 1, true}, remarks, findings);
  if (findings.has_errors()) return false;
  issue.style = style_name(project, "");
  for (const SheetState& s : set.states) issue.sheets.push_back(s.sheet);
  issue.layout = set.layout;
  const auto& planned = set.plan.sheets;
  if (std::none_of(planned.begin(), planned.end(),
                   [](const sheets::SheetPlan& s) { return s.series == 'P'; }))
    return true;
  for (history::IssuedMark& m : issue.marks)
    for (std::size_t i = 0; i < loaded.deck.marks.size(); ++i)
      if (loaded.deck.marks[i].name == m.name)
        m.sheet = set.plan.panel_sheet(static_cast<int>(i));
  return true;
}

/// Whether the sheets are still those that were issued; an error that names those that are not. The
/// cover is left out, which says the status.
bool are_as_issued(const Loaded& loaded, Findings& findings) {
  const Revision& r = loaded.project.revisions.back();
  Issue now = history::issue_of(loaded.project, loaded.bridge, loaded.deck);
  if (!add_sheets(now, loaded, findings)) return false;
  std::map<std::string, std::string> issued;
  for (const history::IssuedSheet& s : loaded.issued.find(r.id)->sheets)
    if (!s.withdrawn) issued[s.number] = s.fingerprint;
  std::vector<std::string> other;
  for (const history::IssuedSheet& s : now.sheets) {
    if (s.withdrawn || s.number[0] == 'G' || s.number[0] == 'R') continue;
    const auto at = issued.find(s.number);
    if (at == issued.end() || at->second != s.fingerprint) other.push_back(s.number);
  }
  if (other.empty()) return true;
  findings.error(r.place, "revision-issued",
                 fmt::format("sheets are not what was issued as revision {}: {}", r.id,
                             join(other, ", ")),
                 fmt::format("add a revision {} for what changed", history::next_revision(r.id)));
  return false;
}

void tell(const IssueOptions& options, const Loaded& loaded, const history::Entry& e) {
  const std::string folder = history::register_folder(options.project);
  if (e.status) {
    fmt::print("revision {} is now {} -> {}\n", e.status->revision, e.status->status, folder);
    return;
  }
  fmt::print("revision {}, {}: {} panels of {} marks -> {}\n", e.issue->revision, e.issue->status,
             loaded.deck.panels.size(), loaded.deck.marks.size(), folder);
  for (const history::VoidedSerial& v : e.voided)
    fmt::print("void: {} ({}){}: {}\n", v.serial, v.mark,
               v.replaced_by.empty() ? "" : ", replaced by " + v.replaced_by, v.reason);
}

}  // namespace

int issue(const IssueOptions& options) {
  if (!options.date.empty() && !is_date(options.date)) {
    fmt::print(stderr, "deckquire: --date: \"{}\" is no date; write YYYY-MM-DD\n", options.date);
    return wrong_command_line;
  }
  const std::string who = "issue of revision " + options.revision;
  return enter(options.project, who, [&](const std::string& text) -> std::optional<NewEntry> {
    Findings findings;
    const auto loaded = load_text(text, options.project, findings);
    std::optional<history::Entry> entry;
    if (loaded) entry = Request(options, *loaded, findings).entry();
    if (entry && entry->issue && !add_sheets(*entry->issue, *loaded, findings)) entry.reset();
    if (entry && entry->status && !are_as_issued(*loaded, findings)) entry.reset();
    report(findings);
    if (!entry) return std::nullopt;
    return NewEntry{*entry, loaded->issued, [=, &options] { tell(options, *loaded, *entry); }};
  });
}

}  // namespace deckquire::commands
