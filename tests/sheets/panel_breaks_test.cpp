// Long panels: what their broken views leave out, and that the sheets say so.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "audit/audit.h"
#include "example.h"
#include "support/dice.h"

using namespace deckquire;
using namespace deckquire::sheets;
using paper::Shortening;

namespace {

const char* const boardwalk = "../tests/sheets/boardwalk.xml";

double left_out(const std::vector<Shortening>& breaks) {
  double sum = 0;
  for (const Shortening& s : breaks) sum += s.left_out();
  return sum;
}

/// The fewest breaks that can do, by trying every choice of stretches; none: no choice does.
std::optional<std::size_t> fewest(const std::vector<Stretch>& stretches, double length,
                                  const BreakRules& r) {
  std::optional<std::size_t> best;
  for (unsigned choice = 1; choice < (1u << stretches.size()); ++choice) {
    double sum = 0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      if (((choice >> i) & 1u) == 0) continue;
      ++count;
      const auto [from, to] = stretches[i];
      const double most = std::floor((to - from - 2 * r.air - r.gap) / r.step) * r.step;
      sum += most > r.gap ? most : -1e9;
    }
    if (count <= r.most && sum >= length - r.visible) best = std::min(count, best.value_or(count));
  }
  return best;
}

}  // namespace

TEST_CASE(
    "breaks: the fewest that do, clear of what stands beside them, no more left out than needed") {
  testing::Dice dice{20261126};
  std::size_t broken = 0, hopeless = 0;
  for (int round = 0; round < 400; ++round) {
    const double length = 4000 + dice.upto(9000);
    std::vector<Stretch> stretches;
    double x = dice.upto(400);
    for (int i = 0, n = 1 + dice.upto(7); i < n && x < length - 200; ++i) {
      const double end = std::min(length, x + 200 + dice.upto(3000));
      stretches.emplace_back(x, end);
      x = end + dice.upto(600);
    }
    const BreakRules rules{length * (0.3 + 0.6 * dice.next()), 100, 60, 10, 3};
    const auto got = choose_breaks(stretches, length, rules);
    const auto best = fewest(stretches, length, rules);
    CHECK(got.empty() == !best.has_value());
    if (got.empty()) {
      ++hopeless;
      continue;
    }
    ++broken;
    CHECK(got.size() == *best);
    CHECK(length - left_out(got) <= rules.visible + 1e-6);
    CHECK(length - left_out(got) > rules.visible - rules.step * double(got.size()) - 1e-6);
    for (std::size_t i = 0; i < got.size(); ++i) {
      if (i > 0) CHECK(got[i].from > got[i - 1].to);
      CHECK(std::any_of(stretches.begin(), stretches.end(), [&](const Stretch& s) {
        return got[i].from > s.first + rules.air - 1e-6 && got[i].to < s.second - rules.air + 1e-6;
      }));
    }
  }
  CHECK(broken > 50);
  CHECK(hopeless > 50);
}

TEST_CASE("breaks: what fits is not broken") {
  CHECK(choose_breaks({{0, 5000}}, 6000, {6000, 100, 60, 10, 3}).empty());
  CHECK(choose_breaks({{0, 5000}}, 6000, {5000, 100, 60, 10, 3}).size() == 1);
}

TEST_CASE("breaks: a stretch holds no feature, no corner, and one section from end to end") {
  std::size_t looked_at = 0;
  for (const std::string& name :
       {std::string("saltmarsh.xml"), std::string("heron.xml"), std::string(boardwalk)}) {
    const Example e(name, "a1");
    for (const Mark& m : e.deck.marks)
      for (auto [from, to] : uniform_stretches(m.shape, e.project.deck, {})) {
        ++looked_at;
        const double a = from + 0.1, b = to - 0.1;
        for (const Feature& f : m.shape.features) {
          const Box<PanelFrame> box = f.box();
          const bool clear = box.high.x <= a || box.low.x >= b;
          // A pad is part of the section: it is there all along.
          const bool runs_through = f.kind == FeatureKind::pad && box.low.x < a && box.high.x > b;
          CHECK((clear || runs_through));
        }
        for (const PanelPoint& p : m.shape.outline) CHECK((p.x <= a || p.x >= b));
        const PanelSection one = cut_across(m.shape, e.project.deck, a),
                           other = cut_across(m.shape, e.project.deck, b);
        REQUIRE(one.body.size() == other.body.size());
        for (std::size_t i = 0; i < one.body.size(); ++i)
          CHECK(area(one.body[i]) == doctest::Approx(area(other.body[i])));
        REQUIRE(one.curbs.size() == other.curbs.size());
      }
  }
  CHECK(looked_at > 20);
}

