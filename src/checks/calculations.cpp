#include "checks/calculations.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "checks/topics.h"

namespace deckquire {
namespace {

std::string printed(double si, const workings::Unit& unit) {
  const std::string number = workings::print_in(si, unit);
  return unit.label.empty() ? number : fmt::format("{} {}", number, unit.label);
}

void number(Calculations& all) {
  int count[topic_count] = {};
  for (Calculation& c : all.list) {
    const int topic = static_cast<int>(c.topic);
    c.number = fmt::format("C{}.{}", topic + 1, ++count[topic]);
  }
}

/// The worst of all verdicts with the same words.
void summarise(Calculations& all) {
  std::map<std::pair<Topic, std::string>, std::size_t> lines;
  for (std::size_t i = 0; i < all.list.size(); ++i) {
    const Calculation& c = all.list[i];
    for (const workings::Verdict& v : c.working.verdicts) {
      const auto [at, fresh] = lines.try_emplace(std::pair{c.topic, v.words}, all.summary.size());
      if (fresh) all.summary.push_back({c.topic, v.words, "", "", "", -1, true, 0, 0});
      CheckLine& line = all.summary[at->second];
      ++line.count;
      line.kept = line.kept && v.kept();
      if (v.ratio() <= line.ratio) continue;
      line.ratio = v.ratio();
      line.on = c.on;
      line.demand = printed(v.demand, v.unit);
      line.capacity = printed(v.capacity, v.unit);
      line.worst = i;
    }
  }
}

/// Of all calculations that break the same limit one finding, with the first.
void report_limits(const Calculations& all, Findings& findings) {
  struct Broken {
    const Calculation* first;
    const workings::Limit* limit;
    int count;
  };
  std::vector<Broken> broken;
  for (const Calculation& c : all.list)
    for (const workings::Limit& l : c.working.limits) {
      if (l.kept) continue;
      const auto same = std::find_if(broken.begin(), broken.end(), [&](const Broken& b) {
        return b.first->topic == c.topic && b.limit->words == l.words;
      });
      if (same == broken.end())
        broken.push_back({&c, &l, 1});
      else
        ++same->count;
    }
  for (const Broken& b : broken)
    findings.error(
        b.first->place, fmt::format("{}-limit", topic_code(b.first->topic)),
        fmt::format("{}{}{}: not so: {}", b.first->working.title,
                    b.first->on.empty() ? "" : ", " + b.first->on,
                    b.count > 1 ? fmt::format(" and {} more", b.count - 1) : "", b.limit->words),
        b.limit->otherwise);
}

/// One for all that fail the same verdict, and one a limit that is not kept.
void report(const Calculations& all, Findings& findings) {
  for (const CheckLine& line : all.summary) {
    if (line.kept) continue;
    const Calculation& c = all.list[line.worst];
    std::size_t failing = 0;
    for (const Calculation& other : all.list)
      if (other.topic == line.topic)
        failing += static_cast<std::size_t>(std::count_if(
            other.working.verdicts.begin(), other.working.verdicts.end(),
            [&](const workings::Verdict& v) { return v.words == line.what && !v.kept(); }));
    findings.error(
        c.place, fmt::format("{}-fails", topic_code(line.topic)),
        fmt::format("{}{}: {} against {}, ratio {}{}", line.what,
                    line.on.empty() ? "" : ", " + line.on, line.demand, line.capacity,
                    decimal(line.ratio, 2),
                    failing > 1 ? fmt::format(", the worst of {}", failing) : ""),
        fmt::format("change the deck or the value; the steps are calculation {}", c.number));
  }
  report_limits(all, findings);
}

}  // namespace

const char* topic_name(Topic topic) {
  switch (topic) {
    case Topic::drainage:
      return "drainage";
    case Topic::strength:
      return "strength and deflection of panels";
    case Topic::posts:
      return "rail posts and their anchorage";
    case Topic::hold_down:
      return "uplift and hold-downs";
    case Topic::movement:
      return "movement of joints";
    case Topic::lifting:
      return "lifting";
  }
  return "";
}

const char* topic_code(Topic topic) {
  const char* const codes[topic_count] = {"drainage",  "strength", "post",
                                          "hold-down", "movement", "lifting"};
  return codes[static_cast<int>(topic)];
}

bool Calculations::kept() const {
  return std::all_of(list.begin(), list.end(),
                     [](const Calculation& c) { return c.working.kept(); });
}

void number_and_summarise(Calculations& all) {
  number(all);
  summarise(all);
}

Calculations calculate(const Project& project, const Bridge& bridge, const Deck& deck,
                       Findings& findings) {
  Calculations out;
  const CalculationJob job{project, bridge, deck, out};
  calculate_drainage(job);
  calculate_strength(job);
  calculate_posts(job);
  calculate_hold_down(job);
  calculate_movement(job);
  calculate_lifting(job);
  number_and_summarise(out);
  report(out, findings);
  return out;
}

}  // namespace deckquire
