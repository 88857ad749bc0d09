#include "schedules/setting_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "base/text.h"
#include "schedules/erection_order.h"

namespace deckquire {
namespace {

const Panel& set_panel(const Deck& deck, int i) { return deck.panels[static_cast<std::size_t>(i)]; }

/// What the project says about the order, against the panels that there are.
class OrderMaker {
 public:
  OrderMaker(const Project& project, const Deck& deck, Findings& findings)
      : data_(project.conditions.erection),
        deck_(deck),
        findings_(findings),
        blocked_(deck.panels.size(), nullptr) {
    for (std::size_t i = 0; i < deck.panels.size(); ++i)
      index_[deck.panels[i].position] = static_cast<int>(i);
  }

  std::vector<int> make() {
    std::vector<int> wished = data_.way == ErectionWay::given ? given() : by_bays();
    if (data_.way != ErectionWay::given && !data_.nexts.empty())
      findings_.error(data_.nexts.front().place, "next-not-read",
                      "what comes next is read only where the order is given",
                      "write order=\"given\" in erection, or take next away");
    take_blocked();
    std::stable_partition(wished.begin(), wished.end(), [&](int i) { return !is_blocked(i); });
    const ErectionOrder made = erection_order(wished, needs());
    if (made.cycle.empty()) return made.order;
    std::vector<std::string> words;
    for (std::size_t i = 0; i < made.cycle.size(); ++i)
      words.push_back(fmt::format("{} waits for {}", position(made.cycle[i]),
                                  position(made.cycle[(i + 1) % made.cycle.size()])));
    findings_.error(data_.place, "waits-in-a-circle", "panels wait for one another: " + join(words, ", "),
                    "take one of these waits away");
    return wished;
  }

 private:
  const ErectionData& data_;
  const Deck& deck_;
  Findings& findings_;
  std::map<int, int> index_;                 // by position
  std::vector<const BlockedData*> blocked_;  // by panel

  int position(int i) const { return set_panel(deck_, i).position; }
  bool is_blocked(int i) const { return blocked_[static_cast<std::size_t>(i)] != nullptr; }

  std::optional<int> panel_at_position(int position, const Place& place) {
    if (const auto at = index_.find(position); at != index_.end()) return at->second;
    findings_.error(place, "no-such-position", fmt::format("there is no panel at position {}", position),
                    "name a position of the table of panels");
    return std::nullopt;
  }

  void set_twice(const Place& place, const std::string& what) {
    findings_.error(place, "set-twice", what + " comes twice in the order of setting",
                    "leave one of the two out; a span takes only its panels that are not named before it");
  }

  /// Bays in the wished order, the rows of each from the left.
  std::vector<int> by_bays() const {
    std::map<int, std::vector<int>> bays;
    for (std::size_t i = 0; i < deck_.panels.size(); ++i)
      bays[deck_.panels[i].bay].push_back(static_cast<int>(i));
    std::vector<const std::vector<int>*> along, wished;
    for (const auto& [bay, panels] : bays) along.push_back(&panels);
    if (data_.way == ErectionWay::both_ends)
      for (int i : from_both_ends(static_cast<int>(along.size()))) wished.push_back(along[static_cast<std::size_t>(i)]);
    else
      wished = along;
    if (data_.way == ErectionWay::from_end) std::reverse(wished.begin(), wished.end());
    std::vector<int> order;
    for (const auto* bay : wished) order.insert(order.end(), bay->begin(), bay->end());
    return order;
  }

  std::vector<int> given() {
    std::vector<int> order;
    std::vector<char> named(deck_.panels.size(), 0);
    const auto take = [&](int i) {
      if (named[static_cast<std::size_t>(i)]) return false;
      named[static_cast<std::size_t>(i)] = 1;
      order.push_back(i);
      return true;
    };
    for (const NextData& next : data_.nexts) {
      if (!next.panel) {
        take_span(next, take);
        continue;
      }
      const auto i = panel_at_position(*next.panel, next.place);
      if (i && !take(*i)) set_twice(next.place, fmt::format("position {}", *next.panel));
    }
    for (std::size_t i = 0; i < named.size(); ++i) take(static_cast<int>(i));
    return order;
  }

