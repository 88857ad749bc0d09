#include "audit/scan.h"

#include <algorithm>

namespace deckquire::audit {

using paper::PaperBox;

namespace {

PaperBox joined(const PaperBox& a, const PaperBox& b) {
  return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
          {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

bool holds(const PaperBox& outer, const PaperBox& inner) {
  return outer.contains(inner.low) && outer.contains(inner.high);
}

}  // namespace

Scan::Scan(const paper::Sheet& s) : sheet(s) {
  std::vector<int> open;
  const auto grow = [&](const PaperBox& box) {
    for (int g : open) {
      Group& group = groups[static_cast<std::size_t>(g)];
      group.box = group.empty ? box : joined(group.box, box);
      group.empty = false;
    }
  };
  std::size_t order = 0;
  for (const paper::Item& item : s.items) {
    ++order;
    const int inner = open.empty() ? -1 : open.back();
    if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
      open.push_back(static_cast<int>(groups.size()));
      groups.push_back({g, inner, {}, true});
    } else if (std::holds_alternative<paper::GroupEnd>(item)) {
      if (!open.empty()) open.pop_back();
    } else if (const auto* t = std::get_if<paper::Text>(&item)) {
      const PaperBox box = text_box(*t);
      std::size_t shield = t->masked ? order : 0;
      for (const auto& [white, at] : whites)
        if (at > shield && holds(white.grown(0.05), box)) shield = at;
      texts.push_back({t, box, order, shield, inner});
      if (t->masked) whites.push_back({mask_box(*t), order});
      grow(box);
    } else if (const auto* line = std::get_if<paper::Stroke>(&item)) {
      lines.push_back({line, s.pens[line->pen].width, order, inner});
      grow(bounds(line->path));
    } else if (const auto* fill = std::get_if<paper::Fill>(&item)) {
      if (fill->ink == paper::Ink::white) whites.push_back({bounds(fill->path), order});
      grow(bounds(fill->path));
    }
  }
}

int Scan::within(int group, const std::string& kind) const {
  while (group >= 0 && start(group).kind != kind)
    group = groups[static_cast<std::size_t>(group)].parent;
  return group;
}

Report audit_set(const sheets::SetInput& input, const sheets::SetPlan& plan,
                 const std::vector<paper::Sheet>& sheets) {
  std::vector<Scan> scans;
  scans.reserve(sheets.size());
  for (const paper::Sheet& s : sheets) scans.emplace_back(s);
  Report report;
  const Subject subject{input, plan, scans};
  audit_letters(subject, report);
  audit_lines(subject, report);
  audit_chains(subject, report);
  audit_references(subject, report);
  audit_agreement(subject, report);
  audit_use(subject, report);
  return report;
}

}  // namespace deckquire::audit
