// The order of setting of real decks: what the project says, followed or refused.
#include "schedules/setting_order.h"

#include "deck/trial.h"

using namespace trial;

namespace {

/// Positions in the order of setting of quickstart (eight or nine panels in a span) or saltmarsh.
std::vector<int> positions(const Project& p, const Deck& deck, Findings& findings) {
  std::vector<int> out;
  for (int i : setting_order(p, deck, findings)) out.push_back(deck.panels[static_cast<std::size_t>(i)].position);
  return out;
}

NextData next_panel(int position) { return {position, "", {}}; }
NextData next_span(const std::string& name) { return {std::nullopt, name, {}}; }

struct OrderCase {
  Project project = example("saltmarsh");
  Built built;
  Findings findings;
  ErectionData& data = project.conditions.erection;
  OrderCase() : built(build(project)) { data = {}; }
  std::vector<int> order() { return positions(project, built.deck, findings); }
  int count() const { return static_cast<int>(built.deck.panels.size()); }
  const SpanRun& span(std::size_t i) const { return built.deck.spans[i]; }
};

}  // namespace

TEST_CASE("setting order: given panels and spans come as named, the rest follows from the start") {
  OrderCase c;
  c.data.way = ErectionWay::given;
  c.data.nexts = {next_panel(30), next_span("2"), next_panel(2)};
  const auto order = c.order();
  CHECK(c.findings.empty());
  REQUIRE(static_cast<int>(order.size()) == c.count());
  CHECK(order[0] == 30);
  CHECK(order[1] == c.span(1).first + 1);
  CHECK(order[static_cast<std::size_t>(c.span(1).count)] == c.span(1).first + c.span(1).count);
  CHECK(order[static_cast<std::size_t>(c.span(1).count) + 1] == 2);
  CHECK(order[static_cast<std::size_t>(c.span(1).count) + 2] == 1);
  CHECK(order[static_cast<std::size_t>(c.span(1).count) + 3] == 3);
  CHECK(order.back() == c.count());
  auto sorted = order;
  std::sort(sorted.begin(), sorted.end());
  for (int i = 0; i < c.count(); ++i) CHECK(sorted[static_cast<std::size_t>(i)] == i + 1);
}

TEST_CASE("setting order: a span takes its panels that were not named before") {
  OrderCase c;
  c.data.way = ErectionWay::given;
  c.data.nexts = {next_panel(3), next_span("1")};
  const auto order = c.order();
  CHECK(c.findings.empty());
  CHECK(std::vector<int>(order.begin(), order.begin() + 4) == std::vector<int>{3, 1, 2, 4});
}

TEST_CASE("setting order: what is blocked comes last, in plain order; what waits comes after") {
  OrderCase c;
  c.data.blocked = {{7, "mast", {}}, {5, "pipe", {}}};
  c.data.waits = {{1, 3, {}}, {7, 5, {}}};
  const auto order = c.order();
  CHECK(c.findings.empty());
  CHECK(std::vector<int>(order.begin(), order.begin() + 4) == std::vector<int>{2, 3, 1, 4});
  CHECK(std::vector<int>(order.end() - 2, order.end()) == std::vector<int>{5, 7});
  const auto why = setting_reasons(c.project, c.built.deck);
  CHECK(why[0] == "waits for 3");
  CHECK(why[4] == "blocked: pipe");
  CHECK(why[6] == "waits for 5; blocked: mast");
  const Table t = sequence_table(c.project, c.built.deck);
  CHECK(t.on_sheet);
  CHECK(std::get<std::int64_t>(t.rows[2][1]) == 1);
  CHECK(std::get<std::string>(t.rows[2].back()) == "waits for 3");
}

TEST_CASE("setting order: one message a cause, and the rest of the order is kept") {
  struct Fault {
    std::vector<NextData> nexts;
    std::vector<WaitData> waits;
    std::vector<BlockedData> blocked;
    std::string codes;
  };
  const Fault faults[] = {
      {{next_panel(99)}, {}, {}, "no-such-position"},
      {{next_span("9")}, {}, {}, "no-such-span"},
      {{next_panel(2), next_panel(2)}, {}, {}, "set-twice"},
      {{next_span("1"), next_panel(2)}, {}, {}, "set-twice"},
      {{next_span("1"), next_span("1")}, {}, {}, "set-twice"},
      {{}, {{1, 99, {}}}, {}, "no-such-position"},
      {{}, {}, {{99, "x", {}}}, "no-such-position"},
      {{}, {{1, 2, {}}}, {{2, "x", {}}}, "blocked-but-needed"},
      {{}, {{1, 2, {}}, {2, 1, {}}}, {}, "waits-in-a-circle"},
      {{}, {}, {{2, "x", {}}, {2, "y", {}}}, "set-twice"}};
  for (const Fault& f : faults) {
    OrderCase c;
    c.data.way = ErectionWay::given;
    c.data.nexts = f.nexts, c.data.waits = f.waits, c.data.blocked = f.blocked;
    const auto order = c.order();
    CHECK(codes(c.findings) == f.codes);
    CHECK(static_cast<int>(order.size()) == c.count());
  }
  OrderCase c;
  c.data.nexts = {next_panel(2)};
  const auto order = c.order();
  CHECK(codes(c.findings) == "next-not-read");
  CHECK(sets_as_they_stand(order));
}
