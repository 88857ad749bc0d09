// Items of the panels' shop sheets.
#include <algorithm>
#include <cmath>
#include <map>

#include "audit/contents/reading.h"
#include "base/text.h"
#include "sheets/panel_parts.h"

namespace deckquire::contents {

namespace {

/// The sheets of one mark: on small paper its tables stand on a second one.
struct Shop {
  const Mark* mark = nullptr;
  std::vector<const Page*> pages;
  std::string words;
  std::vector<Cells> rows(const std::string& head) const {
    std::vector<Cells> out;
    for (const Page* p : pages)
      if (const Listing* t = p->table(head)) out.insert(out.end(), t->rows.begin(), t->rows.end());
    return out;
  }
  const std::string& name() const { return mark->name; }
};

std::vector<Shop> shops(const Reading& r) {
  std::vector<Shop> out(r.deck().marks.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i].mark = &r.deck().marks[i];
  for (std::size_t i = 0; i < r.pages.size(); ++i) {
    if (r.drawn.plan.sheets[i].series != 'P') continue;
    Shop& s = out[static_cast<std::size_t>(r.drawn.plan.sheets[i].subject)];
    s.pages.push_back(r.pages[i].get());
    s.words += r.pages[i]->words;
  }
  return out;
}

/// The same for every mark.
Relation each(const std::function<void(const Reading&, const Shop&, Outcome&)>& check) {
  return [check](const Reading& r, Outcome& o) {
    for (const Shop& s : shops(r)) check(r, s, o);
  };
}

std::string print(const Reading& r, double v) { return print_length(mm(v), r.project().units); }

bool figures(const std::string& s) {
  return !s.empty() &&
         std::all_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
}

void required(const Reading& r, const Shop& s, Outcome& o) {
  int turned = 0;
  for (int i : s.mark->positions) turned += r.deck().panels[static_cast<std::size_t>(i)].turned;
  const int n = s.mark->quantity;
  o.expect(holds(s.words, "Number required " + std::to_string(n) + " (" +
                              std::to_string(n - turned) + " as drawn, " + std::to_string(turned) +
                              " turned"),
           s.name() + ": number required");
  if (s.mark->opposite_of < 0) return;
  const Mark& of = r.deck().marks[static_cast<std::size_t>(s.mark->opposite_of)];
  o.expect(holds(s.words, "opposite hand of " + of.name), s.name() + ": hand");
  o.expect(says(s.words, "Opposite hand of " + of.name + "*" + std::to_string(of.quantity) +
                             " required"),
           s.name() + ": number of the other hand");
}

void views(const Reading&, const Shop& s, Outcome& o) {
  for (const char* id : {"view-top", "view-soffit", "view-side", "view-section"}) {
    const auto& groups = s.pages.front()->scan.groups;
    o.expect(std::any_of(groups.begin(), groups.end(),
                         [&](const audit::Group& g) { return g.start->id == id && !g.empty; }),
             s.name() + ": no " + id);
  }
}

void size(const Reading& r, const Shop& s, Outcome& o) {
  const PanelShape& shape = s.mark->shape;
  o.expect(says(s.words, "length " + print(r, shape.length) + "*width *depth "), s.name());
  if (shape.square() && std::abs(shape.left_back - shape.right_back - shape.left_ahead +
                                 shape.right_ahead) < 0.01)
    o.expect(holds(s.words, "width " + print(r, shape.left_back - shape.right_back)),
             s.name() + ": width");
  o.expect(says(s.words, "Diagonals *to ahead left|Diagonals *to ahead right|Diagonals *ahead"),
           s.name() + ": no diagonals");
}

void datum(const Reading&, const Shop& s, Outcome& o) {
  std::size_t marked = 0;
  for (const Page* p : s.pages) marked += holds(joined(p->in("datum")), "0,0") ? 1 : 0;
  o.expect(marked > 0, s.name() + ": no datum corner");
  o.expect(says(s.words, "x runs ahead from"), s.name() + ": no directions of x and y");
}

/// Every feature is drawn in a plan and counted in the table.
void features(const Reading&, const Shop& s, Outcome& o) {
  std::set<std::string> ids;
  for (const Page* p : s.pages)
    for (const audit::Group& g : p->scan.groups) ids.insert(g.start->id);
  const auto& list = s.mark->shape.features;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].kind == FeatureKind::notch) continue;  // a part of the outline
    const std::string number = std::to_string(i + 1);
    o.expect(ids.count("feature-" + number) + ids.count("feature-soffit-" + number) > 0,
             s.name() + ": a " + feature_name(list[i].kind) + " is not drawn");
  }
  std::size_t counted = 0;
  for (const Cells& row : s.rows("FEATURES"))
    if (row.size() > 2 && figures(row[0]) && figures(row[1]))
      counted += static_cast<std::size_t>(std::stoi(row[1]));
  if (!list.empty())
    o.expect(counted == list.size(), s.name() + ": " + std::to_string(counted) + " features of " +
                                         std::to_string(list.size()));
}

