// Erection sheets of every example on every paper, drawn once for all tests.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <deque>
#include <filesystem>

#include "base/files.h"
#include "bridge/bridge.h"
#include "checks/fit.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/erection_parts.h"
#include "support/thorough.h"

namespace deckquire::sheets {

/// A project with everything that sheets are drawn from.
struct Case {
  std::string name;
  Findings findings;
  Project project;
  Bridge bridge;
  Deck deck;
  std::vector<Table> tables;
  CheckScope scope;
  std::vector<Finding> list;
  paper::Style style;
  paper::Lettering lettering;
  SetPlan plan;
  std::vector<paper::Sheet> sheets;  // of series E

  Case(const std::string& file, const std::string& xml, const std::string& style_name)
      : name(file + " on " + style_name),
        project(*read_project(xml, file, findings)),
        bridge(build_bridge(project, findings)),
        deck(build_deck(project, bridge, findings)),
        tables(make_schedules(project, bridge, deck)),
        scope(check_scope(project, bridge, deck, findings)),
        style(paper::read_style(style_name, DECKQUIRE_SOURCE "/styles", findings)),
        lettering(style.fonts) {
    if (findings.has_errors()) return;
    plan = plan_set(input());
    for (std::size_t i = 0; i < plan.sheets.size(); ++i)
      if (plan.sheets[i].series == 'E') sheets.push_back(draw_erection(input(), plan, i));
  }
  SetInput input() const { return {project, bridge, deck, tables, scope, list, style, lettering}; }
};

/// All but the one of a thousand panels, which has the same sheets a hundred times over.
inline std::vector<std::string> example_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(DECKQUIRE_SOURCE "/projects"))
    if (entry.path().extension() == ".xml" && entry.path().stem() != "causeway")
      files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  return files;
}

/// The smallest example with skewed joints, and a row joint over a third girder.
inline std::string skewed_in_rows(const std::string& skew) {
  std::string xml = read_file(DECKQUIRE_SOURCE "/projects/quickstart.xml");
  const auto add_before = [&](const std::string& element, const std::string& more) {
    xml.insert(xml.find(element), more);
  };
  add_before("<splice ", "<girder name=\"G3\" offset=\"200\" flange=\"250\"/>");
  add_before("<posts ", "<joints skew=\"" + skew + "\"/><row-joint name=\"L1\" offset=\"200\"/>");
  return xml;
}

/// Every case with its sheets; drawn once for all tests.
inline const std::deque<Case>& cases() {
  static const std::deque<Case> all = [] {
    std::deque<Case> list;
    for (const std::string& file : example_files())
      for (const std::string& style : trial_styles) list.emplace_back(file, read_file(file), style);
    for (const char* skew : {"15 deg", "-20 deg"})
      for (const std::string& style : trial_styles)
        list.emplace_back("skewed", skewed_in_rows(skew), style);
    return list;
  }();
  return all;
}

template <class Visit>
void for_every_case(Visit visit) {
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    REQUIRE(!c.findings.has_errors());
    visit(c);
  }
}

template <class T, class Visit>
void for_items(const std::vector<paper::Sheet>& sheets, Visit visit) {
  for (const paper::Sheet& sheet : sheets)
    for (const paper::Item& item : sheet.items)
      if (const T* t = std::get_if<T>(&item)) visit(sheet, *t);
}

}  // namespace deckquire::sheets
