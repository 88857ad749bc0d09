#include "history/issued_marks.h"

#include <algorithm>

#include "history/identities.h"

namespace deckquire::history {

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
    for (const Facts& f : all_[i].drawings) {
      auto& same_kind = kinds_[kind_of(f)];
      if (same_kind.empty() || same_kind.back() != static_cast<int>(i))
        same_kind.push_back(static_cast<int>(i));
    }
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
  for (int i : same_kind->second)
    if (means(i, facts)) return {i, false, same_part(known(i).drawings.front(), facts)};
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
