// Cases T1, T2, T5 and T6 are those of the algorithms reference, part 2 (T4: tests/deck/typing_test;
// T3, a hash, is not used: signatures are compared themselves).
#include "history/identities.h"

#include <map>
#include <set>

#include "deck/trial.h"
#include "history/sample.h"
#include "history/signature.h"
#include "support/dice.h"

using namespace sample;

TEST_CASE("identities: without an issue a deck keeps all its names") {
  const Project p = project();
  Deck d = deck(p, "abba"), same = d;
  Findings findings;
  keep_identities(d, p, {}, {}, findings);
  CHECK(marks(d) == marks(same));
  CHECK(findings.empty());
}

TEST_CASE("identities: marks and serials over two revisions (case T5)") {
  const Project p = project();
  Register r;
  Deck d = deck(p, "abbccbba");
  issue(r, p, d, "A");
  CHECK(marks(d) == "P01 P02 P02 P03 P03 P02 P02 P01");
  CHECK(d.panels[3].serial == "P03-001");
  d = deck(p, "abbdcefa");
  issue(r, p, d, "B");
  CHECK(marks(d) == "P01 P02 P02 P04 P03 P05 P06 P01");
  CHECK(d.panels[3].serial == "P04-001");
  CHECK(voided(r.entries.back()) == "P03-001 P02-003 P02-004");
  d = deck(p, "gbbccefa");
  issue(r, p, d, "C");
  CHECK(marks(d) == "P07 P02 P02 P03 P03 P05 P06 P01");
  CHECK(d.panels[3].serial == "P03-003");
}

TEST_CASE("identities: serials of the whole job run on and are never given again") {
  const Project p = project("DP", "0417-");
  Register r;
  Deck d = deck(p, "aba");
  issue(r, p, d, "A");
  CHECK(d.panels[2].serial == "0417-003");
  d = deck(p, "aca");
  issue(r, p, d, "B");
  CHECK(d.panels[1].serial == "0417-004");
  d = deck(p, "aba");
  issue(r, p, d, "C");
  CHECK(marks(d) == "DP01 DP02 DP01");  // the old mark comes back, the old serial does not
  CHECK(d.panels[1].serial == "0417-005");
  CHECK(r.entries[2].voided[0].replaced_by == "0417-005");
  CHECK(r.entries[2].voided[0].reason == "position 2 needs DP02");
}

TEST_CASE("identities: a new prefix names new marks only, and counts on") {
  Register r;
  Project p = project("DP", "0417-");
  Deck d = deck(p, "ab");
  issue(r, p, d, "A");
  p.deck.marks.prefix = "FP";
  d = deck(p, "abc");
  issue(r, p, d, "B");
  CHECK(marks(d) == "DP01 DP02 FP03");
}

TEST_CASE("identities: places continue in order, with the most length shared (case T6)") {
  std::vector<Interval> old, now;
  for (int i = 0; i < 3; ++i) old.push_back({mm(2500) * i, mm(2500) * (i + 1)});
  for (int i = 0; i < 5; ++i) now.push_back({mm(1500) * i, mm(1500) * (i + 1)});
  CHECK(match_in_order(old, now) == std::vector<int>{0, -1, 1, -1, 2});
}

namespace {

/// Every order-preserving matching, tried one by one.
std::int64_t best_of_all(const std::vector<Interval>& old, const std::vector<Interval>& now,
                         std::size_t i, std::size_t k) {
  if (i == old.size() || k == now.size()) return 0;
  const Length shared = std::min(old[i].end, now[k].end) - std::max(old[i].start, now[k].start);
  std::int64_t best = std::max(best_of_all(old, now, i + 1, k), best_of_all(old, now, i, k + 1));
  if (shared > Length())
    best = std::max(best, shared.in_nanometres() + best_of_all(old, now, i + 1, k + 1));
  return best;
}

std::vector<Interval> row(testing::Dice& dice) {
  std::vector<Interval> out;
  Length at = mm(dice.upto(2000));
  for (int n = dice.upto(7); n > 0; --n) {
    const Length end = at + mm(300 + dice.upto(2500));
    out.push_back({at, end});
    at = end + mm(dice.upto(3) * 12);
  }
  return out;
}

}  // namespace

TEST_CASE("identities: no matching in order shares more than the one found") {
  testing::Dice dice{7};
  for (int round = 0; round < 300; ++round) {
    const auto old = row(dice), now = row(dice);
    const std::vector<int> match = match_in_order(old, now);
    std::int64_t shared = 0;
    int last = -1;
    for (std::size_t k = 0; k < now.size(); ++k) {
      if (match[k] < 0) continue;
      CHECK(match[k] > last);
      last = match[k];
      const Interval& o = old[static_cast<std::size_t>(last)];
      const Length l = std::min(o.end, now[k].end) - std::max(o.start, now[k].start);
      CHECK(l > Length());
      shared += l.in_nanometres();
    }
    CHECK(shared == best_of_all(old, now, 0, 0));
  }
}

