// Every panel sheet of every example in every style, drawn and examined.
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include <doctest/doctest.h>

#include "example.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

std::set<std::string> texts(const paper::Sheet& sheet) {
  std::set<std::string> out;
  for (const auto& item : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&item)) out.insert(t->text);
  return out;
}

std::set<std::string> group_ids(const paper::Sheet& sheet) {
  std::set<std::string> out;
  for (const auto& item : sheet.items)
    if (const auto* g = std::get_if<paper::GroupStart>(&item)) out.insert(g->id);
  return out;
}

}  // namespace

TEST_CASE("panel sheets, feature of a plan, has its callout in that plan") {
  const Example e("saltmarsh.xml", "a1");
  for (std::size_t i : e.panel_sheets()) {
    const auto ids = group_ids(draw_panel(e.input, e.plan, i));
    const auto& features = e.job(i).shape().features;
    for (std::size_t f = 0; f < features.size(); ++f) {
      const std::string number = std::to_string(f + 1);
      INFO(e.plan.sheets[i].number, " feature ", number);
      CHECK((ids.contains("callout-" + number) || ids.contains("callout-soffit-" + number)));
      for (bool above : {true, false})
        if (plan_shows(features[f], above))
          CHECK(ids.contains((above ? "callout-" : "callout-soffit-") + number));
    }
  }
}

TEST_CASE("panel sheets, hole table, as many rows as holes are listed and kinds that sum to them") {
  for (const std::string& name : examples) {
    const Example e(name, "a1");
    for (std::size_t i : e.panel_sheets()) {
      const PanelJob job = e.job(i);
      const std::size_t expected = list_holes(job.shape(), job.deck).size();
      for (int groups : {1, 3, 5}) {
        std::set<std::string> labels;
        for (const auto& row : hole_places(job, groups).rows)
          for (std::size_t c = 0; c < row.size(); c += 3)
            if (!row[c].empty()) CHECK(labels.insert(row[c]).second);
        CHECK(labels.size() == expected);
      }
      int sum = 0;
      for (const auto& row : hole_kinds(job).rows) sum += std::stoi(row[1]);
      CHECK(sum == static_cast<int>(expected));
    }
  }
}

TEST_CASE("panel sheets, feature table, quantities are those of the panel") {
  const Example e("saltmarsh.xml", "a1");
  for (std::size_t i : e.panel_sheets()) {
    const PanelJob job = e.job(i);
    int sum = 0;
    for (const auto& row : feature_table(job).rows)
      if (!row[1].empty()) sum += std::stoi(row[1]);
    CHECK(sum == static_cast<int>(job.shape().features.size()));
  }
}

TEST_CASE("panel sheets, overall dimensions, printed on the sheet") {
  for (const std::string& name : examples) {
    const Example e(name, "a1");
    for (std::size_t i : e.panel_sheets()) {
      const PanelJob job = e.job(i);
      const auto words = texts(draw_panel(e.input, e.plan, i));
      const PanelShape& s = job.shape();
      if (!s.square()) continue;  // panel_outline_test.cpp has those
      CHECK(words.contains(print_whole_units(
          whole_units(mm(s.left_back - s.right_back), print_unit(job.units())), job.units())));
      CHECK(words.contains(job.mark.name));
      CHECK(words.contains("TOP FACE"));
      CHECK(words.contains("0,0"));
    }
  }
}

TEST_CASE("panel sheets, numbers of items, equal features share one and run from 1") {
  const Example e("saltmarsh.xml", "a1");
  for (std::size_t i : e.panel_sheets()) {
    const PanelJob job = e.job(i);
    std::size_t count = 0;
    for (std::size_t k = 0; k < job.items.size(); ++k) {
      CHECK(job.items[k].number == static_cast<int>(k) + 1);
      count += job.items[k].features.size();
    }
    CHECK(count == job.shape().features.size());
  }
}

TEST_CASE("panel sheets, drawn views, inside the drawing space and clear of one another") {
  for (const std::string& style : trial_styles) {
    const Example e("saltmarsh.xml", style);
    for (std::size_t i : e.panel_sheets()) {
      const PanelJob job = e.job(i);
      paper::Sheet sheet = blank_sheet(e.input, job.own);
      paper::Board board(sheet, e.style, e.lettering);
      const paper::PaperBox space = e.style.drawing_space();
      const PanelLayout layout = lay_out_panel(board, job, space, {});
      std::vector<paper::PaperBox> boxes;
      for (int v = 0; v < panel_view_count; ++v) {
        const PlacedView& p = layout.views[v];
        if (!p.drawn) continue;
        const ViewSize size = view_size(job, static_cast<PanelView>(v));
        const paper::PaperBox b{p.at,
                                {p.at.x + size.width / p.ratio, p.at.y + size.height / p.ratio}};
        CHECK(space.contains(b.low));
        CHECK(space.contains(b.high));
        for (const auto& other : boxes) CHECK_FALSE(b.overlaps(other));
        boxes.push_back(b);
      }
      CHECK(boxes.size() >= 4);
    }
  }
}