/// Labels of the hole table are those of the holes; what is lettered in the plans is among them.
void holes(const Reading&, const Shop& s, Outcome& o) {
  std::set<std::string> wanted, listed;
  for (const Hole& h : s.mark->holes) wanted.insert(h.label);
  for (const Cells& row : s.rows("HOLES, FROM DATUM"))
    for (const std::string& cell : row)
      if (cell.size() > 1 && std::isupper(static_cast<unsigned char>(cell[0])) &&
          figures(cell.substr(1)))
        listed.insert(cell);
  o.expect(wanted == listed, s.name() + ": " + std::to_string(listed.size()) + " holes listed of " +
                                 std::to_string(wanted.size()));
  std::size_t lettered = 0;
  for (const Page* p : s.pages)
    for (const audit::Letters& l : p->scan.texts) {
      const std::string& t = l.text->text;
      const int view = p->scan.within(l.group, "view");
      if (view < 0 || t.size() < 2 || !figures(t.substr(1)) ||
          !std::isupper(static_cast<unsigned char>(t[0])))
        continue;
      const std::string& id = p->scan.start(view).id;
      if (id != "view-top" && id != "view-soffit") continue;
      const bool sheet = p->scan.within(l.group, "reference") >= 0 ||
                         p->scan.within(l.group, "section-mark") >= 0;
      if (sheet) continue;
      ++lettered;
      o.expect(wanted.count(t) > 0, s.name() + ": " + t + " is no hole");
    }
  if (!wanted.empty()) o.expect(lettered > 0, s.name() + ": no hole is lettered");
}

void hole_kinds(const Reading&, const Shop& s, Outcome& o) {
  if (s.mark->holes.empty()) return;
  std::size_t sum = 0;
  for (const Cells& row : s.rows("KINDS OF HOLES"))
    if (row.size() > 1 && figures(row[1])) sum += static_cast<std::size_t>(std::stoi(row[1]));
  o.expect(sum == s.mark->holes.size(), s.name() + ": kinds of holes sum to " + std::to_string(sum));
  o.expect(says(s.words, std::to_string(sum) + " holes and inserts in all"), s.name());
}

/// Sections on the sheet, and a detail for every feature that has one.
void sections(const Reading& r, const Shop& s, Outcome& o) {
  o.expect(says(s.words, "SECTION A-A"), s.name() + ": no section");
  for (const Feature& f : s.mark->shape.features)
    if (const auto d = sheets::detail_of(f.kind))
      if (const auto* ref = r.drawn.plan.find(*d))
        o.expect(holds(s.words, ref->letter + "/" + ref->sheet),
                 s.name() + ": no reference for a " + feature_name(f.kind));
}

void surface(const Reading& r, const Shop& s, Outcome& o) {
  if (s.mark->shape.surface < 0) return o.expect(holds(s.words, "Wearing surface none"), s.name());
  const auto& d = r.project().deck.surfaces[static_cast<std::size_t>(s.mark->shape.surface)];
  o.expect(says(s.words, "Wearing surface " + d.trade_class + "*" +
                             print_length(d.thickness, r.project().units) + " thick*" +
                             print_length(d.stop, r.project().units) + " set back"),
           s.name() + ": surface");
}

void lifting(const Reading&, const Shop& s, Outcome& o) {
  const auto& f = s.mark->shape.features;
  const auto n = std::count_if(f.begin(), f.end(), [](const Feature& x) {
    return x.kind == FeatureKind::lifting_insert;
  });
  o.expect(says(s.words, n > 0 ? "CAUTION, LIFTING: lift by all " + std::to_string(n) +
                                     " inserts*capacity*ling angles"
                               : "CAUTION, LIFTING"),
           s.name() + ": lifting");
}

void mass(const Reading& r, const Shop& s, Outcome& o) {
  const UnitSystem u = r.project().units;
  const std::string one = print_mass(s.mark->masses.total, u);
  o.expect(says(s.words, "Mass of one " + one + " "), s.name() + ": mass");
  o.expect(holds(s.words, "Centre of gravity"), s.name() + ": centre of gravity");
  // The schedule says the same.
  for (const Cells& row : r.rows("T", "Positions"))
    if (row.front() == s.name())
      o.expect(std::find(row.begin(), row.end(), one) != row.end(), s.name() + ": schedule");
}

