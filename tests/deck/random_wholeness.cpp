// What holds for any project, also one that contradicts itself.
#include <algorithm>
#include <set>

#include "deck/random_checks.h"

namespace trial {

void check_findings(const Case& c) {
  const int lines = static_cast<int>(std::count(c.made.xml.begin(), c.made.xml.end(), '\n'));
  std::set<std::string> said;
  for (const Finding& f : c.built.findings.sorted()) {
    const std::string line = to_line(f);
    if (f.place.file != c.project().file || f.place.line < 1 || f.place.line > lines)
      c.say("no place in the file: {}", line);
    if (!said.insert(f.what).second) c.say("said twice: {}", line);
    if (f.code.empty() || f.what.empty() || f.remedy.empty()) c.say("half a finding: {}", line);
  }
}

namespace {

void check_positions(const Case& c) {
  const auto& panels = c.deck().panels;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const Panel& p = panels[i];
    if (p.position != static_cast<int>(i) + 1) c.say("position {} at {}", p.position, i);
    if (p.joint_back != p.bay || p.joint_ahead != p.bay + 1) c.say("joints of {}", p.position);
    if (p.end <= p.start) c.say("panel {} has no length", p.position);
    if (i == 0) continue;
    const Panel& before = panels[i - 1];
    const bool beside = p.bay == before.bay;
    if (beside ? p.row != before.row + 1 || p.start != before.start
               : p.row != 0 || p.bay != before.bay + 1 || p.start <= before.start)
      c.say("panel {} is out of order", p.position);
  }
}

void check_marks(const Case& c) {
  const auto& panels = c.deck().panels;
  std::vector<int> seen(panels.size());
  for (std::size_t m = 0; m < c.deck().marks.size(); ++m) {
    const Mark& mark = c.deck().marks[m];
    if (mark.quantity != static_cast<int>(mark.positions.size()) || mark.quantity < 1)
      c.say("{} has quantity {}", mark.name, mark.quantity);
    for (int i : mark.positions) {
      if (i < 0 || i >= static_cast<int>(panels.size())) return c.say("{} is nowhere", mark.name);
      ++seen[static_cast<std::size_t>(i)];
      if (panels[static_cast<std::size_t>(i)].mark != static_cast<int>(m))
        c.say("panel {} has another mark than {}", i + 1, mark.name);
    }
    if (mark.opposite_of >= static_cast<int>(m)) c.say("{} is opposite to a later one", mark.name);
  }
  if (std::any_of(seen.begin(), seen.end(), [](int n) { return n != 1; }))
    c.say("a panel has no mark, or two");
}

template <class Place>
void check_list(const Case& c, const std::vector<Place>& places, FeatureKind kind) {
  for (const Place& q : places) {
    const auto p = static_cast<std::size_t>(q.panel), f = static_cast<std::size_t>(q.feature);
    if (p >= c.deck().panels.size() || f >= c.deck().panels[p].shape.features.size())
      return c.say("{} {} has no panel", feature_name(kind), q.name);
    const Feature& feature = c.deck().panels[p].shape.features[f];
    if (feature.kind != kind || feature.source != q.name) c.say("{} is another thing", q.name);
  }
}

}  // namespace

void check_whole(const Case& c) {
  const Deck& d = c.deck();
  if (d.panels.empty()) {
    if (!d.marks.empty() || !d.posts.empty() || !d.scuppers.empty() || d.mass.in_si() != 0)
      c.say("a deck without panels has something all the same");
    if (!c.built.findings.has_errors()) c.say("no panels, and no error says why");
    return;
  }
  check_positions(c);
  check_marks(c);
  check_list(c, d.posts, FeatureKind::post_plate);
  check_list(c, d.scuppers, FeatureKind::scupper);
}

}  // namespace trial
