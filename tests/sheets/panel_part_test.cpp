// Long marks with features all along: where they are parted, and that both sheets join to a whole.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "audit/audit.h"
#include "example.h"
#include "support/dice.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

const char* const longwalk = "../tests/sheets/longwalk.xml";

/// The place nearest to the middle at that step, by trying every whole step.
std::optional<double> nearest(const std::vector<Stretch>& clear, double datum, const PartRules& r,
                              double step) {
  const double middle = (r.low + r.high) / 2;
  std::optional<double> best;
  for (double n = std::floor((r.low - datum) / step); datum + n * step <= r.high; ++n) {
    const double x = datum + n * step;
    const bool free = std::any_of(clear.begin(), clear.end(), [&](const Stretch& s) {
      return x >= s.first + r.air && x <= s.second - r.air;
    });
    if (free && x >= r.low && (!best || std::abs(x - middle) < std::abs(*best - middle))) best = x;
  }
  return best;
}

struct Seen {
  std::vector<std::string> words, running;  // running: figures of x dimensions, as printed
  std::multiset<std::string> features;      // names of the plan's features
  std::vector<std::string> targets;         // of match lines
};

Seen seen_on(const paper::Sheet& sheet) {
  Seen out;
  std::vector<std::string> kinds;
  for (const auto& item : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
      kinds.push_back(g->kind);
      if (g->kind == "feature") out.features.insert(g->title);
      if (g->kind == "match-line") out.targets.push_back(g->target);
    }
    if (std::get_if<paper::GroupEnd>(&item)) kinds.pop_back();
    const auto* t = std::get_if<paper::Text>(&item);
    if (!t) continue;
    out.words.push_back(t->text);
    const bool upright_figure = std::abs(t->angle) > 1e-6;  // of a level line
    if (!kinds.empty() && kinds.back() == "running" && upright_figure)
      out.running.push_back(t->text);
  }
  return out;
}

std::multiset<std::string> figures(const std::vector<std::string>& list) {
  std::multiset<std::string> out;
  for (const std::string& s : list)
    if (s != "0" && s.front() != '(') out.insert(s);
  return out;
}

bool any_part(const Example& e) {
  return std::any_of(e.plan.sheets.begin(), e.plan.sheets.end(),
                     [](const SheetPlan& s) { return s.part.has_value(); });
}

}  // namespace

TEST_CASE("parting: the roundest place that is clear, and of those the nearest to the middle") {
  testing::Dice dice{731};
  std::size_t found = 0, refused = 0;
  for (int n = 0; n < 3000; ++n) {
    std::vector<Stretch> clear;
    for (double x = dice.next() * 900; x < 12000;) {
      const double to = x + 20 + dice.next() * 400;
      clear.emplace_back(x, to);
      x = to + 50 + dice.next() * 900;
    }
    const double datum = dice.next() * 100;
    const PartRules rules{5000, 7000, 20 + dice.next() * 160, {500, 100, 50, 10}};
    const std::optional<double> got = choose_parting(clear, datum, rules);
    std::optional<double> wanted;
    for (double step : rules.steps)
      if (!wanted) wanted = nearest(clear, datum, rules, step);
    REQUIRE(got.has_value() == wanted.has_value());
    if (!got) {
      ++refused;
      continue;
    }
    ++found;
    CHECK(std::abs(*got - 6000) == doctest::Approx(std::abs(*wanted - 6000)));
  }
  CHECK(found > 1000);
  CHECK(refused > 20);
}

TEST_CASE("parting: where no place is clear there is none") {
  CHECK(!choose_parting({}, 0, {5000, 7000, 50, {500, 10}}));
  CHECK(!choose_parting({{0, 4000}, {8000, 12000}}, 0, {5000, 7000, 50, {500, 10}}));
  CHECK(!choose_parting({{5990, 6080}}, 0, {5000, 7000, 50, {500, 10}}));
  CHECK(choose_parting({{5940, 6080}}, 0, {5000, 7000, 50, {500, 10}}) == 6000.0);
}