/// For one and for all: pieces multiply exactly.
void bill(const Reading&, const Shop& s, Outcome& o) {
  const auto rows = s.rows("MATERIALS FOR ONE AND FOR ALL " + std::to_string(s.mark->quantity));
  std::size_t pieces = 0;
  for (const Cells& row : rows) pieces += std::count(row.begin(), row.end(), "pcs") > 0;
  o.expect(pieces > 0, s.name() + ": no materials");
  for (const Cells& row : rows)
    for (std::size_t i = 0; i + 2 < row.size(); ++i)
      if (row[i] == "pcs" && figures(row[i + 1]))
        o.expect(std::stoi(row[i + 1]) * s.mark->quantity == std::stoi(row[i + 2]),
                 s.name() + ": " + joined(row));
}

/// Numbers in the pills of the views are those of the table of features.
void item_numbers(const Reading&, const Shop& s, Outcome& o) {
  std::set<std::string> pills, listed;
  for (const Page* p : s.pages)
    for (const std::string& w : p->in("callout"))
      if (figures(w)) pills.insert(w);
  for (const Cells& row : s.rows("FEATURES"))
    if (row.size() > 2 && figures(row[0]) && figures(row[1])) listed.insert(row[0]);
  o.expect(pills == listed, s.name() + ": " + std::to_string(pills.size()) + " numbers in views, " +
                                std::to_string(listed.size()) + " in the table");
}

void falls(const Reading&, const Shop& s, Outcome& o) {
  if (s.mark->shape.slope != 0 && s.mark->shape.fall != Fall::none)
    o.expect(holds(s.words, shortest_decimal(100 * s.mark->shape.slope, 2) + " %"), s.name());
  o.expect(says(s.words, "finished panel, without*camber or*twist|finished*panel, without*camber*or*twist"),
           s.name() + ": camber and twist");
}

void tag(const Reading&, const Shop& s, Outcome& o) {
  const auto& f = s.mark->shape.features;
  const bool tagged = std::any_of(f.begin(), f.end(),
                                  [](const Feature& x) { return x.kind == FeatureKind::tag; });
  if (!tagged) return;
  std::string number;
  for (const Cells& row : s.rows("FEATURES"))
    if (row.size() > 2 && holds(joined(row), "tag, soffit")) number = row[0];
  o.expect(!number.empty() && says(s.words, "tag (no. " + number + ",*soffit)"),
           s.name() + ": place of the tag");
}

void convention(const Reading&, const Shop& s, Outcome& o) {
  for (const Page* p : s.pages)
    for (const audit::Letters& l : p->scan.texts) {
      const std::string& t = l.text->text;
      if (t.starts_with("SECTION A-A") || t.starts_with("BACK END") || t.starts_with("AHEAD END"))
        o.expect(says(t, "LOOKING AHEAD|SQUARE TO|AHEAD END, LOOKING BACK"), s.name() + ": " + t);
    }
  // Running figures begin at the datum, at the left of the plan.
  const Page* p = s.pages.front();
  for (int g : p->groups("datum")) {
    const int view = p->scan.within(g, "view");
    if (view < 0 || p->scan.start(view).id != "view-top") continue;
    o.expect(p->scan.groups[static_cast<std::size_t>(g)].box.low.x <
                 p->scan.groups[static_cast<std::size_t>(view)].box.centre().x,
             s.name() + ": the datum is at the right");
  }
}

void few(const Reading& r, Outcome& o) {
  for (const Page* p : r.of("P")) {
    std::size_t plans = 0;
    for (const audit::Group& g : p->scan.groups) plans += g.start->id.starts_with("view-top");
    o.expect(plans <= 4, p->number() + ": too many pieces on a sheet");
  }
  for (const Shop& s : shops(r)) o.expect(!s.pages.empty(), s.name() + ": no sheet");
}

void used(const Reading& r, const Shop& s, Outcome& o) {
  if (holds(s.words, "each is listed in the tables")) return o.expect(true, "");
  const auto& panels = r.deck().panels;
  const Panel& first = panels[static_cast<std::size_t>(s.mark->positions.front())];
  const Panel& last = panels[static_cast<std::size_t>(s.mark->positions.back())];
  o.expect(holds(s.words, first.serial), s.name() + ": first position");
  o.expect(holds(s.words, last.serial), s.name() + ": last position");
  std::size_t links = 0;
  for (const Page* p : s.pages)
    for (int g : p->groups("link")) links += holds(p->scan.start(g).target, "#panel-");
  o.expect(links > 0, s.name() + ": no link to its positions");
}

}  // namespace

