#include "checks/reckoning.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.h"

namespace deckquire {

using workings::Origin;

Inputs& Inputs::project(const char* symbol, double si, const Place& place, std::string source) {
  if (source == "not stated") source = "source not stated";
  values[symbol] = {si, "", {Origin::From::project, std::move(source), place}};
  return *this;
}

Inputs& Inputs::computed(const char* symbol, double si, std::string words) {
  // As it is printed, so that whoever follows the steps by hand has the number that was used.
  const double digits = si == 0 ? 0 : 6 - std::floor(std::log10(std::abs(si)));
  const double scale = std::pow(10.0, std::abs(digits));
  if (digits >= 0)
    si = std::round(si * scale) / scale;
  else
    si = std::round(si / scale) * scale;
  values[symbol] = {si, "", {Origin::From::computed, std::move(words), {}}};
  return *this;
}

Inputs& Inputs::computed_text(const char* symbol, std::string text, std::string words) {
  values[symbol] = {0, std::move(text), {Origin::From::computed, std::move(words), {}}};
  return *this;
}

Inputs& Inputs::choice(const char* symbol, std::string text, std::string words) {
  return computed_text(symbol, std::move(text), std::move(words));
}

std::optional<std::size_t> add_working(const CalculationJob& job, Topic topic, const char* kind,
                                       const Inputs& inputs, const Subject& subject) {
  const workings::WorkingKind& k = *workings::find_working(kind);
  try {
    Calculation c;
    c.topic = topic;
    c.on = subject.on;
    c.marks = subject.marks;
    c.joints = subject.joints;
    c.place = subject.place;
    c.working = workings::reckon(k, inputs.values);
    job.out.list.push_back(std::move(c));
    return job.out.list.size() - 1;
  } catch (const workings::WorkingError& e) {
    job.not_checked(topic, k.title + (subject.on.empty() ? "" : ", " + subject.on),
                    std::string("values that make sense: ") + e.what());
    return std::nullopt;
  }
}

void print_governing(const CalculationJob& job, Topic topic, const std::vector<Bundle>& bundles) {
  auto& list = job.out.list;
  std::map<std::string, std::pair<double, std::size_t>> worst;
  std::set<std::size_t> full;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].topic != topic) continue;
    list[i].in_full = false;
    const workings::Working& w = list[i].working;
    for (const workings::Verdict& v : w.verdicts) {
      const auto [at, fresh] = worst.try_emplace(v.words, v.ratio(), i);
      if (!fresh && v.ratio() > at->second.first) at->second = {v.ratio(), i};
    }
    const bool fails = std::any_of(w.limits.begin(), w.limits.end(),
                                   [](const workings::Limit& l) { return !l.kept; });
    if (fails || w.verdicts.empty()) full.insert(i);
  }
  for (const auto& [words, at] : worst) full.insert(at.second);
  std::set<std::size_t> bundled;
  for (const Bundle& b : bundles) {
    // What has no verdict of its own is printed with those that take its results, or not at all.
    const bool printed = std::any_of(b.begin(), b.end(), [&](std::size_t i) {
      return full.count(i) != 0 && !list[i].working.verdicts.empty();
    });
    for (std::size_t i : b) {
      if (printed)
        bundled.insert(i);
      else if (list[i].working.verdicts.empty() && list[i].working.kept())
        full.erase(i);
    }
  }
  full.insert(bundled.begin(), bundled.end());
  for (std::size_t i : full) list[i].in_full = true;
}

void rename_verdicts(workings::Working& w, const std::string& from, const std::string& to) {
  std::vector<workings::Verdict> kept;
  std::optional<std::size_t> renamed;
  for (workings::Verdict& v : w.verdicts) {
    if (v.words.compare(0, from.size(), from) != 0) {
      kept.push_back(std::move(v));
      continue;
    }
    v.words = to;
    if (!renamed) {
      renamed = kept.size();
      kept.push_back(std::move(v));
    } else if (v.ratio() > kept[*renamed].ratio()) {
      kept[*renamed] = std::move(v);
    }
  }
  w.verdicts = std::move(kept);
}

std::string in_list(double v) {
  return shortest_decimal(v, 3);
}

std::string names_of(const Deck& deck, const std::vector<int>& marks) {
  constexpr std::size_t many = 6;
  const auto name = [&](std::size_t i) { return deck.marks[static_cast<std::size_t>(marks[i])].name; };
  if (marks.empty()) return "";
  if (marks.size() > many) return fmt::format("{} and {} more", name(0), marks.size() - 1);
  std::string all = name(0);
  for (std::size_t i = 1; i < marks.size(); ++i) all += (i + 1 == marks.size() ? " and " : ", ") + name(i);
  return all;
}

}  // namespace deckquire
