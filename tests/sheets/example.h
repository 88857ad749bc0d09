// An example project with its plan of the set, and its panels as jobs: for tests of panel sheets.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/files.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/panel_parts.h"
#include "support/thorough.h"

namespace deckquire::sheets {

/// Everything a sheet is drawn from, in one place that does not move.
struct Example {
  Findings findings;
  Project project;
  Bridge bridge;
  Deck deck;
  std::vector<Table> tables;
  CheckScope scope;
  std::vector<Finding> notes;
  paper::Style style;
  paper::Lettering lettering;
  SetInput input{project, bridge, deck, tables, scope, notes, style, lettering};
  SetPlan plan;

  static Project read(const std::string& name, Findings& findings) {
    const std::string file = std::string(DECKQUIRE_SOURCE) + "/projects/" + name;
    auto p = read_project(read_file(file), file, findings);
    REQUIRE(p.has_value());
    return *p;
  }
  Example(const std::string& name, const std::string& style_name = "a1")
      : project(read(name, findings)),
        bridge(build_bridge(project, findings)),
        deck(build_deck(project, bridge, findings)),
        tables(make_schedules(project, bridge, deck)),
        style(paper::read_style(style_name, std::string(DECKQUIRE_SOURCE) + "/styles", findings)),
        lettering(style.fonts),
        plan(plan_set(input)) {}
  Example(const Example&) = delete;

  /// Those with views; with `second`, the sheets of tables on small paper as well.
  std::vector<std::size_t> panel_sheets(bool second = false) const {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < plan.sheets.size(); ++i)
      if (plan.sheets[i].series == 'P' && (!plan.sheets[i].second || second)) out.push_back(i);
    return out;
  }
  PanelJob job(std::size_t index) const {  // of the first mark there
    const SheetPlan& own = plan.sheets[index];
    const Mark& mark = deck.marks[static_cast<std::size_t>(own.subject)];
    return {input, plan, own, mark, project.deck, number_items(mark.shape)};
  }
};

inline const std::vector<std::string> examples =
    thorough ? std::vector<std::string>{"quickstart.xml", "saltmarsh.xml", "orchard.xml",
                                        "ropewalk.xml", "heron.xml"}
             : std::vector<std::string>{"saltmarsh.xml", "heron.xml"};

}  // namespace deckquire::sheets