TEST_CASE("identities: positions keep their numbers when panels come and go before them") {
  const Project p = project("DP", "0417-");
  Register r;
  std::vector<PanelShape> shapes{shape(2000), shape(2000), shape(2010)};
  Deck d = deck(p, shapes, {mm(0), mm(3000), mm(6000)});
  issue(r, p, d, "A");
  shapes.insert(shapes.begin(), shape(2020));
  d = deck(p, shapes, {mm(-3000), mm(0), mm(3000), mm(6000)});
  issue(r, p, d, "B");
  CHECK(d.panels[0].position == 4);
  CHECK(d.panels[1].position == 1);
  CHECK(d.panels[3].position == 3);
  CHECK(d.panels[3].serial == "0417-003");
  shapes.erase(shapes.begin() + 1);
  d = deck(p, shapes, {mm(-3000), mm(3000), mm(6000)});
  issue(r, p, d, "C");
  CHECK(d.panels[1].position == 2);
  CHECK(voided(r.entries[2]) == "0417-001");
  CHECK(r.entries[2].voided[0].reason == "position 1 is gone");
  CHECK(r.entries[2].voided[0].replaced_by.empty());
}

TEST_CASE("identities: a panel turned to its issued drawing stays turned, whoever comes first") {
  const Project p = project();
  PanelShape skew = shape(2000);  // notched at its back right corner: has a direction
  skew.outline = {{200, -1500}, {2000, -1500}, {2000, 1500}, {0, 1500}, {0, -1300}, {200, -1300}};
  Register r;
  Deck d = deck(p, {skew, half_turn(skew)}, {mm(0), mm(3000)});
  issue(r, p, d, "A");
  CHECK(!d.panels[0].turned);
  CHECK(d.panels[1].turned);
  d = deck(p, {half_turn(skew), skew, half_turn(skew)}, {mm(-3000), mm(0), mm(3000)});
  CHECK(!d.panels[0].turned);  // the deck by itself draws the first as it lies
  issue(r, p, d, "B");
  CHECK(marks(d) == "P01 P01 P01");
  CHECK(d.panels[0].turned);
  CHECK(!d.panels[1].turned);
  CHECK(d.panels[2].turned);
  CHECK(same_part(r.entries[0].issue->marks[0].signature, r.entries[1].issue->marks[0].signature));
}

TEST_CASE("identities: the opposite hand is a mark of its own that names the other (cases T1, T2)") {
  const Project p = project();
  PanelShape hand = shape(2480);
  hand.outline = {{0, -1500}, {2480, -1500}, {2480, 1300}, {2280, 1300}, {2280, 1500}, {0, 1500}};
  Register r;
  Deck d = deck(p, {hand}, {mm(0)});
  issue(r, p, d, "A");
  d = deck(p, {mirror(hand), hand, half_turn(mirror(hand))}, {mm(-3000), mm(0), mm(3000)});
  issue(r, p, d, "B");
  CHECK(marks(d) == "P02 P01 P02");
  CHECK(d.marks[1].opposite_of == 0);
  CHECK(d.marks[0].opposite_of == -1);
  CHECK(r.entries[1].issue->marks[1].opposite_of == "P01");
  // With a fall to one side a mirror image is another part, and so is what was turned before.
  PanelShape falls = hand;
  falls.fall = Fall::left;
  falls.slope = 0.02;
  d = deck(p, {falls, hand, half_turn(falls)}, {mm(-3000), mm(0), mm(3000)});
  issue(r, p, d, "C");
  CHECK(marks(d) == "P03 P01 P03");
  CHECK(d.panels[2].turned);
}

TEST_CASE("identities: what is within the tolerance keeps its mark when the first of it goes") {
  const Project p = project();
  Register r;
  Deck d = deck(p, {shape(2000), shape(2000.4), shape(2000.8)}, {mm(0), mm(3000), mm(6000)});
  issue(r, p, d, "A");
  CHECK(marks(d) == "P01 P01 P01");
  CHECK(r.entries[0].issue->marks[0].variants.size() == 2);
  d = deck(p, {shape(2000.4), shape(2000.8)}, {mm(3000), mm(6000)});
  issue(r, p, d, "B");
  CHECK(marks(d) == "P01 P01");
  // A panel that was not issued is another part, though it would do: its drawing would change.
  d = deck(p, {shape(2000.5)}, {mm(3000)});
  issue(r, p, d, "C");
  CHECK(marks(d) == "P02");
  // Beside one that was issued it shares the drawing, as everywhere in the project.
  d = deck(p, {shape(2000.2), shape(2000)}, {mm(0), mm(3000)});
  issue(r, p, d, "D");
  CHECK(marks(d) == "P01 P01");
}

TEST_CASE("identities: serials count by mark where the project says so, from the first build on") {
  Project p = trial::example("quickstart");
  p.deck.marks.serial = "J-{mark}-";
  const trial::Built built = trial::build(p);
  CHECK(built.deck.panels[0].serial == "J-DP01-001");
  CHECK(built.deck.panels[1].serial == "J-DP02-001");
  CHECK(built.deck.panels[2].serial == "J-DP02-002");
  CHECK(numbered_in_order(trial::build(trial::example("quickstart")).deck));
  CHECK(!numbered_in_order(built.deck));  // serials do not run by position
}

