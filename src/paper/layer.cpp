#include "paper/layer.h"

#include <array>
#include <map>
#include <optional>
#include <string_view>

namespace deckquire::paper {

// In the order in which a PDF draws them where nothing asks for another. The names are ours.
const std::vector<LayerRow>& layer_rows() {
  using P = PenUse;
  using L = LetterUse;
  static const std::vector<LayerRow> rows = {
      {Layer::furniture,
       "furniture",
       {P::frame},
       {L::cover_title, L::sheet_number, L::sheet_title, L::caption},
       {"furniture", "title-block", "key-plan"},
       "frame, title block, key plan"},
      {Layer::steel,
       "steel",
       {P::steel, P::steel_hidden, P::ground},
       {},
       {"girder", "splice", "support", "obstruction", "crossing"},
       "what others build: steelwork, supports, obstructions"},
      {Layer::outlines,
       "outlines",
       {P::outline, P::cut, P::thin, P::hidden, P::centre, P::hatch, P::stipple, P::grid,
        P::neighbour},
       {},
       {},
       "the panels themselves: edges, cut faces, axes, hatches"},
      {Layer::features,
       "features",
       {P::feature, P::water},
       {},
       {"water", "fall"},
       "what panels carry: holes, posts, scuppers, inserts; the fall of water"},
      {Layer::marks,
       "marks",
       {P::mark, P::match},
       {L::mark, L::serial},
       {"mark", "reference", "section-mark", "orientation", "datum", "gravity", "match-line",
        "north", "scale-bar"},
       "marks of panels, sections and details, match lines, north, scale bars"},
      {Layer::dimensions,
       "dimensions",
       {P::dimension},
       {L::dimension},
       {"dimensions", "chain", "running", "angle"},
       "dimensions and the lines they need"},
      {Layer::notes,
       "notes",
       {P::table, P::table_heavy},
       {L::view_title, L::heading, L::note, L::table, L::table_head, L::callout},
       {"callout", "note", "table", "link"},
       "titles of views, notes, callouts, tables"},
      {Layer::revisions,
       "revisions",
       {P::revision},
       {},
       {"cloud", "delta", "redline"},
       "clouds round what changed, deltas, redlines"},
  };
  return rows;
}

const char* name_of(Layer layer) {
  return layer_rows()[static_cast<std::size_t>(layer)].name;
}

namespace {

struct Lookup {
  std::array<Layer, static_cast<std::size_t>(PenUse::count_)> pens{};
  std::array<Layer, static_cast<std::size_t>(LetterUse::count_)> letters{};
  std::map<std::string, Layer, std::less<>> groups;
  Lookup() {
    for (const LayerRow& row : layer_rows()) {
      for (PenUse u : row.pens) pens[static_cast<std::size_t>(u)] = row.layer;
      for (LetterUse u : row.letters) letters[static_cast<std::size_t>(u)] = row.layer;
      for (const char* kind : row.groups) groups[kind] = row.layer;
    }
  }
};

const Lookup& lookup() {
  static const Lookup found;
  return found;
}

/// Walks a sheet's items; fills that wait for what is drawn next are settled behind.
class Sorter {
 public:
  explicit Sorter(const Sheet& sheet) : sheet_(sheet) {
    found_.of.reserve(sheet.items.size());
    found_.whole.reserve(sheet.items.size());
  }

  void operator()(const Stroke& s) {
    const Layer own = sheet_.pens[s.pen].layer;
    drawn(own == Layer::revisions ? own : inside().value_or(own));
  }
  void operator()(const Text& t) { drawn(inside().value_or(t.layer)); }
  void operator()(const Fill& f) {
    if (inside() || f.ink != Ink::white) return drawn(inside().value_or(last_));
    waiting_.push_back(found_.of.size());
    add(last_, false);
  }
  void operator()(const GroupStart& g) {
    const auto kind = lookup().groups.find(g.kind);
    const bool whole = kind != lookup().groups.end();
    open_.push_back(whole ? std::optional(kind->second) : inside());
    wholes_.push_back(whole);
    add(inside().value_or(Layer::outlines), whole);
  }
  void operator()(const GroupEnd&) {
    settle(last_);
    add(inside().value_or(Layer::outlines), !wholes_.empty() && wholes_.back());
    if (open_.empty()) return;  // faults elsewhere
    open_.pop_back();
    wholes_.pop_back();
  }

  SheetLayers taken() {
    settle(last_);
    return std::move(found_);
  }

 private:
  const Sheet& sheet_;
  SheetLayers found_;
  Layer last_ = Layer::outlines;
  std::vector<std::optional<Layer>> open_;
  std::vector<bool> wholes_;
  std::vector<std::size_t> waiting_;

  std::optional<Layer> inside() const { return open_.empty() ? std::nullopt : open_.back(); }
  void add(Layer layer, bool whole) {
    found_.of.push_back(layer);
    found_.whole.push_back(whole);
  }
  void drawn(Layer layer) {
    settle(layer);
    last_ = layer;
    add(layer, false);
  }
  void settle(Layer layer) {
    for (std::size_t i : waiting_) found_.of[i] = layer;
    waiting_.clear();
  }
};

}  // namespace

Layer layer_of(PenUse use) {
  return lookup().pens[static_cast<std::size_t>(use)];
}

Layer layer_of(LetterUse use) {
  return lookup().letters[static_cast<std::size_t>(use)];
}

SheetLayers layers_of(const Sheet& sheet) {
  Sorter sorter(sheet);
  for (const Item& item : sheet.items) std::visit(sorter, item);
  return sorter.taken();
}

Sheet without_revision(const Sheet& sheet) {
  std::vector<bool> keep(sheet.items.size(), true);
  for (const RevisionItems& r : sheet.revision_items)
    for (std::size_t i = r.first; i < r.first + r.count; ++i) keep[i] = false;
  const SheetLayers layers = layers_of(sheet);
  for (std::size_t i = 0; i < keep.size(); ++i)
    if (layers.of[i] == Layer::revisions) keep[i] = false;
  Sheet out = sheet;
  out.revision.clear();
  out.revision_items.clear();
  out.items.clear();
  for (std::size_t i = 0; i < keep.size(); ++i)
    if (keep[i]) out.items.push_back(sheet.items[i]);
  return out;
}

}  // namespace deckquire::paper