TEST_CASE("parting: every feature on one of the two sheets, every x figure once, from one datum") {
  std::size_t looked_at = 0;
  for (const char* style : {"a3", "a1", "arch-d"}) {
    const Example e(longwalk, style);
    for (std::size_t i = 0; i + 1 < e.plan.sheets.size(); ++i) {
      const SheetPlan& own = e.plan.sheets[i];
      if (!own.part || own.part->ahead) continue;
      ++looked_at;
      INFO(style, " ", own.number);
      const SheetPlan& next = e.plan.sheets[i + 1];
      REQUIRE(next.part);
      CHECK(next.part->ahead);
      CHECK(next.part->at == own.part->at);
      CHECK(next.part->ratio == own.part->ratio);
      const PanelJob job = e.job(i);
      const double at = own.part->at;
      std::multiset<std::string> wanted_names, wanted_top;
      std::set<std::string> soffit;
      for (const Feature& f : job.shape().features) {
        const Box<PanelFrame> b = f.box();
        if (f.kind != FeatureKind::pad) CHECK((b.high.x < at || b.low.x > at));  // none is cut
        std::string name = feature_name(f.kind);
        if (!f.source.empty()) name += " " + f.source;
        if (f.kind != FeatureKind::pad)
          for (bool above : {true, false})
            if (plan_shows(f, above) && f.kind != FeatureKind::notch) wanted_names.insert(name);
      }
      const auto printed = [&](double x) {
        const UnitSystem units = job.units();
        return print_whole_units(whole_units(mm(job.along(x)), print_unit(units)), units);
      };
      for (auto half : {true, false})
        for (double x : feature_places({e.input, e.plan, e.plan.sheets[0], job.mark, job.deck, {}},
                                       true, true, half))
          wanted_top.insert(printed(x));
      for (double x : feature_places({e.input, e.plan, e.plan.sheets[0], job.mark, job.deck, {}},
                                     false, true, std::nullopt))
        wanted_top.insert(printed(x));
      const Seen back = seen_on(draw_panel(e.input, e.plan, i)),
                 ahead = seen_on(draw_panel(e.input, e.plan, i + 1));
      std::multiset<std::string> names = back.features;
      names.insert(ahead.features.begin(), ahead.features.end());
      for (auto it = names.begin(); it != names.end();)
        it = it->starts_with(feature_name(FeatureKind::pad)) ? names.erase(it) : std::next(it);
      CHECK(names == wanted_names);
      std::multiset<std::string> all = figures(back.running);
      for (const std::string& s : figures(ahead.running)) all.insert(s);
      CHECK(all == wanted_top);
      CHECK(!figures(ahead.running).empty());
      // Tied: as often as a chain goes on, the line's own distance at both its ends.
      const std::string tie = "(" + job.print(job.along(at)) + ")";
      CHECK(std::count(back.running.begin(), back.running.end(), tie) >= 2);
      CHECK(std::count(ahead.running.begin(), ahead.running.end(), tie) >= 2);
      CHECK(std::count(ahead.running.begin(), ahead.running.end(), "0") == 0);
    }
  }
  CHECK(looked_at >= 4);
}

TEST_CASE("parting: both sheets say which part they are and lead to the other") {
  const Example e(longwalk, "a3");
  std::size_t looked_at = 0;
  for (std::size_t i = 0; i < e.plan.sheets.size(); ++i) {
    const SheetPlan& own = e.plan.sheets[i];
    if (!own.part) continue;
    ++looked_at;
    const Seen seen = seen_on(draw_panel(e.input, e.plan, i));
    const auto said = [&](const std::string& w) {
      return std::count(seen.words.begin(), seen.words.end(), w);
    };
    const PanelJob job = e.job(i);
    const std::string part = own.part->ahead ? "PART 2 OF 2" : "PART 1 OF 2";
    INFO(own.number);
    CHECK(own.title.ends_with(part));
    for (const char* view :
         {"PLAN FROM ABOVE, ", "SOFFIT, SEEN THROUGH FROM ABOVE, ", "ELEVATION FROM THE RIGHT, "})
      CHECK(said(view + part) == 1);
    const std::string other = e.plan.sheets[own.part->ahead ? i - 1 : i + 1].number;
    CHECK(said("MATCH LINE x " + job.print(job.along(own.part->at)) + ", SEE " + other) == 3);
    CHECK(seen.targets.size() >= 3);
    for (const std::string& t : seen.targets) CHECK(t == other);
    const std::string length = job.print(bounds(job.shape().outline).width());
    CHECK(said(own.part->ahead ? "(" + length + ")" : length) >= 1);
    CHECK(e.plan.panel_sheet(own.subject) == (own.part->ahead ? other : own.number));
  }
  CHECK(looked_at >= 2);
}

TEST_CASE("parting: nothing to send back on parted sheets; a wrong length left out is found") {
  for (const char* style : {"a3", "a1", "arch-d"}) {
    const Example e(longwalk, style);
    std::vector<paper::Sheet> sheets = draw_set(e.input, 1);
    for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
      FAIL_CHECK(style << " " << f.sheet << " [" << f.code << "]: " << f.what);
    if (!any_part(e)) continue;
    for (paper::Sheet& sheet : sheets)
      for (auto& item : sheet.items)
        if (auto* g = std::get_if<paper::GroupStart>(&item))
          if (g->kind == "break") g->title = "100 left out";
    std::set<std::string> codes;
    for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
      codes.insert(f.code);
    CHECK(codes == std::set<std::string>{"chain-sum"});
  }
}

TEST_CASE("parting: marks that breaks shorten, or that are not long, stay on one sheet") {
  for (const char* style : {"a1", "a3"}) {
    CHECK(!any_part(Example("../tests/sheets/boardwalk.xml", style)));
    CHECK(!any_part(Example("saltmarsh.xml", style)));
  }
}