TEST_CASE("identities: what sheets say of positions is true when numbers do not run on") {
  const Project p = project("DP", "0417-");
  Register r;
  Deck d = deck(p, "aaab");
  issue(r, p, d, "A");
  CHECK(positions_in_order(d, 0, 4) == "1 TO 4");
  CHECK(positions_in_order(d, 2, 1) == "3");
  CHECK(counts_on(d.panels[0], d.panels[1]));
  CHECK(numbered_in_order(d));
  std::vector<PanelShape> shapes{shape(2000), shape(1000), shape(1000), shape(2000), shape(2010)};
  d = deck(p, shapes, {mm(0), mm(3000), mm(4012), mm(6000), mm(9000)});
  issue(r, p, d, "B");
  CHECK(positions_in_order(d, 0, 5) == "1 TO 2, 5, 3 TO 4");
  CHECK(!counts_on(d.panels[0], d.panels[1]));  // position 2 has a new panel
  CHECK(d.panels[1].serial == "0417-005");
  CHECK(d.panels[2].serial == "0417-006");
  CHECK(!numbered_in_order(d));
}

namespace {

/// A deck that goes on from the last: kinds change, panels come and go.
void edit(testing::Dice& dice, std::vector<std::pair<int, double>>& panels) {
  for (int n = 1 + dice.upto(3); n > 0; --n) {
    const int what = dice.upto(4);
    const auto at = static_cast<std::size_t>(panels.empty() ? 0 : dice.upto(int(panels.size())));
    if (what == 0 && panels.size() < 12) {
      int slot = dice.upto(20);
      for (const auto& p : panels) slot = p.first == slot ? -1 : slot;
      if (slot >= 0) panels.push_back({slot, 2000 + 10 * dice.upto(6)});
      std::sort(panels.begin(), panels.end());
    } else if (what == 1 && panels.size() > 1) {
      panels.erase(panels.begin() + static_cast<std::ptrdiff_t>(at));
    } else if (!panels.empty()) {
      panels[at].second = 2000 + 10 * dice.upto(6) + 0.3 * dice.upto(3);
    }
  }
}

}  // namespace

TEST_CASE("identities: in random histories no mark has two meanings and no serial two panels") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    testing::Dice dice{seed};
    const Project p = project("DP", dice.upto(2) ? "0417-" : "{mark}-");
    Register r;
    std::vector<std::pair<int, double>> panels{{3, 2000}, {4, 2010}, {5, 2000}, {9, 2020}};
    std::map<std::string, std::vector<Facts>> meaning;
    std::map<std::string, std::pair<std::string, int>> given;  // serial -> mark, position
    std::map<int, int> slots;                                  // position -> slot
    std::set<std::string> gone;
    for (int issue_number = 0; issue_number < 9; ++issue_number) {
      if (issue_number > 0) edit(dice, panels);
      std::vector<PanelShape> shapes;
      std::vector<Length> starts;
      for (const auto& [slot, length] : panels) {
        shapes.push_back(shape(length));
        starts.push_back(mm(3000) * slot);
      }
      Deck d = deck(p, shapes, starts);
      issue(r, p, d, std::string(1, static_cast<char>('A' + issue_number)));
      CAPTURE(seed);
      CAPTURE(issue_number);
      for (const IssuedMark& m : r.entries.back().issue->marks) {
        // Its drawing is one that was issued under the name, or a panel that was.
        auto& known = meaning[m.name];
        const Facts now = facts_of(m.signature);
        const auto is_now = [&](const Facts& f) { return same_part(f, now); };
        CHECK((known.empty() || std::any_of(known.begin(), known.end(), is_now)));
        // And no other mark ever had it.
        for (const auto& [name, others] : meaning)
          if (name != m.name) CHECK(std::none_of(others.begin(), others.end(), is_now));
        known.push_back(now);
        for (const Signature& v : m.variants) known.push_back(facts_of(v));
      }
      std::set<int> positions;
      std::set<std::string> serials;
      for (std::size_t i = 0; i < d.panels.size(); ++i) {
        const Panel& panel = d.panels[i];
        const std::string& mark = d.marks[static_cast<std::size_t>(panel.mark)].name;
        CHECK(positions.insert(panel.position).second);
        CHECK(serials.insert(panel.serial).second);
        CHECK(gone.count(panel.serial) == 0);
        const auto [at, fresh] = given.try_emplace(panel.serial, mark, panel.position);
        CHECK(at->second == std::pair(mark, panel.position));
        const auto [slot, is_new] = slots.try_emplace(panel.position, panels[i].first);
        CHECK(slot->second == panels[i].first);
        // Every panel is within the tolerance of the drawing of its mark.
        CHECK(same_type(d.marks[static_cast<std::size_t>(panel.mark)].shape, panel.shape, mm(1)));
      }
      for (const VoidedSerial& v : r.entries.back().voided) CHECK(gone.insert(v.serial).second);
      for (const auto& [serial, of] : given) CHECK((serials.count(serial) + gone.count(serial)) == 1);
    }
  }
}