  template <class Take>
  void take_span(const NextData& next, const Take& take) {
    const auto span = std::find_if(deck_.spans.begin(), deck_.spans.end(),
                                   [&](const SpanRun& s) { return s.name == next.span; });
    if (span == deck_.spans.end()) {
      std::vector<std::string> names;
      for (const SpanRun& s : deck_.spans) names.push_back(s.name);
      findings_.error(next.place, "no-such-span", fmt::format("there is no span '{}'", next.span),
                      "name one of " + join(names, ", "));
      return;
    }
    bool any = false;
    for (int i = span->first; i < span->first + span->count; ++i) any = take(i) || any;
    if (!any) set_twice(next.place, fmt::format("span {}", next.span));
  }

  void take_blocked() {
    for (const BlockedData& b : data_.blocked) {
      const auto i = panel_at_position(b.panel, b.place);
      if (!i) continue;
      if (is_blocked(*i))
        findings_.error(b.place, "set-twice", fmt::format("position {} is blocked twice", b.panel),
                        "say both reasons in one");
      blocked_[static_cast<std::size_t>(*i)] = &b;
    }
  }

  std::vector<Needs> needs() {
    std::vector<Needs> out;
    for (const WaitData& w : data_.waits) {
      const auto panel = panel_at_position(w.panel, w.place), before = panel_at_position(w.needs, w.place);
      if (!panel || !before) continue;
      if (is_blocked(*before) && !is_blocked(*panel)) {
        findings_.error(w.place, "blocked-but-needed",
                        fmt::format("position {} waits for {}, which is blocked and comes last ({})", w.panel,
                                    w.needs, blocked_[static_cast<std::size_t>(*before)]->why),
                        "block the one that waits too, or take the wait or the block away");
        continue;
      }
      out.push_back({*before, *panel});
    }
    return out;
  }
};

}  // namespace

std::vector<int> setting_order(const Project& project, const Deck& deck, Findings& findings) {
  return OrderMaker(project, deck, findings).make();
}

std::vector<std::string> setting_reasons(const Project& project, const Deck& deck) {
  std::map<int, std::vector<std::string>> words;  // by position
  std::map<int, std::vector<std::string>> waits;
  for (const WaitData& w : project.conditions.erection.waits)
    waits[w.panel].push_back(std::to_string(w.needs));
  for (const auto& [position, others] : waits) words[position].push_back("waits for " + join(others, ", "));
  for (const BlockedData& b : project.conditions.erection.blocked)
    words[b.panel].push_back("blocked: " + b.why);
  std::vector<std::string> out;
  for (const Panel& p : deck.panels) {
    const auto at = words.find(p.position);
    out.push_back(at == words.end() ? "" : join(at->second, "; "));
  }
  return out;
}

std::string setting_way(const Project& project, const Bridge& bridge) {
  const auto& supports = bridge.supports;
  const std::string first = supports.empty() ? "the start" : supports.front().name;
  const std::string last = supports.empty() ? "the end" : supports.back().name;
  switch (project.conditions.erection.way) {
    case ErectionWay::from_start:
      return fmt::format("from {} towards {}", first, last);
    case ErectionWay::from_end:
      return fmt::format("from {} back towards {}", last, first);
    case ErectionWay::both_ends:
      return fmt::format("from both ends, {} and {}, to the closing panel", first, last);
    case ErectionWay::given:
      return "in the order that the project gives";
  }
  return "";
}

bool sets_as_they_stand(const std::vector<int>& order) {
  return std::is_sorted(order.begin(), order.end());
}

Table sequence_table(const Project& project, const Deck& deck) {
  Findings said_by_check;
  const std::vector<int> order = setting_order(project, deck, said_by_check);
  const std::vector<std::string> reasons = setting_reasons(project, deck);
  Table t{"sequence",
          "ORDER OF SETTING",
          "One line a panel, as the crane takes them. A step waits until the one before is held down.",
          {{"step", "Step", Measure::count}, {"position", "Position", Measure::count},
           {"serial", "Serial", Measure::text}, {"mark", "Mark", Measure::text},
           {"turned", "Turned", Measure::text}, {"mass_kg", "Mass", Measure::mass},
           {"start_station_m", "Start station", Measure::station}, {"why", "Why", Measure::text}},
          {},
          {}};
  std::int64_t n = 0;
  for (int i : order) {
    const Panel& p = set_panel(deck, i);
    const Mark& m = deck.marks[static_cast<std::size_t>(p.mark)];
    t.rows.push_back({++n, std::int64_t{p.position}, p.serial, m.name, std::string(p.turned ? "yes" : "no"),
                      m.masses.total.in_si(), p.start, reasons[static_cast<std::size_t>(i)]});
  }
  t.on_sheet = !sets_as_they_stand(order);
  return t;
}

}  // namespace deckquire
