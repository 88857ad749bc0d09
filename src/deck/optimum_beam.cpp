// Labels walk from line to line; each knows the types it has used. For more than four types, and
// where the kind of a panel depends on its place.
#include <algorithm>
#include <bitset>
#include <map>

#include "deck/optimum_search.h"

namespace deckquire::optimum {
namespace {

constexpr std::size_t most_types = 256;

struct Label {
  std::bitset<most_types> used;
  int types = 0;
  Cost cost;
  int before = -1;  // label it came from
  std::size_t run = 0;
  Nm at = 0;
};

bool better(const Label& a, const Label& b) {
  return a.types != b.types ? a.types < b.types : a.cost < b.cost;
}

class Beam {
 public:
  Beam(const Task& task, const Pieces& pieces, const std::vector<Nm>& candidates)
      : task_(task), pieces_(pieces), candidates_(candidates) {}
  std::optional<Layout> search();

 private:
  using Front = std::map<Nm, std::vector<int>>;
  std::vector<int> walk(std::size_t run, const std::vector<int>& from);
  void step(const Piece& p, int label, Nm pitch, Front& front);
  void finish(const Piece& p, int label, std::vector<int>& done);
  int add(int before, Nm from, Nm to, bool twice);
  void keep(std::vector<int>& labels, int label) const;
  void thin(std::vector<int>& labels) const;
  std::optional<std::size_t> type_of(Nm from, Nm to);
  bool may_stand(Nm from, Nm to) const { return !task_.admissible || task_.admissible(from, to); }
  std::vector<std::vector<Nm>> lines(int label) const;
  Label& the(int i) { return all_[static_cast<std::size_t>(i)]; }
  const Label& the(int i) const { return all_[static_cast<std::size_t>(i)]; }

  const Task& task_;
  const Pieces& pieces_;
  const std::vector<Nm>& candidates_;
  std::vector<Label> all_;
  std::map<std::pair<Nm, int>, std::size_t> types_;
  std::size_t run_ = 0;
};

std::optional<std::size_t> Beam::type_of(Nm from, Nm to) {
  const auto key = std::pair(to - from, task_.kind ? task_.kind(from, to) : 0);
  const auto [at, fresh] = types_.try_emplace(key, types_.size());
  if (at->second < most_types) return at->second;
  return std::nullopt;
}

/// The label one panel further; `twice`: its mirror image stands in the other half too.
int Beam::add(int before, Nm from, Nm to, bool twice) {
  const Run& run = task_.runs[run_];
  const auto type = type_of(from, to);
  if (!type) return -1;
  Label l = the(before);
  l.before = before;
  l.run = run_;
  l.at = to - run.from;
  l.types += l.used.test(*type) ? 0 : 1;
  l.used.set(*type);
  if (twice && task_.kind) {
    const auto other = type_of(run.to - (to - run.from), run.to - (from - run.from));
    if (!other) return -1;
    l.types += l.used.test(*other) ? 0 : 1;
    l.used.set(*other);
  }
  l.cost += cost_of(to - from, run.limits).times(run.times * (twice ? 2 : 1));
  all_.push_back(l);
  return static_cast<int>(all_.size()) - 1;
}

/// A label goes where another uses no other types at no greater cost.
void Beam::keep(std::vector<int>& labels, int label) const {
  const Label& l = the(label);
  const auto covers = [](const Label& a, const Label& b) {
    return (a.used & ~b.used).none() && a.cost <= b.cost;
  };
  for (int other : labels)
    if (covers(the(other), l)) return;
  std::erase_if(labels, [&](int other) { return covers(l, the(other)); });
  labels.push_back(label);
  if (labels.size() > 4 * task_.labels) thin(labels);
}

void Beam::thin(std::vector<int>& labels) const {
  std::stable_sort(labels.begin(), labels.end(),
                   [&](int a, int b) { return better(the(a), the(b)); });
  if (labels.size() > task_.labels) labels.resize(task_.labels);
}

void Beam::step(const Piece& p, int label, Nm pitch, Front& front) {
  const Nm from = the(label).at, to = from + pitch;
  if (to > (p.halved ? p.length / 2 : p.length) || forbidden(p.zones, to)) return;
  const Nm o = task_.runs[run_].from;
  if (!may_stand(o + from, o + to)) return;
  const int next = add(label, o + from, o + to, p.halved);
  if (next >= 0) keep(front[to], next);
}

/// Ends the run from this label, if one panel or none does it.
void Beam::finish(const Piece& p, int label, std::vector<int>& done) {
  const Nm from = the(label).at, to = p.halved ? p.length - from : p.length, left = to - from;
  if (left == 0) {
    keep(done, label);
    return;
  }
  const Limits& l = p.limits;
  const bool pitch = std::binary_search(candidates_.begin(), candidates_.end(), left) &&
                     left >= l.least && left <= l.greatest;
  const bool closing = l.closing && left >= l.closing->least && left <= l.closing->greatest;
  const Nm o = task_.runs[run_].from;
  if ((!pitch && !closing) || !may_stand(o + from, o + to)) return;
  const int last = add(label, o + from, o + to, false);
  if (last >= 0) keep(done, last);
}

std::vector<int> Beam::walk(std::size_t run, const std::vector<int>& from) {
  run_ = run;
  const Piece& p = pieces_.all[pieces_.piece_of[run]];
  Front front;
  for (int label : from) {
    Label l = the(label);
    l.before = label;
    l.run = run;
    l.at = 0;
    all_.push_back(l);
    front[0].push_back(static_cast<int>(all_.size()) - 1);
  }
  std::vector<int> done;
  while (!front.empty()) {
    std::vector<int> here = std::move(front.begin()->second);
    front.erase(front.begin());
    thin(here);
    for (int label : here) {
      finish(p, label, done);
      for (Nm pitch : candidates_)
        if (pitch >= p.limits.least && pitch <= p.limits.greatest) step(p, label, pitch, front);
    }
  }
  thin(done);
  return done;
}

std::vector<std::vector<Nm>> Beam::lines(int label) const {
  std::vector<std::vector<Nm>> out(task_.runs.size());
  for (; label > 0; label = the(label).before) {
    const Label& l = the(label);
    out[l.run].push_back(l.at);
  }
  for (std::size_t r = 0; r < out.size(); ++r) {
    auto& line = out[r];
    const Nm length = task_.runs[r].to - task_.runs[r].from;
    std::sort(line.begin(), line.end());
    if (task_.runs[r].symmetrical) {
      for (std::size_t i = line.size(); i-- > 0;) line.push_back(length - line[i]);
      std::sort(line.begin(), line.end());
    }
    line.erase(std::unique(line.begin(), line.end()), line.end());
    for (Nm& x : line) x += task_.runs[r].from;
  }
  return out;
}

std::optional<Layout> Beam::search() {
  all_.push_back({});
  std::vector<int> labels{0};
  for (std::size_t r = 0; r < task_.runs.size(); ++r) {
    labels = walk(r, labels);
    if (labels.empty()) return std::nullopt;
  }
  return counted(task_, lines(labels.front()));
}

}  // namespace

std::optional<Layout> beam_search(const Task& task, const Pieces& pieces,
                                  const std::vector<Nm>& candidates) {
  return Beam(task, pieces, candidates).search();
}

}  // namespace deckquire::optimum