TEST_CASE("breaks: a broken view keeps the order of places and their scale beside its gaps") {
  paper::View<PanelFrame> view;
  view.ratio = 20;
  view.shortenings = {{1000, 3000, 60}, {5000, 6000, 60}};
  CHECK(view(0, 0).x == doctest::Approx(0));
  CHECK(view(1000, 0).x == doctest::Approx(50));
  CHECK(view(3000, 0).x == doctest::Approx(53));  // a gap of 3 mm
  CHECK(view(4000, 0).x - view(3000, 0).x == doctest::Approx(50));
  CHECK(view(8000, 0).x == doctest::Approx((8000 - 1940 - 940) / 20.0));
  for (int i = 0; i < 800; ++i) CHECK(view(i * 10.0 + 10, 0).x > view(i * 10.0, 0).x);
}

TEST_CASE(
    "breaks: a long panel's views are broken at the same places, say so, and print true lengths") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    const Example e(boardwalk, style);
    for (std::size_t i : e.panel_sheets()) {
      const PanelJob job = e.job(i);
      const paper::Sheet sheet = draw_panel(e.input, e.plan, i);
      std::vector<std::string> words, gaps;
      for (const auto& item : sheet.items) {
        if (const auto* t = std::get_if<paper::Text>(&item)) words.push_back(t->text);
        if (const auto* g = std::get_if<paper::GroupStart>(&item))
          if (g->kind == "break") gaps.push_back(g->title);
      }
      const auto said = [&](const std::string& w) {
        return std::count(words.begin(), words.end(), w);
      };
      INFO(style, " ", sheet.number);
      CHECK(said("PLAN FROM ABOVE, BROKEN") == 1);
      CHECK(said("SOFFIT, SEEN THROUGH FROM ABOVE, BROKEN") == 1);
      CHECK(said("ELEVATION FROM THE RIGHT, BROKEN") == 1);
      CHECK(said("not across a break") == 1);
      CHECK(said(job.print(bounds(job.shape().outline).width())) == 1);
      CHECK(gaps.size() % 3 == 0);
      REQUIRE(gaps.size() >= 3);
      const std::size_t each = gaps.size() / 3;
      for (std::size_t k = each; k < gaps.size(); ++k) CHECK(gaps[k] == gaps[k - each]);
    }
  }
}

TEST_CASE("breaks: panels that are not long stay whole") {
  const Example e("saltmarsh.xml", "a3");
  for (std::size_t i : e.panel_sheets())
    for (const auto& item : draw_panel(e.input, e.plan, i).items)
      if (const auto* g = std::get_if<paper::GroupStart>(&item)) CHECK(g->kind != "break");
}

TEST_CASE("breaks: nothing to send back on broken sheets, but a wrong length left out is found") {
  for (const std::string& style : trial_styles) {
    const Example e(boardwalk, style);
    std::vector<paper::Sheet> sheets = draw_set(e.input, 1);
    for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
      if (f.sheet.front() == 'P')
        FAIL_CHECK(style << " " << f.sheet << " [" << f.code << "]: " << f.what);
    for (paper::Sheet& sheet : sheets)
      for (auto& item : sheet.items)
        if (auto* g = std::get_if<paper::GroupStart>(&item))
          if (g->kind == "break") g->title = "100 left out";
    std::set<std::string> codes;
    for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
      if (f.sheet.front() == 'P') codes.insert(f.code);
    CHECK(codes == std::set<std::string>{"chain-sum"});
  }
}

TEST_CASE("long panels: large tables stand low, so that the plans have the width of the sheet") {
  const Example e("../tests/sheets/railwalk.xml", "a1");
  const std::vector<paper::Sheet> sheets = draw_set(e.input, 1);
  for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
    if (f.sheet.front() == 'P') FAIL_CHECK(f.sheet << " [" << f.code << "]: " << f.what);
  std::size_t looked_at = 0;
  for (const paper::Sheet& sheet : sheets) {
    if (sheet.number.front() != 'P') continue;
    ++looked_at;
    bool legible = false;
    for (const auto& item : sheet.items)
      if (const auto* t = std::get_if<paper::Text>(&item))
        legible = legible || t->text == "1:20" || t->text == "1:25";
    CHECK(legible);  // 1:50 where tables keep their place
  }
  CHECK(looked_at == 5);  // three marks, two of them parted
}
