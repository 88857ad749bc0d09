#include "history/issued_marks.h"

#include <algorithm>

#include "history/identities.h"

namespace deckquire::history {
namespace {

struct Sum {
  double value = 0, reach = 0;  // equal parts differ by no more
};

Sum sum_of(const Facts& facts) {
  Sum sum;
  std::size_t numbers = 0;
  for (const Facts::Fact& f : facts.list) {
    numbers += f.numbers.size();
    for (double v : f.numbers) sum.value += v;
  }
  sum.reach = (signature_tolerance + 1e-6) * static_cast<double>(numbers);
  return sum;
}

}  // namespace

IssuedMarks::IssuedMarks(const Register& issued) {
  std::map<std::string, Known> by_name;
  for (const Entry& e : issued.entries) {
    if (!e.issue) continue;
    for (const IssuedMark& m : e.issue->marks) {
      const auto [at, fresh] = by_name.try_emplace(m.name);
      Known& known = at->second;
      if (fresh) known.drawings.push_back(facts_of(m.signature));
      known.mark = m;
      known.number = number_of(m.name);
      for (const Signature& v : m.variants) {
        Facts facts = facts_of(v);
        if (std::none_of(known.drawings.begin(), known.drawings.end(),
                         [&](const Facts& f) { return same_part(f, facts); }))
          known.drawings.push_back(std::move(facts));
      }
    }
  }
  for (auto& [name, known] : by_name) all_.push_back(std::move(known));
  std::stable_sort(all_.begin(), all_.end(),
                   [](const Known& a, const Known& b) { return a.number < b.number; });
  for (std::size_t i = 0; i < all_.size(); ++i) {
    names_[all_[i].mark.name] = static_cast<int>(i);
    highest_ = std::max(highest_, all_[i].number);
    for (const Facts& f : all_[i].drawings)
      kinds_[kind_of(f)].emplace(sum_of(f).value, static_cast<int>(i));
  }
}

bool IssuedMarks::means(int index, const Facts& facts) const {
  const auto& drawings = known(index).drawings;
  return std::any_of(drawings.begin(), drawings.end(),
                     [&](const Facts& f) { return same_part(f, facts); });
}

IssuedMarks::Fit IssuedMarks::find(const Facts& facts, int first) const {
  const auto same_kind = kinds_.find(kind_of(facts));
  if (same_kind == kinds_.end()) return {};
  if (first >= 0 && means(first, facts))
    return {first, false, same_part(known(first).drawings.front(), facts)};
  const Sum sum = sum_of(facts);
  const auto end = same_kind->second.upper_bound(sum.value + sum.reach);
  int lowest = -1;
  for (auto at = same_kind->second.lower_bound(sum.value - sum.reach); at != end; ++at)
    if ((lowest < 0 || at->second < lowest) && means(at->second, facts)) lowest = at->second;
  if (lowest >= 0) return {lowest, false, same_part(known(lowest).drawings.front(), facts)};
  return {};
}

IssuedMarks::Fit IssuedMarks::find(const PanelShape& shape, const Project& project,
                                   int first) const {
  if (shape.outline.empty()) return {};
  const Fit drawn = find(facts_of(signature_of(shape, project)), first);
  if (drawn.mark >= 0 && (first < 0 || drawn.mark == first)) return drawn;
  Fit turned = find(facts_of(signature_of(half_turn(shape), project)), first);
  turned.turned = true;
  if (turned.mark < 0 || (drawn.mark >= 0 && turned.mark != first)) return drawn;
  return turned;
}

int IssuedMarks::index(const std::string& name) const {
  const auto at = names_.find(name);
  return at == names_.end() ? -1 : at->second;
}

}  // namespace deckquire::history
