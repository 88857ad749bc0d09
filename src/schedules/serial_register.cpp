#include "schedules/serial_register.h"

#include <algorithm>
#include <map>

namespace deckquire {
namespace {

using history::BuiltPanel;
using history::PanelLife;
using history::Stage;

const char* const stage_words[] = {"planned", "cast", "shipped", "set"};

/// What happened last of that kind.
const BuiltPanel* event_of(const PanelLife& life, Stage stage) {
  const BuiltPanel* out = nullptr;
  for (const BuiltPanel& e : life.events)
    if (e.stage == stage) out = &e;
  return out;
}

Cell date_of(const PanelLife& life, Stage stage) {
  const BuiltPanel* e = event_of(life, stage);
  return e ? Cell(e->date) : Cell();
}

/// As it was measured last.
Cell measured(const PanelLife& life, std::optional<Length> BuiltPanel::*size) {
  Cell out;
  for (const BuiltPanel& e : life.events)
    if (e.*size) out = *(e.*size);
  return out;
}

/// The place that a serial had last, by the issues.
struct LastPlace {
  int position = 0;
  std::string span;
};

class SerialRows {
 public:
  SerialRows(const Deck& deck, const history::Register& issued, const std::optional<Deliveries>& deliveries)
      : deck_(deck), lives_(issued.lives()) {
    for (std::size_t i = 0; i < deck.panels.size(); ++i) here_[deck.panels[i].serial] = i;
    for (const history::Entry& e : issued.entries)
      if (e.issue)
        for (const history::IssuedPosition& p : e.issue->positions) places_[p.serial] = {p.position, p.span};
    for (const PanelLife& life : lives_)
      if (!life.replaced_by.empty()) replaces_[life.replaced_by] = life.serial;
    if (!deliveries) return;
    for (std::size_t l = 0; l < deliveries->plan.loads.size(); ++l) {
      const Load& load = deliveries->plan.loads[l];
      for (int k = load.first; k < load.first + load.count; ++k)
        loads_[deliveries->carried[static_cast<std::size_t>(k)]] = static_cast<std::int64_t>(l + 1);
    }
  }

  std::vector<std::vector<Cell>> make() {
    std::vector<std::vector<Cell>> rows;
    std::map<std::string, bool> known;
    for (const PanelLife& life : lives_) {
      rows.push_back(row(life));
      known[life.serial] = true;
    }
    for (const Panel& p : deck_.panels) {
      if (known.count(p.serial)) continue;
      PanelLife fresh;
      fresh.serial = p.serial;
      rows.push_back(row(fresh));
    }
    return rows;
  }

 private:
  const Deck& deck_;
  std::vector<PanelLife> lives_;
  std::map<std::string, std::size_t> here_;  // indices of the deck's panels
  std::map<std::string, LastPlace> places_;
  std::map<std::string, std::string> replaces_;
  std::map<int, std::int64_t> loads_;  // by panel, from 1

  std::vector<Cell> row(const PanelLife& life) const {
    const auto at = here_.find(life.serial);
    const bool here = at != here_.end();
    const Panel* p = here ? &deck_.panels[at->second] : nullptr;
    std::string mark = life.mark, span, reason = life.reason;
    std::int64_t position = 0;
    if (const auto was = places_.find(life.serial); was != places_.end()) {
      position = was->second.position;
      span = was->second.span;
    }
    if (p) {
      mark = deck_.marks[static_cast<std::size_t>(p->mark)].name;
      span = deck_.spans[static_cast<std::size_t>(p->span)].name;
      position = p->position;
    } else if (!life.voided) {
      reason = "not in the file any more: void when that is issued";
    }
    const auto load = here ? loads_.find(static_cast<int>(at->second)) : loads_.end();
    const auto before = replaces_.find(life.serial);
    const auto words = [](const std::string& s) { return s.empty() ? Cell() : Cell(s); };
    return {life.serial,
            mark,
            Cell(),
            position > 0 ? Cell(position) : Cell(),
            words(span),
            std::string(life.voided ? "void" : stage_words[static_cast<int>(life.stage)]),
            words(life.revision),
            date_of(life, Stage::cast),
            date_of(life, Stage::shipped),
            date_of(life, Stage::set),
            measured(life, &BuiltPanel::length_left),
            measured(life, &BuiltPanel::length_right),
            measured(life, &BuiltPanel::width_back),
            measured(life, &BuiltPanel::width_ahead),
            load == loads_.end() ? Cell() : Cell(load->second),
            words(life.replaced_by),
            before == replaces_.end() ? Cell() : Cell(before->second),
            words(reason)};
  }
};

}  // namespace

Table serial_register_table(const Deck& deck, const history::Register& issued,
                            const std::optional<Deliveries>& deliveries) {
  Table t{"serial-register",
          "SERIAL REGISTER",
          "One line a panel that was ever given a serial. Sizes are those measured; a void serial names "
          "no panel any more.",
          {{"serial", "Serial"},
           {"mark", "Mark"},
           {"sheet", "Sheet"},
           {"position", "Position", Measure::count},
           {"span", "Span"},
           {"status", "Status"},
           {"made_to", "Made to revision"},
           {"cast", "Cast"},
           {"shipped", "Shipped"},
           {"set", "Set"},
           {"length_left_mm", "Length left, measured", Measure::length},
           {"length_right_mm", "Length right, measured", Measure::length},
           {"width_back_mm", "Width at back, measured", Measure::length},
           {"width_ahead_mm", "Width ahead, measured", Measure::length},
           {"load", "Load", Measure::count},
           {"replaced_by", "Replaced by"},
           {"replaces", "Replaces"},
           {"reason", "Reason"}},
          {},
          {},
          false};
  t.on_page = true;
  t.rows = SerialRows(deck, issued, deliveries).make();
  return t;
}

}  // namespace deckquire
