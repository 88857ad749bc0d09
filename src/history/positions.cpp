#include "history/positions.h"

#include <fmt/format.h>

#include <algorithm>

#include "history/identities.h"
#include "history/signature.h"

namespace deckquire::history {
namespace {

/// An old and a new stretch that share some length. In order of both; since neither list overlaps
/// itself, each pair goes on from the one before it in one of the two or in both.
struct Pair {
  std::size_t old, now;
  std::int64_t shared;  // nm
};

std::vector<Pair> pairs_of(const std::vector<Interval>& old, const std::vector<Interval>& now) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0, k = 0; i < old.size() && k < now.size();) {
    const Length shared = std::min(old[i].end, now[k].end) - std::max(old[i].start, now[k].start);
    if (shared > Length()) pairs.push_back({i, k, shared.in_nanometres()});
    old[i].end < now[k].end ? ++i : ++k;
  }
  return pairs;
}

/// The pair before `k` that shares no stretch with it; its own size: none.
std::size_t before(const std::vector<Pair>& pairs, std::size_t k) {
  std::size_t i = k;
  while (i > 0 && (pairs[i - 1].old == pairs[k].old || pairs[i - 1].now == pairs[k].now)) --i;
  return i > 0 ? i - 1 : pairs.size();
}

}  // namespace

std::vector<int> match_in_order(const std::vector<Interval>& old,
                                const std::vector<Interval>& now) {
  const std::vector<Pair> pairs = pairs_of(old, now);
  const std::size_t n = pairs.size();
  std::vector<std::int64_t> best(n);  // greatest sum with pairs up to this one
  std::vector<char> taken(n);
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t b = before(pairs, k);
    const std::int64_t with = pairs[k].shared + (b < n ? best[b] : 0);
    taken[k] = k == 0 || with > best[k - 1];
    best[k] = taken[k] ? with : best[k - 1];
  }
  std::vector<int> match(now.size(), -1);
  for (std::size_t k = n; k-- > 0;) {
    if (!taken[k]) continue;
    match[pairs[k].now] = static_cast<int>(pairs[k].old);
    const std::size_t b = before(pairs, k);
    if (b == n) break;
    k = b + 1;
  }
  return match;
}

int number_of(const std::string& name) {
  std::size_t from = name.size();
  while (from > 0 && name.size() - from < 9 && name[from - 1] >= '0' && name[from - 1] <= '9')
    --from;
  return from == name.size() ? 0 : std::stoi(name.substr(from));
}

std::vector<const IssuedPosition*> continued(const Deck& deck, const Issue& issue) {
  std::map<int, std::vector<const IssuedPosition*>> old;
  std::map<int, std::vector<std::size_t>> now;
  for (const IssuedPosition& p : issue.positions) old[p.row].push_back(&p);
  for (std::size_t i = 0; i < deck.panels.size(); ++i) now[deck.panels[i].row].push_back(i);
  std::vector<const IssuedPosition*> out(deck.panels.size());
  for (auto& [row, panels] : now) {
    auto& places = old[row];
    std::stable_sort(places.begin(), places.end(),
                     [](const auto* a, const auto* b) { return a->start < b->start; });
    std::vector<Interval> before, after;
    for (const IssuedPosition* p : places) before.push_back({p->start, p->end});
    for (std::size_t i : panels) after.push_back({deck.panels[i].start, deck.panels[i].end});
    const std::vector<int> match = match_in_order(before, after);
    for (std::size_t k = 0; k < panels.size(); ++k)
      if (match[k] >= 0) out[panels[k]] = places[static_cast<std::size_t>(match[k])];
  }
  return out;
}

Serials::Serials(const Project& project, const Register& issued) : project_(project) {
  for (const PanelLife& life : issued.lives()) given_.insert(life.serial);
}

std::string Serials::next(const std::string& mark) {
  const std::string beginning = serial_beginning(project_, mark);
  const auto [at, fresh] = highest_.try_emplace(beginning, 0);
  if (fresh)
    for (auto s = given_.lower_bound(beginning); s != given_.end() && s->starts_with(beginning); ++s)
      if (s->find_first_not_of("0123456789", beginning.size()) == std::string::npos)
        at->second = std::max(at->second, number_of(s->substr(beginning.size())));
  for (;;) {  // what another beginning gave may look the same: "A-1" and "A-" with 1001
    const auto [serial, is_new] = given_.insert(serial_name(beginning, ++at->second));
    if (is_new) return *serial;
  }
}

std::vector<VoidedSerial> voided_by(const Issue& now, const Register& before,
                                    const Project& project) {
  std::vector<VoidedSerial> out;
  const Issue* last = before.last_issue();
  if (last == nullptr) return out;
  std::map<int, const IssuedPosition*> places;
  std::set<std::string> used;
  for (const IssuedPosition& p : now.positions) {
    places[p.position] = &p;
    used.insert(p.serial);
  }
  for (const IssuedPosition& old : last->positions) {
    if (used.count(old.serial) > 0) continue;
    VoidedSerial v{old.serial, old.mark, now.revision, {}, {}};
    const auto place = places.find(old.position);
    if (place == places.end()) {
      v.reason = fmt::format("position {} is gone", old.position);
    } else {
      v.replaced_by = place->second->serial;
      v.reason = fmt::format("position {} needs {}", old.position, place->second->mark);
    }
    for (const Decision& d : project.decisions)
      if (d.on == old.serial && d.revision == now.revision) v.reason += "; " + d.text;
    out.push_back(std::move(v));
  }
  return out;
}

bool same_content(const Issue& a, const Issue& b) {
  const auto same_place = [](const IssuedPosition& p, const IssuedPosition& q) {
    return p.position == q.position && p.mark == q.mark && p.serial == q.serial &&
           p.turned == q.turned && p.row == q.row && p.start == q.start && p.end == q.end;
  };
  const auto same_mark = [](const IssuedMark& m, const IssuedMark& n) {
    return m.name == n.name && same_part(m.signature, n.signature);
  };
  return std::equal(a.positions.begin(), a.positions.end(), b.positions.begin(),
                    b.positions.end(), same_place) &&
         std::equal(a.marks.begin(), a.marks.end(), b.marks.begin(), b.marks.end(), same_mark);
}

int highest_position(const Register& issued) {
  int highest = 0;
  for (const Entry& e : issued.entries)
    if (e.issue)
      for (const IssuedPosition& p : e.issue->positions) highest = std::max(highest, p.position);
  return highest;
}

}  // namespace deckquire::history