Items panel_sheets() {
  return {
      {"S1", "Mark and number of every panel of the sheet", {}, each(required),
       reword("P", "1 (1 as drawn", "2 (2 as drawn"), {"mark-sheet"}},
      {"S2", "As drawn, turned, opposite hand: how many", {}, each(required),
       reword("P", "required", "wanted"), {}, "", "saltmarsh"},
      {"S3", "The top face is named", {{"P", "TOP FACE"}, {"P", "PLAN FROM ABOVE"}}},
      {"S4", "Views that give all three dimensions", {}, each(views),
       {"P",
        [](paper::Sheet& s) {
          for (paper::Item& i : s.items)
            if (auto* g = std::get_if<paper::GroupStart>(&i); g && g->id == "view-side") {
              g->id = "view-lost";
              return true;
            }
          return false;
        }}},
      {"S5", "Length, width, depth", {}, each(size), reword("P", "length 2489", "length 2498")},
      {"S6", "Diagonals, angles of the ends", {}, each(size), rename("P", "Diagonals", "Checks")},
      {"S7", "Datum corner, from which figures run", {}, each(datum), rename("P", "0,0", "0")},
      {"S8", "Every feature drawn, placed, sized, counted", {}, each(features), rename("P", "4", "5")},
      {"S9", "Hole table and holes agree", {}, each(holes), rename("P", "A7", "A8"), {}, "",
       "saltmarsh"},
      {"S10", "Kinds of holes", {}, each(hole_kinds), rename("P", "16", "15")},
      {"S11", "Sections, and a detail for every feature", {}, each(sections),
       reword("P", "F/D02", "F/D01")},
      {"S12", "Direction of fibres", {{"P", "direction of*fibres*not*stated"}}, {}, {}, {},
       "direction of fibres"},
      {"S13", "Lay-up, core",
       {{"P", "TOP SKIN*CORE*BOTTOM SKIN|CORE"}, {"P", "Lay-up*not*stated"}}, {}, {}, {},
       "lay-up of laminates"},
      {"S14", "Ends, sealing of cut edges, coatings",
       {{"P", "Ends back: *; ahead: "}, {"P", "seals every cut edge and hole"}, {"P", "coatings"}}},
      {"S15", "Wearing surface: extent, thickness, set back", {}, each(surface),
       reword("P", "set back", "kept")},
      {"S16", "Lifting points: places, kind, capacity, angles", {}, each(lifting),
       reword("P", "CAUTION, LIFTING", "LIFTING")},
      {"S17", "Mass of the finished panel", {}, each(mass), reword("P", "363 kg", "336 kg")},
      {"S18", "Materials for one and for all", {}, each(bill),
       rename("P", "20", "21", "row")},
      {"S19", "Numbers in the views are those of the table", {}, each(item_numbers),
       unmark("P", "callout"), {}, "", "saltmarsh"},
      {"S20", "Falls; camber and twist", {}, each(falls), reword("P", "camber", "bow")},
      {"S21", "Tolerances", {{"P", "Tolerances: "}}},
      {"S22", "Direction mark and where it is painted",
       {{"P", "AHEAD with its arrow is*painted*top face"}, {"P", "AHEAD"}}},
      {"S23", "Place of the tag", {}, each(tag), reword("P", "soffit)", "edge)")},
      {"S24", "What is inspected, when, by whom",
       {{"P", "The inspector records and*signs*before*shipping"}}},
      {"S25", "Certificates and test pieces", {{"P", "certificates*test*pieces*not*stated"}}},
      {"S26", "Figures from the left, sections looking one way", {}, each(convention),
       reword("P", "A-A, LOOKING AHEAD", "A-A, LOOKING BACK")},
      {"S27", "Names of ends and sides",
       {{"P", " BACK "}, {"P", " AHEAD "}, {"P", " LEFT |back left"}}},
      {"S28", "Few pieces on a sheet", {}, few,
       {"P",
        [](paper::Sheet& s) {
          for (int i = 0; i < 5; ++i)
            s.items.insert(s.items.end(), {paper::GroupStart{"view-top-x", "", "", ""},
                                           paper::GroupEnd{}});
          return true;
        }}},
      {"S29", "Where used", {}, each(used), reword("P", "0301-001", "0301-009")},
      {"S30", "No field trimming, or with its allowance",
       {{"P", "no*edge is for field trimming"}}}};
}

}  // namespace deckquire::contents
