// Detail sheets of every example on every paper.
#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <set>
#include <sstream>

#include "sheets/details.h"
#include "trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// A set with its D sheets.
struct Case {
  std::string name;
  TrialSet set;
  SetPlan plan;
  std::map<std::string, paper::Sheet> sheets;

  Case(const std::string& project, const std::string& style, JointKind kind = JointKind::sealed)
      : name(project + " on " + style), set(project, style) {
    set.project.deck.joints.kind = kind;
    plan = plan_set(set.input());
    for (std::size_t i = 0; i < plan.sheets.size(); ++i)
      if (plan.sheets[i].series == 'D')
        sheets[plan.sheets[i].number] = draw_details(set.input(), plan, i);
  }
};

/// Drawn once for all tests.
const std::deque<Case>& cases() {
  static const std::deque<Case> all = [] {
    std::deque<Case> list;
    for (const std::string& style : trial_styles) {
      for (const char* project : {"quickstart", "saltmarsh", "orchard", "heron", "ropewalk"})
        list.emplace_back(project, style);
      list.emplace_back("saltmarsh", style, JointKind::open);
      list.emplace_back("ropewalk", style, JointKind::lapped);
    }
    return list;
  }();
  return all;
}

template <class Visit>
void for_every_case(Visit visit) {
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    visit(c);
  }
}

std::vector<std::string> texts(const paper::Sheet& sheet) {
  std::vector<std::string> out;
  for (const paper::Item& i : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&i)) out.push_back(t->text);
  return out;
}

}  // namespace

TEST_CASE("detail sheets: every detail of the plan is drawn once, on the sheet it is referred to") {
  for_every_case([](const Case& c) {
    std::set<std::string> letters;
    for (const DetailRef& ref : c.plan.details) {
      CHECK(letters.insert(ref.letter).second);
      for (const auto& [number, sheet] : c.sheets) {
        const auto words = texts(sheet);
        const auto n = std::count(words.begin(), words.end(), ref.title);
        CHECK(n == (number == ref.sheet ? 1 : 0));
      }
    }
  });
}

TEST_CASE("detail sheets: a value of the project that changes is drawn and printed anew") {
  TrialSet set("saltmarsh");
  const auto has = [&](const std::string& word) {
    const SetPlan plan = plan_set(set.input());
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      if (plan.sheets[i].series != 'D') continue;
      const auto words = texts(draw_details(set.input(), plan, i));
      if (std::find(words.begin(), words.end(), word) != words.end()) return true;
    }
    return false;
  };
  CHECK_FALSE(has("4 × M14 tapped, 13 deep"));
  set.project.deck.posts->plate.thread = "M14";
  set.project.deck.posts->plate.tap_depth = mm(13);
  CHECK(has("4 × M14 tapped, 13 deep"));
}

namespace {

/// "1'-10 1/2\"" or "22.5" or "4 @ 20 = 80" in mm.
double mm_of(std::string text, UnitSystem system) {
  if (const auto equal = text.find("= "); equal != std::string::npos) text.erase(0, equal + 2);
  if (system == UnitSystem::metric) return std::stod(text);
  double inches = 0;
  if (const auto foot = text.find("'-"); foot != std::string::npos) {
    inches = 12 * std::stod(text);
    text.erase(0, foot + 2);
  }
  std::istringstream words(text.substr(0, text.find('"')));
  for (std::string word; words >> word;) {
    const auto slash = word.find('/');
    inches +=
        std::stod(word) / (slash == std::string::npos ? 1 : std::stod(word.substr(slash + 1)));
  }
  return 25.4 * inches;
}

/// A chain as printed: the sum of its figures and the length of its dimension line.
struct PrintedChain {
  double sum = 0, length = 0;
  bool level = true;
};

void add(PrintedChain& c, const paper::Stroke& s) {
  if (s.path.points.size() != 2) return;
  const paper::PaperPoint d = s.path.points[1] - s.path.points[0];
  const double along = c.level ? d.x : d.y, across = c.level ? d.y : d.x;
  if (std::abs(across) < 1e-9) c.length = std::max(c.length, std::abs(along));
}

std::vector<PrintedChain> chains_of(const paper::Sheet& sheet, UnitSystem system) {
  std::vector<PrintedChain> out;
  std::vector<const paper::Stroke*> strokes;
  bool open = false;
  for (const paper::Item& i : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&i); g != nullptr && g->kind == "chain") {
      open = true;
      strokes.clear();
      out.emplace_back();
    } else if (open && std::holds_alternative<paper::GroupEnd>(i)) {  // chains hold no groups
      open = false;
      for (const auto* s : strokes) add(out.back(), *s);
    } else if (const auto* t = std::get_if<paper::Text>(&i); open && t != nullptr) {
      out.back().sum += mm_of(t->text, system);
      out.back().level = t->angle == 0;
    } else if (const auto* s = std::get_if<paper::Stroke>(&i); open && s != nullptr) {
      strokes.push_back(s);
    }
  }
  return out;
}

}  // namespace

TEST_CASE(
    "detail sheets: the figures of every chain add up to its length at a scale of the style") {
  for_every_case([](const Case& c) {
    int chains = 0;
    const UnitSystem units = c.set.project.units;
    const double half_unit = print_unit(units).in_mm() / 2;
    for (const auto& [number, sheet] : c.sheets) {
      for (const PrintedChain& chain : chains_of(sheet, units)) {
        CAPTURE(chain.sum);
        CAPTURE(chain.length);
        const auto& scales = c.set.style.scales;
        CHECK(std::any_of(scales.begin(), scales.end(), [&](int ratio) {
          return std::abs(chain.sum - chain.length * ratio) <= half_unit + 1e-6;
        }));
        ++chains;
      }
    }
    CHECK(chains > 20);
  });
}

namespace {

/// Every text of a chain and every stroke of a note's leader on a sheet.
struct Marked {
  std::vector<paper::PaperBox> values;
  std::vector<paper::Path> leaders;
};

Marked marked(const paper::Sheet& sheet) {
  Marked out;
  std::vector<std::string> kinds;
  const auto inside = [&](const char* kind) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
  };
  for (const paper::Item& i : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&i)) kinds.push_back(g->kind);
    if (std::get_if<paper::GroupEnd>(&i)) kinds.pop_back();
    const auto* t = std::get_if<paper::Text>(&i);
    if (t && inside("chain")) out.values.push_back(text_box(*t));
    const auto* s = std::get_if<paper::Stroke>(&i);
    if (s && inside("callout")) out.leaders.push_back(s->path);
  }
  return out;
}

bool crosses(const paper::Path& path, const paper::PaperBox& box) {
  for (std::size_t i = 0; i + 1 < path.points.size(); ++i)
    for (int n = 0; n <= 400; ++n) {
      const double t = n / 400.0;
      const paper::PaperPoint a = path.points[i], b = path.points[i + 1];
      if (box.contains({a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t})) return true;
    }
  return false;
}

}  // namespace

TEST_CASE("detail sheets: no leader runs through a dimension's value") {
  for_every_case([](const Case& c) {
    std::size_t leaders = 0, values = 0;
    for (const auto& [number, sheet] : c.sheets) {
      const Marked m = marked(sheet);
      leaders += m.leaders.size(), values += m.values.size();
      for (const auto& path : m.leaders)
        for (const auto& box : m.values)
          CHECK_MESSAGE(!crosses(path, box), number << " near " << box.low.x << ", " << box.low.y);
    }
    CHECK(leaders > 10);
    CHECK(values > 20);
  });
}
