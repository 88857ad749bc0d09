#include "history/identities.h"

#include <algorithm>
#include <cmath>

#include "deck/typing.h"
#include "history/as_built.h"
#include "history/built.h"
#include "history/positions.h"

namespace deckquire::history {
namespace {

PanelShape laid(const PanelShape& shape, bool turned) {
  return turned ? half_turn(shape) : shape;
}

/// Where the tag is in a drawing, from the lowest corner of its outline.
std::optional<PanelPoint> tag_of(const PanelShape& drawn) {
  for (const Feature& f : drawn.features)
    if (f.kind == FeatureKind::tag) return f.at - bounds(drawn.outline).low;
  return std::nullopt;
}

void move_tag(PanelShape& shape, bool turned, PanelPoint to) {
  const PanelPoint at = bounds(laid(shape, turned).outline).low + to;
  for (Feature& f : shape.features)
    if (f.kind == FeatureKind::tag)
      f.at = turned ? PanelPoint{shape.length - at.x, -at.y} : at;
}

/// Panels of one mark.
struct Lot {
  int issued = -1;      // of IssuedMarks; -1: a new mark
  PanelShape drawing;   // as issued: from a panel that is it
  int opposite = -1;    // of a new mark: the lot whose mirror image it is
  int name_number = 0;  // of the mark
  std::vector<int> panels;
};

class Keeping {
 public:
  Keeping(Deck& deck, const Project& project, const Bridge& bridge, const Register& issued,
          const IssuedShapes& shapes)
      : deck_(deck),
        project_(project),
        bridge_(bridge),
        issued_(issued),
        shapes_(shapes),
        marks_(issued),
        built_(project, issued),
        places_(continued(deck, *issued.last_issue())),
        lot_(deck.panels.size(), -1),
        turned_(deck.panels.size(), false),
        built_turned_(deck.panels.size(), false),
        replaced_(deck.panels.size(), false) {
    for (std::size_t i = 0; i < deck.panels.size(); ++i) built_turned_[i] = deck.panels[i].turned;
  }

  void run(Findings& findings) {
    find_issued();
    find_new();
    protect_built(findings);
    number_new();
    make_marks();
    name_places();
    protect_gone(findings);
    built_.report(findings);
  }

 private:
  Panel& panel(int i) { return deck_.panels[static_cast<std::size_t>(i)]; }
  Lot& lot(int i) { return lots_[static_cast<std::size_t>(i)]; }
  int count() const { return static_cast<int>(deck_.panels.size()); }
  /// The mark that the panel's place had; -1: a new place.
  int old_mark(int i) const {
    const IssuedPosition* p = places_[static_cast<std::size_t>(i)];
    return p ? marks_.index(p->mark) : -1;
  }
  int lot_of_mark(int mark, const PanelShape& drawing) {
    for (std::size_t k = 0; k < lots_.size(); ++k)
      if (lots_[k].issued == mark) return static_cast<int>(k);
    lots_.push_back({mark, drawing, -1, 0, {}});
    return static_cast<int>(lots_.size()) - 1;
  }

  /// Panels that were issued as they are.
  void find_issued() {
    std::map<int, std::pair<int, bool>> drawings;  // mark -> panel that it is drawn from, drawn
    std::vector<IssuedMarks::Fit> fits;
    for (int i = 0; i < count(); ++i) {
      const auto fit = marks_.find(panel(i).shape, project_, old_mark(i));
      fits.push_back(fit);
      if (fit.mark < 0) continue;
      turned_[static_cast<std::size_t>(i)] = fit.turned;
      const auto [at, fresh] = drawings.try_emplace(fit.mark, i, fit.drawn);
      if (!fresh && fit.drawn && !at->second.second) at->second = {i, true};
    }
    for (const auto& [mark, from] : drawings)
      lots_.push_back({mark,
                       laid(panel(from.first).shape, turned_[static_cast<std::size_t>(from.first)]),
                       -1,
                       0,
                       {}});
    for (int i = 0; i < count(); ++i) {
      const int mark = fits[static_cast<std::size_t>(i)].mark;
      if (mark >= 0) lot_[static_cast<std::size_t>(i)] = lot_of_mark(mark, {});
    }
  }

