// Words, tables and sections of the erection sheets, and the covers, of every example on every
// paper.
#include <map>
#include <set>

#include "bridge/curve_data.h"

#include "erection_cases.h"

using namespace deckquire;
using namespace deckquire::sheets;

TEST_CASE("hardware and picks of the erection sheets: sum to the deck") {
  for_every_case([](const Case& c) {
    const SetInput input = c.input();
    const SetPlan& plan = c.plan;
    int panels = 0, picked = 0;
    for (int sheet = 0; sheet <= plan.strips.back().sheet; ++sheet) {
      const PanelRange range = panels_on(plan, sheet);
      panels += range.count;
      CHECK(hardware(input, range).rows.at(0).at(1) == std::to_string(range.count));
      for (const auto& row : picks(input, range).rows) {
        const std::size_t to = row[0].find(" to ");
        picked += to == std::string::npos
                      ? 1
                      : std::stoi(row[0].substr(to + 4)) - std::stoi(row[0].substr(0, to)) + 1;
      }
    }
    CHECK(panels == static_cast<int>(c.deck.panels.size()));
    CHECK(picked == panels);
  });
}

TEST_CASE(
    "erection sheets: the typical section once, a scale bar on every sheet, the details named") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    int sections = 0;
    std::map<std::string, int> bars;
    for_items<paper::GroupStart>(sheets, [&](const paper::Sheet& sheet, const auto& g) {
      sections += g.id == "typical-section" ? 1 : 0;
      bars[sheet.number] += g.kind == "scale-bar" ? 1 : 0;
    });
    CHECK(sections == 1);
    for (int i = 0; i < plan.strip_sheets(); ++i)
      CHECK(bars[sheets[static_cast<std::size_t>(i)].number] >= 1);
    for (Detail d : {Detail::joint, Detail::end_joint, Detail::recess, Detail::scupper}) {
      const DetailRef* ref = plan.find(d);
      if (ref == nullptr) continue;
      std::string words;  // of a sentence that may be broken into lines
      bool named = false;
      for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
        named = named || t.text == ref->sheet;
        words += t.text + " ";
      });
      CHECK_MESSAGE((named || words.find("on " + ref->sheet) != std::string::npos), ref->title);
    }
  });
}

TEST_CASE("erection sheets: all that they say stands on them, or on a sheet that they refer to") {
  const std::pair<ErectionWords, std::string> headings[] = {
      {ErectionWords::order, "ORDER"},
      {ErectionWords::setting, "SETTING"},
      {ErectionWords::picks, "PICKS"},
      {ErectionWords::hardware, "HARDWARE ON THIS SHEET"},
      {ErectionWords::signs, "ON THIS SHEET"}};
  int moved_in_all = 0;
  for_every_case([&](const Case& c) {
    const auto count = [](const paper::Sheet& sheet, const std::string& text) {
      int seen = 0;
      for_items<paper::Text>({sheet},
                             [&](const auto&, const paper::Text& t) { seen += t.text == text; });
      return seen;
    };
    const auto elsewhere = [&](const std::string& text) {
      int seen = 0;
      for (std::size_t i = c.plan.strip_sheets(); i < c.sheets.size(); ++i)
        seen += count(c.sheets[i], text);
      return seen;
    };
    for (int i = 0; i < c.plan.strip_sheets(); ++i) {
      const paper::Sheet& sheet = c.sheets[static_cast<std::size_t>(i)];
      std::string all;
      for_items<paper::Text>({sheet},
                             [&](const auto&, const paper::Text& t) { all += t.text + " "; });
      for (const auto& [words, heading] : headings) {
        const auto found = std::find_if(
            c.plan.moved.begin(), c.plan.moved.end(),
            [&, w = words](const MovedWords& m) { return m.sheet == i && m.words == w; });
        const bool moved = found != c.plan.moved.end();
        moved_in_all += moved ? 1 : 0;
        // A long table may be parted, its heading repeated.
        CHECK_MESSAGE((count(sheet, heading) == 0) == moved, sheet.number << " " << heading);
        if (!moved) continue;
        const std::size_t at = all.find("Read with E");
        REQUIRE(at != std::string::npos);
        CHECK(all.find(words_name(words), at) != std::string::npos);
        const bool hosted = found->host >= 0;
        const std::string there =
            words == ErectionWords::setting ? "SETTING"
            : words == ErectionWords::signs
                ? hosted ? "SIGNS OF " + sheet.number : "SIGNS OF THE ERECTION SHEETS"
            : words == ErectionWords::hardware ? "HARDWARE, " + sheet.number
                                               : heading + ", " + sheet.number;
        if (hosted) {
          const paper::Sheet& host = c.sheets[static_cast<std::size_t>(found->host)];
          CHECK(all.find("with " + host.number + ":", at - 5) != std::string::npos);
          CHECK_MESSAGE(count(host, there) > 0, there);
        } else {
          const bool together =
              words == ErectionWords::hardware && elsewhere("HARDWARE BY SHEET") > 0;
          CHECK_MESSAGE(elsewhere(together ? sheet.number : there) > 0, there);
        }
      }
    }
  });
  // On A3 alone, the paper of the sanitizers, all words find room.
  if (thorough) CHECK(moved_in_all > 0);
}

TEST_CASE("unrolled strips: say so, and show every element of the alignment with its figures") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    std::size_t said = 0;
    std::set<std::string> texts;
    for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
      said += t.text.find("UNROLLED ALONG THE ALIGNMENT") != std::string::npos ? 1 : 0;
      texts.insert(t.text);
    });
    if (c.bridge.alignment.straight()) {
      CHECK(said == 0);
      return;
    }
    CHECK(said == plan.strips.size());
    for (const ElementData& e : element_data(c.bridge.alignment)) {
      CHECK(texts.count(element_text(e, c.project.units)) == 1);
      CHECK(texts.count(print_station(mm(e.from), c.project.units)) +
                (e.from <= c.bridge.alignment.from().in_mm() ? 1 : 0) >=
            1);
    }
  });
}

TEST_CASE(
    "a thousand panels: cover and erection sheets fit to print, every strip between two joints") {
  if (!thorough) return;
  const std::string file = DECKQUIRE_SOURCE "/projects/causeway.xml";
  const Case c(file, read_file(file), "a1");
  const SetPlan& plan = c.plan;
  const auto check = [&](const paper::Sheet& sheet) {
    for (const std::string& fault :
         paper::faults(sheet, c.style.least_height, c.style.frame().grown(0.5)))
      FAIL_CHECK(fault);
  };
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    if (plan.sheets[i].series == 'G') check(draw_cover(c.input(), plan, i));
    const bool some = plan.sheets[i].subject % 10 == 0;
    if (plan.sheets[i].series == 'E' && some) check(draw_erection(c.input(), plan, i));
  }
  int panels = 0;
  for (const Strip& s : plan.strips) panels += s.count;
  CHECK(panels == static_cast<int>(c.deck.panels.size()));
}
