// A whole set made from an example project, in any style: for tests.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "base/files.h"
#include "checks/fit.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/plan.h"
#include "sheets/set.h"
#include "support/thorough.h"

namespace deckquire::sheets {

inline Project trial_project(const std::string& name) {
  Findings findings;
  const std::string path = DECKQUIRE_SOURCE "/projects/" + name + ".xml";
  auto project = read_project(read_file(path), name + ".xml", findings);
  REQUIRE(project);
  return *project;
}

inline paper::Style trial_style(const std::string& name) {
  Findings findings;
  paper::Style style = paper::read_style(name, DECKQUIRE_SOURCE "/styles", findings);
  REQUIRE(findings.empty());
  return style;
}

/// Everything that a SetInput refers to.
struct TrialSet {
  explicit TrialSet(const std::string& name, const std::string& style_name = "a1")
      : TrialSet(trial_project(name), style_name) {}
  TrialSet(Project p, const std::string& style_name)
      : project(std::move(p)), style(trial_style(style_name)), lettering(style.fonts) {
    bridge = build_bridge(project, findings);
    deck = build_deck(project, bridge, findings);
    check_fit(project, bridge, deck, findings);
    scope = check_scope(project, bridge, deck, findings);
    tables = make_schedules(project, bridge, deck);
    sorted = findings.sorted();
  }
  SetInput input() const {
    return {project, bridge, deck, tables, scope, sorted, style, lettering};
  }
  const Table& table(const std::string& name) const {
    for (const Table& t : tables)
      if (t.name == name) return t;
    FAIL("no table " << name);
    return tables.front();
  }
  Findings findings;
  Project project;
  Bridge bridge;
  Deck deck;
  CheckScope scope;
  std::vector<Table> tables;
  std::vector<Finding> sorted;
  paper::Style style;
  paper::Lettering lettering;
};

inline const char* const trial_names[] = {"saltmarsh", "quickstart", "orchard"};

}  // namespace deckquire::sheets