  /// All others: near enough to a mark in use, or new. They are taken as the deck has turned them,
  /// so that their tags are right already.
  void find_new() {
    Typing typing(project_.deck.marks.tolerance);
    std::vector<int> lots;  // of the representatives
    for (int k = 0; k < static_cast<int>(lots_.size()); ++k)
      if (typing.place(lot(k).drawing).first) lots.push_back(k);
    for (int i = 0; i < count(); ++i) {
      const auto at = static_cast<std::size_t>(i);
      if (lot_[at] >= 0) continue;
      const PanelShape drawn = laid(panel(i).shape, built_turned_[at]);
      const Typing::Placed placed = typing.place(drawn);
      turned_[at] = placed.turned != built_turned_[at];
      if (placed.first) {
        const int opposite =
            placed.opposite_of < 0 ? -1 : lots[static_cast<std::size_t>(placed.opposite_of)];
        lots.push_back(static_cast<int>(lots_.size()));
        lots_.push_back({-1, drawn, opposite, 0, {}});
      }
      lot_[at] = lots[static_cast<std::size_t>(placed.mark)];
    }
  }

  void protect_built(Findings& findings) {
    for (int i = 0; i < count(); ++i) {
      const auto at = static_cast<std::size_t>(i);
      const IssuedPosition* old = places_[at];
      if (!old || !built_.has(old->serial) || lot(lot_[at]).issued == old_mark(i)) continue;
      BuiltChange change{old, &panel(i), shapes_ ? shapes_(old->serial) : std::nullopt};
      const Way way = built_.decide(
          change, signature_of(laid(panel(i).shape, old->turned), project_));
      replaced_[at] = way == Way::replace;
      if (way != Way::accept) continue;
      const std::string why =
          change.built ? put_as_built(panel(i), *old, *change.built, project_, marks_)
                       : "the project as it was issued cannot be read";
      if (!why.empty()) {
        built_.refuse(change, why, findings);
        continue;
      }
      turned_[at] = old->turned;
      built_turned_[at] = old->turned;  // its tag is where it was built
      lot_[at] = lot_of_mark(old_mark(i), laid(panel(i).shape, old->turned));
      accepted_ = true;
    }
  }

  void number_new() {
    int highest = marks_.highest();
    for (int i = 0; i < count(); ++i) {
      Lot& l = lot(lot_[static_cast<std::size_t>(i)]);
      if (l.panels.empty())
        l.name_number = l.issued >= 0 ? number_of(marks_.mark(l.issued).name) : ++highest;
      l.panels.push_back(i);
    }
  }

  std::string name_of(const Lot& l) const {
    return l.issued >= 0 ? marks_.mark(l.issued).name : mark_name(project_, l.name_number);
  }

  void make_marks() {
    std::vector<int> order;
    for (std::size_t k = 0; k < lots_.size(); ++k)
      if (!lots_[k].panels.empty()) order.push_back(static_cast<int>(k));
    std::stable_sort(order.begin(), order.end(),
                     [&](int a, int b) { return lot(a).name_number < lot(b).name_number; });
    deck_.marks.clear();
    deck_.mass = {};
    deck_.area = {};
    std::map<int, int> index;
    for (int k : order) {
      index[k] = static_cast<int>(deck_.marks.size());
      add_mark(lot(k));
    }
    for (int k : order) {
      const Lot& l = lot(k);
      Mark& m = deck_.marks[static_cast<std::size_t>(index.at(k))];
      if (l.issued < 0 && index.count(l.opposite)) m.opposite_of = index.at(l.opposite);
      if (l.issued >= 0) m.opposite_of = mark_named(marks_.mark(l.issued).opposite_of);
    }
    if (accepted_) list_fittings(project_, bridge_, deck_);
  }

  int mark_named(const std::string& name) const {
    for (std::size_t k = 0; k < deck_.marks.size(); ++k)
      if (deck_.marks[k].name == name) return static_cast<int>(k);
    return -1;
  }

