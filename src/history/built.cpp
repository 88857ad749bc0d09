#include "history/built.h"

#include <fmt/format.h>

#include <algorithm>

#include "deck/differences.h"
#include "history/signature.h"

namespace deckquire::history {
namespace {

const char* stage_word(Stage stage) {
  return stage == Stage::cast ? "cast" : stage == Stage::shipped ? "shipped" : "set";
}

/// Where the file says what moved: the first feature that is not where it was built, else the span.
Place place_of(const BuiltChange& change, const Project& project) {
  if (change.panel == nullptr) return project.deck.place;
  if (change.built)
    for (const FeaturePair& p : pair_features(change.panel->shape, *change.built)) {
      const bool moved = p.a && (!p.b || std::abs(p.move.x) > 0.01 || std::abs(p.move.y) > 0.01 ||
                                 std::abs(p.a->length - p.b->length) > 0.01 ||
                                 std::abs(p.a->width - p.b->width) > 0.01);
      if (moved && !follows(p.a->kind) && p.a->place.line > 0) return p.a->place;
    }
  return project.deck.spans[static_cast<std::size_t>(change.panel->span)].place;
}

std::string words_of(const BuiltChange& change, const Project& project) {
  if (change.panel == nullptr) return "the design has no place for it any more";
  if (!change.built) return "the design asks for another part there";
  std::vector<std::string> words;
  for (const Difference& d : compare_in_place(change.panel->shape, *change.built, project).list)
    words.push_back(d.words);
  if (words.empty()) return "the design asks for another make of what all panels share";
  constexpr std::size_t most = 3;
  if (words.size() > most) {
    const std::size_t more = words.size() - most;
    words.resize(most);
    words.push_back(fmt::format("and {} more", more));
  }
  return "the design now asks for " + join(words, "; ");
}

constexpr const char* remedy =
    "leave the panel as it is, or decide with <decision on=\"{}\" way=\"...\" revision=\"{}\" by= "
    "date=>why</decision>: way=\"rework\" changes it under its new mark, way=\"replace\" makes a new "
    "panel with a new serial, way=\"accept\" keeps it as built";

}  // namespace

BuiltPanels::BuiltPanels(const Project& project, const Register& issued) : project_(project) {
  if (!project.revisions.empty()) revision_ = project.revisions.back().id;
  is_issued_ = issued.find(revision_) != nullptr;
  for (PanelLife& life : issued.lives())
    if (life.stage != Stage::planned && !life.voided) built_[life.serial] = std::move(life);
}

const Decision* BuiltPanels::decision(const std::string& serial, bool of_this_revision) const {
  const Decision* found = nullptr;
  for (const Decision& d : project_.decisions)
    if (d.on == serial && (!of_this_revision || d.revision == revision_)) found = &d;
  return found;
}

Way BuiltPanels::decide(const BuiltChange& change, const Signature& wanted) {
  const std::string& serial = change.old->serial;
  // Of a revision that is issued the decisions are in the register already.
  if (const Decision* d = is_issued_ ? nullptr : decision(serial, true)) {
    used_[d] = true;
    return d->way == "rework" ? Way::rework : d->way == "replace" ? Way::replace : Way::accept;
  }
  const Decision* earlier = decision(serial, false);
  if (earlier && earlier->way == "accept" && !change.old->wanted.empty() &&
      same_part(change.old->wanted, wanted))
    return Way::accept;
  open_.push_back(change);
  return Way::none;
}

std::string BuiltPanels::name(const BuiltChange& change) const {
  const PanelLife& life = built_.at(change.old->serial);
  return fmt::format("panel {} ({}, position {}) was {} on {} to revision {}", life.serial,
                     change.old->mark, change.old->position, stage_word(life.stage),
                     life.events.back().date, life.revision);
}

void BuiltPanels::refuse(const BuiltChange& change, const std::string& why,
                         Findings& findings) const {
  const Decision* d = decision(change.old->serial, true);
  if (d == nullptr) d = decision(change.old->serial, false);
  findings.error(d ? d->place : project_.place, "decision-impossible",
                 fmt::format("{}, and cannot be dealt with by way=\"{}\": {}", name(change),
                             d ? d->way : "", why),
                 "decide for another way, or leave the panel as it is");
}

void BuiltPanels::report(Findings& findings) const {
  std::vector<std::pair<std::string, std::vector<const BuiltChange*>>> causes;
  for (const BuiltChange& change : open_) {
    const std::string words = words_of(change, project_);
    auto same = std::find_if(causes.begin(), causes.end(), [&](const auto& c) {
      return c.first == words && c.second.front()->old->mark == change.old->mark;
    });
    if (same == causes.end()) same = causes.insert(causes.end(), {words, {}});
    same->second.push_back(&change);
  }
  for (const auto& [words, changes] : causes) {
    const BuiltChange& first = *changes.front();
    std::vector<std::string> others;
    for (std::size_t i = 1; i < changes.size(); ++i) others.push_back(changes[i]->old->serial);
    findings.error(place_of(first, project_), "built-panel-changed",
                   fmt::format("{}, but {}{}", name(first), words,
                               others.empty() ? "" : "; the same of " + join(others, ", ")),
                   fmt::format(fmt::runtime(remedy), first.old->serial,
                               is_issued_ ? "of the change" : revision_));
  }
  for (const Decision& d : project_.decisions)
    if (d.revision == revision_ && !is_issued_ && used_.count(&d) == 0)
      findings.warning(d.place, "decision-idle",
                       has(d.on) ? fmt::format("nothing changes the built panel {}", d.on)
                                 : fmt::format("{} is not the serial of a built panel", d.on),
                       "take the decision out");
}

}  // namespace deckquire::history
