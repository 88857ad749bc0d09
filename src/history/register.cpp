#include "history/register.h"

#include <algorithm>
#include <map>

namespace deckquire::history {
namespace {

/// Serials in the order in which they were first given.
class Lives {
 public:
  PanelLife& of(const std::string& serial) {
    const auto [at, fresh] = places_.try_emplace(serial, list.size());
    if (fresh) list.push_back({});
    PanelLife& life = list[at->second];
    life.serial = serial;
    return life;
  }

  void add(const Issue& issue) {
    for (PanelLife& life : list) life.position = 0;
    for (const IssuedPosition& p : issue.positions) {
      PanelLife& life = of(p.serial);
      life.mark = p.mark;
      life.position = p.position;
    }
  }

  void add(const BuiltPanel& built) {
    PanelLife& life = of(built.serial);
    life.stage = built.stage;
    life.revision = built.revision;
    life.events.push_back(built);
  }

  void add(const VoidedSerial& gone) {
    PanelLife& life = of(gone.serial);
    life.voided = true;
    life.position = 0;
    life.replaced_by = gone.replaced_by;
    life.reason = gone.reason;
  }

  std::vector<PanelLife> list;

 private:
  std::map<std::string, std::size_t> places_;
};

}  // namespace

const Issue* Register::find(const std::string& revision) const {
  for (const Entry& e : entries)
    if (e.issue && e.issue->revision == revision) return &*e.issue;
  return nullptr;
}

const Issue* Register::last_issue() const {
  for (auto e = entries.rbegin(); e != entries.rend(); ++e)
    if (e->issue) return &*e->issue;
  return nullptr;
}

std::string Register::status(const std::string& revision) const {
  std::string status;
  for (const Entry& e : entries) {
    if (e.issue && e.issue->revision == revision) status = e.issue->status;
    if (e.status && e.status->revision == revision) status = e.status->status;
  }
  return status;
}

Register Register::before(const std::string& revision) const {
  const auto at = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) {
    return e.issue && e.issue->revision == revision;
  });
  return {{entries.begin(), at}};
}

std::vector<PanelLife> Register::lives() const {
  Lives lives;
  for (const Entry& e : entries) {
    if (e.issue) lives.add(*e.issue);
    for (const BuiltPanel& b : e.built) lives.add(b);
    for (const VoidedSerial& v : e.voided) lives.add(v);
  }
  return std::move(lives.list);
}

}  // namespace deckquire::history