  void add_mark(Lot& l) {
    if (const auto tag = l.issued >= 0 ? marks_.tag(l.issued) : std::nullopt)
      move_tag(l.drawing, false, *tag);
    const std::optional<PanelPoint> tag = tag_of(l.drawing);
    Mark m = make_mark(l.drawing, project_);
    m.name = name_of(l);
    m.quantity = static_cast<int>(l.panels.size());
    m.positions = l.panels;
    for (int i : l.panels) {
      const auto at = static_cast<std::size_t>(i);
      Panel& p = panel(i);
      p.mark = static_cast<int>(deck_.marks.size());
      p.turned = turned_[at];
      if (p.turned != built_turned_[at] && tag) move_tag(p.shape, p.turned, *tag);
      deck_.mass += m.masses.total;
      deck_.area += m.masses.top_area;
    }
    deck_.marks.push_back(std::move(m));
  }

  void name_places() {
    Serials serials(project_, issued_);
    int highest = highest_position(issued_);
    for (int i = 0; i < count(); ++i) {
      const auto at = static_cast<std::size_t>(i);
      Panel& p = panel(i);
      const std::string& mark = deck_.marks[static_cast<std::size_t>(p.mark)].name;
      const IssuedPosition* old = places_[at];
      p.position = old ? old->position : ++highest;
      // A built panel is the same panel after its rework.
      const bool same = old && (old->mark == mark || built_.has(old->serial)) && !replaced_[at];
      p.serial = same ? old->serial : serials.next(mark);
    }
  }

  void protect_gone(Findings& findings) {
    for (const IssuedPosition& old : issued_.last_issue()->positions) {
      if (!built_.has(old.serial)) continue;
      if (std::find(places_.begin(), places_.end(), &old) != places_.end()) continue;
      const BuiltChange change{&old, nullptr, std::nullopt};
      const Way way = built_.decide(change, "");
      if (way == Way::rework || way == Way::accept)
        built_.refuse(change, "the design has no place for it", findings);
    }
  }

  Deck& deck_;
  const Project& project_;
  const Bridge& bridge_;
  const Register& issued_;
  const IssuedShapes& shapes_;
  IssuedMarks marks_;
  BuiltPanels built_;
  std::vector<const IssuedPosition*> places_;
  std::vector<Lot> lots_;
  std::vector<int> lot_;             // of each panel
  std::vector<bool> turned_;         // of each panel, to the drawing of its mark
  std::vector<bool> built_turned_;   // how the panel's tag is placed
  std::vector<bool> replaced_;       // a new panel takes the place of the one that was built
  bool accepted_ = false;
};

IssuedMark issued_mark(const Project& project, const Deck& deck, const Mark& mark) {
  IssuedMark out;
  out.name = mark.name;
  if (mark.opposite_of >= 0)
    out.opposite_of = deck.marks[static_cast<std::size_t>(mark.opposite_of)].name;
  out.quantity = mark.quantity;
  out.signature = signature_of(mark.shape, project);
  std::vector<Facts> known{facts_of(out.signature)};
  for (int i : mark.positions) {
    const Panel& p = deck.panels[static_cast<std::size_t>(i)];
    const Signature signature = signature_of(laid(p.shape, p.turned), project);
    Facts facts = facts_of(signature);
    const auto same = [&](const Facts& f) { return same_part(f, facts); };
    if (std::any_of(known.begin(), known.end(), same)) continue;
    known.push_back(std::move(facts));
    out.variants.push_back(signature);
  }
  return out;
}

}  // namespace

Issue issue_of(const Project& project, const Bridge&, const Deck& deck) {
  Issue issue;
  if (!project.revisions.empty()) {
    const Revision& r = project.revisions.back();
    issue.revision = r.id;
    issue.status = r.status;
    issue.date = r.date;
    issue.by = r.by;
  }
  for (const Mark& m : deck.marks) issue.marks.push_back(issued_mark(project, deck, m));
  for (const Panel& p : deck.panels)
    issue.positions.push_back({p.position, deck.spans[static_cast<std::size_t>(p.span)].name, p.row,
                               p.start, p.end, deck.marks[static_cast<std::size_t>(p.mark)].name,
                               p.serial, p.turned, p.wanted});
  return issue;
}

void keep_identities(Deck& deck, const Project& project, const Bridge& bridge,
                     const Register& issued, Findings& findings, const IssuedShapes& shapes) {
  if (issued.last_issue() == nullptr) return BuiltPanels(project, issued).report(findings);
  Keeping(deck, project, bridge, issued, shapes).run(findings);
}

}  // namespace deckquire::history
