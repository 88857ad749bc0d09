// Items of every sheet: title block, stamp, scales, words that need a key.
#include <set>
#include <algorithm>
#include <cstdlib>
#include <cctype>
#include <cmath>

#include "audit/contents/reading.h"

namespace deckquire::contents {

namespace {

std::string stated(const std::string& s) { return s.empty() ? "not stated" : s; }

/// Every sheet's field holds that value.
void field_is(const Reading& r, Outcome& o, const std::string& caption, const std::string& value) {
  for (const auto& p : r.pages)
    o.expect(holds(p->field(caption), stated(value)),
             p->number() + ": " + caption + " is \"" + p->field(caption) + "\"");
}

/// Of the revision whose letter the sheet carries.
void own_field_is(const Reading& r, Outcome& o, const std::string& caption,
                  std::string Revision::*member) {
  for (const auto& p : r.pages)
    for (const Revision& v : r.project().revisions)
      if (v.id == p->field("Revision"))
        o.expect(holds(p->field(caption), stated(v.*member)),
                 p->number() + ": " + caption + " is \"" + p->field(caption) + "\"");
}

Revision last(const Reading& r) {
  return r.project().revisions.empty() ? Revision{} : r.project().revisions.back();
}

std::string party(const Reading& r, const std::string& role, bool contact) {
  for (const Party& p : r.project().parties)
    if (p.role == role) return contact ? p.contact : p.name;
  return "";
}

void numbers(const Reading& r, Outcome& o) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < r.pages.size(); ++i) {
    const std::string number = r.pages[i]->field("Sheet");
    o.expect(seen.insert(number).second, number + " twice");
    o.expect(number == r.drawn.plan.sheets[i].number, number + " is planned otherwise");
  }
}

void counts(const Reading& r, Outcome& o) {
  for (std::size_t i = 0; i < r.pages.size(); ++i)
    o.expect(r.pages[i]->field("Of") ==
                 std::to_string(i + 1) + " / " + std::to_string(r.pages.size()),
             r.pages[i]->number() + ": " + r.pages[i]->field("Of"));
}

void checker(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages)
    o.expect(p->field("Drawn") != p->field("Checked") || p->field("Drawn") == "not stated",
             p->number() + ": checked by who drew it");
}

const Listing* revisions(const Page& p) {
  for (const Listing& t : p.tables)
    if (holds(t.head, "Rev") && holds(t.head, "Change") && holds(t.head, "Checked")) return &t;
  return nullptr;
}

void revision(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages) {
    const Listing* t = revisions(*p);
    o.expect(t && !t->rows.empty() && t->rows.back().front() == p->field("Revision"),
             p->number() + ": its revision is not the last row");
  }
}

/// At the same place on all sheets, and nothing inside it.
void stamp(const Reading& r, Outcome& o) {
  std::optional<paper::PaperBox> first;
  for (const auto& p : r.pages) {
    const auto found = p->groups("stamp");
    o.expect(found.size() == 1, p->number() + ": no stamp space");
    if (found.size() != 1) continue;
    const paper::PaperBox box = p->scan.groups[static_cast<std::size_t>(found[0])].box;
    if (!first) first = box;
    o.expect(std::abs(box.low.x - first->low.x) + std::abs(box.low.y - first->low.y) < 0.01,
             p->number() + ": the stamp space stands elsewhere");
    for (const audit::Letters& l : p->scan.texts)
      o.expect(!box.contains(l.box.centre()), p->number() + ": \"" + l.text->text + "\" in it");
    for (const audit::Line& l : p->scan.lines)
      if (l.group != found[0])
        o.expect(!box.contains(bounds(l.stroke->path).centre()), p->number() + ": a line in it");
  }
}

bool is_scale(const Reading& r, const std::string& word) {
  const auto& style = r.drawn.set.style;
  for (int ratio : style.scales)
    if (holds(word, style.scale_name(ratio))) return true;
  return holds(word, "not to scale");
}

void scales(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages)
    for (int g : p->groups("view")) {
      const Cells words = p->words_of(g);
      o.expect(std::any_of(words.begin(), words.end(),
                           [&](const std::string& w) { return is_scale(r, w); }),
               p->number() + ": no scale at " + p->scan.start(g).id);
    }
}

/// The symbol: in the third angle the rings stand at the small end; and no end view stands beside
/// the elevation on the side that it does not look from.
void projection(const Reading& r, Outcome& o) {
  const bool third = r.drawn.set.style.projection == paper::Projection::third;
  for (const auto& p : r.pages) {
    double ring = -1, cone = -1;
    for (const audit::Line& l : p->scan.lines) {
      if (p->scan.within(l.group, "title-block") < 0 || l.stroke->path.ops.size() < 4) continue;
      const auto& ops = l.stroke->path.ops;
      const bool round = std::find(ops.begin(), ops.end(), paper::Op::curve) != ops.end();
      (round ? ring : cone) = bounds(l.stroke->path).centre().x;
    }
    o.expect(ring > 0 && cone > 0 && (ring < cone) == third, p->number() + ": no such symbol");
    const auto by_id = [&](const std::string& id) -> const audit::Group* {
      for (const audit::Group& g : p->scan.groups)
        if (g.start->id == id) return &g;
      return nullptr;
    };
    const auto *top = by_id("view-top"), *side = by_id("view-side"), *end = by_id("view-end");
    if (top && side)
      o.expect((side->box.centre().y < top->box.centre().y) == third,
               p->number() + ": the elevation is on the wrong side of the plan");
    if (!side || !end) continue;
    const bool beside = end->box.low.y < side->box.high.y && side->box.low.y < end->box.high.y;
    const bool left = end->box.centre().x < side->box.centre().x;
    // What is seen square to a skewed face is named so, and may stand anywhere.
    const bool named = holds(p->words, "SQUARE TO ITS FACE");
    const bool from_left = holds(p->words, "BACK END, LOOKING AHEAD");
    o.expect(!beside || named || (left == from_left) == third,
             p->number() + ": the end view is on the wrong side of the elevation");
  }
}

/// Short words that no reader can guess: those without a vowel, and names with a figure.
void abbreviations(const Reading& r, Outcome& o) {
  std::string keyed = " ";
  for (const Cells& row : r.rows("G", "ABBREVIATIONS")) keyed += joined(row) + " ";
  const std::set<std::string> plain{"mm", "ft", "lb", "lbf", "kg", "kN", "sq", "kPa", "MPa", "psf", "csv"};
  std::set<std::string> wanted;
  for (const Page* p : r.of("EPDT"))
    for (const audit::Letters& l : p->scan.texts) {
      if (p->scan.within(l.group, "title-block") >= 0) continue;
      std::string word;
      for (char c : l.text->text + " ") {
        if (std::isalnum(static_cast<unsigned char>(c)) || (c & 0x80) != 0) {
          word += c;
          continue;
        }
        const bool letters = std::all_of(word.begin(), word.end(), [](char k) {
          return std::isalpha(static_cast<unsigned char>(k));
        });
        const bool vowel = word.find_first_of("aeiouyAEIOUY") != std::string::npos;
        if (word.size() > 1 && letters && !vowel && plain.count(word) == 0) wanted.insert(word);
        word.clear();
      }
    }
  const Deck& deck = r.deck();
  const std::string said = r.words("T");  // some are explained above their table
  const auto name = [&](const auto& list) {
    if (!list.empty()) wanted.insert(list.front().name);
  };
  name(r.bridge().supports), name(r.bridge().girders), name(r.bridge().obstructions);
  name(deck.joints), name(deck.posts), name(deck.scuppers);
  name(r.project().deck.hatches), name(r.project().deck.sleeves);
  for (const std::string& w : wanted)
    if (w.size() > 1)
      o.expect(holds(keyed, " " + w) || says(said, w + ", where|" + w + " the"),
               w + " is not among the abbreviations");
}

/// Lines, cut faces and symbols: what the sheets show is in the legend, and nothing else.
void legend(const Reading& r, Outcome& o) {
  std::set<std::string> pens, faces, kinds;
  for (const Page* p : r.of("EPDT")) {
    for (const audit::Line& l : p->scan.lines) pens.insert(p->sheet.pens[l.stroke->pen].name);
    for (const audit::Group& g : p->scan.groups) {
      kinds.insert(g.start->kind);
      if (g.start->kind == "swatch") faces.insert(g.start->title);
    }
  }
  const std::string said = r.words("G");
  const auto same = [&](bool used, const std::string& words) {
    o.expect(used == holds(said, words), words + (used ? " is left out" : " is not used"));
  };
  for (const auto& [pen, words] : std::map<std::string, std::string>{
           {"outline", "outline of our panels"}, {"cut", "outline of a cut face"},
           {"hidden", "hidden edge"}, {"centre", "axis, hole pitch"},
           {"feature", "feature of a panel"}, {"match", "match line"},
           {"neighbour", "neighbouring panel, repeated"}, {"steel-hidden", "below the deck"}})
    same(pens.count(pen) > 0, words);
  for (const auto& [face, words] : std::map<std::string, std::string>{
           {"sealant", " sealant"}, {"bearing", "bearing pad"}, {"concrete", "concrete, by others"}})
    if (face != "sealant") same(faces.count(face) > 0, words);
  same(kinds.count("callout") > 0, "feature, by number");
  same(kinds.count("water") + kinds.count("fall") > 0, "fall of water");
  same(kinds.count("datum") > 0, "datum corner of a panel");
  same(kinds.count("orientation") > 0, "direction of a panel");
}

/// Notes are numbered without a gap, and one that is called stands on its sheet.
void note_numbers(const Reading& r, Outcome& o) {
  constexpr double indent = 8.5;  // mm, of a note; a sample of the legend stands farther off
  std::set<int> before;  // on the page before: a list may go on
  for (const auto& p : r.pages) {
    if (p->number().front() == 'C') continue;  // steps of workings: a short one is no note here
    int expected = 0, highest = 0;
    std::set<int> here;
    for (std::size_t i = 0; i + 1 < p->scan.texts.size(); ++i) {
      const std::string& t = p->scan.texts[i].text->text;
      const bool number = !t.empty() && t.size() < 3 &&
                          std::all_of(t.begin(), t.end(), [](char c) { return c >= '0' && c <= '9'; });
      const audit::Letters& next = p->scan.texts[i + 1];
      const bool heads = number && p->scan.texts[i].group < 0 && next.group < 0 &&
                         next.text->text.size() > 12 &&
                         std::abs(next.text->at.y - p->scan.texts[i].text->at.y) < 0.01 &&
                         next.text->at.x - p->scan.texts[i].text->at.x < indent;
      if (!heads) continue;
      const int n = std::stoi(t);
      o.expect(n == expected + 1 || n == 1 || n == highest + 1 ||
                   (here.empty() && before.count(n - 1) > 0),
               p->number() + ": note " + t + " follows note " + std::to_string(expected));
      expected = n;
      highest = std::max(highest, n);
      here.insert(n);
    }
    before = here;
    std::string group_words = p->words;
    for (std::size_t at = group_words.find(", note "); at != std::string::npos;
         at = group_words.find(", note ", at + 1)) {
      const int called = std::atoi(group_words.c_str() + at + 7);
      if (called == 0) continue;  // the word alone
      bool found = called <= highest;
      // On small paper the notes of a mark stand on its second sheet.
      for (const auto& q : r.pages) found = found || q->number() == p->number() + "-2";
      o.expect(found, p->number() + ": note " + std::to_string(called) + " is called");
    }
  }
}

/// What a view calls typical, it says of which positions; elsewhere such a view is named.
bool says_where(const Reading& r, const Page& p, const audit::Letters& l) {
  const auto positions = [](const Page& page, int view) {
    return holds(joined(page.words_of(view)), "position");
  };
  const int view = p.scan.within(l.group, "view");
  if (view >= 0) return positions(p, view);
  for (const auto& q : r.pages)
    for (const int g : q->groups("view"))
      if (q->scan.start(g).id == "view-bay" && positions(*q, g)) return true;
  return false;
}

void no_ditto(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages)
    for (const audit::Letters& l : p->scan.texts) {
      std::string t = l.text->text;
      std::transform(t.begin(), t.end(), t.begin(),
                     [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
      const bool ditto = t == "\"" || t == "do." || t == "do" || t == "''" || holds(t, "ditto");
      o.expect(!ditto && !holds(t, "typ.") && (!holds(t, "typical") || says_where(r, *p, l)),
               p->number() + ": " + t);
    }
}

void no_standard(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages)
    o.expect(!says(p->words, "standard drawing|standard detail|Standard drawing|std."),
             p->number() + ": refers to a standard drawing");
}

void places(const Reading& r, Outcome& o) {
  for (const Page* p : r.of("ET"))
    o.expect(!p->groups("key-plan").empty(), p->number() + ": no key plan");
}

}  // namespace

Items every_sheet() {
  return {
      {"G1", "Title block: project, structure, place, as in the project file", {},
       [](const Reading& r, Outcome& o) {
         field_is(r, o, "Project", r.project().title);
         field_is(r, o, "Bridge", r.project().bridge.name);
         field_is(r, o, "Bridge",
                  r.project().bridge.structure.empty() ? r.project().bridge.name
                                                       : r.project().bridge.structure);
         field_is(r, o, "Location", r.project().bridge.location);
       },
       rename("P", "Millrace footbridge", "Another bridge")},
      {"G2", "Title block: fabricator and contact", {},
       [](const Reading& r, Outcome& o) {
         field_is(r, o, "Made by", party(r, "fabricator", false));
         const std::string contact = party(r, "fabricator", true);
         if (!contact.empty()) field_is(r, o, "Made by", contact);
       },
       rename("D", "Tarn Composites", "Another shop")},
      {"G3", "One structure on a sheet and in a set", {},
       [](const Reading& r, Outcome& o) {
         for (const auto& p : r.pages)
           o.expect(p->field("Bridge") == r.pages.front()->field("Bridge"), p->number());
       },
       rename("T", "Millrace footbridge", "Another bridge")},
      {"G4", "Sheet numbers are unique and those of the index", {}, numbers,
       rename("E", "E01", "E02"), {"index"}},
      {"G5", "Count of sheets agrees with the set", {}, counts, rename("P", "4 / 12", "5 / 12")},
      {"G6", "Drawn, checked and date are filled, or said not to be stated", {},
       [](const Reading& r, Outcome& o) {
         own_field_is(r, o, "Drawn", &Revision::by);
         own_field_is(r, o, "Checked", &Revision::checked);
         own_field_is(r, o, "Date", &Revision::date);
       },
       reword("E", "2026-09-14", "")},
      {"G7", "The checker is not the drafter", {}, checker, rename("E", "R. Ostler", "I. Vane")},
      {"G8", "Revision of the title block is the last of the revision table", {}, revision,
       rename("P", "A", "B", "title-block")},
      {"G9", "Status of the issue", {},
       [](const Reading& r, Outcome& o) { field_is(r, o, "Status", last(r).status); },
       rename("P", "for approval", "")},
      {"G10", "A clear space for the reviewer's stamp, at one place", {}, stamp,
       unmark("E", "stamp"), {"stamp-space"}},
      {"G11", "Units", {{"GEPDT", "mm, levels in|ft-in, levels"}}},
      {"G12", "Every view has its scale, or says that it has none", {}, scales,
       rename("P", "isometric, not to scale", "isometric")},
      {"G13", "A bar for every scale", {}, {}, {}, {"scale-bar"}},
      {"G14", "Projection symbol, and views that stand as it says", {}, projection,
       unmark("P", "title-block")},
      {"G15", "Tolerances stated, or where they stand",
       {{"G", "TOLERANCES", false},
        {"E", "tolerances are on G01", false},
        {"P", "Tolerances: ", false},
        {"D", "Tolerances: |Tolerances are", false},
        {"T", "Tolerances are on G01"}}},
      {"G16", "Reference to the contract drawing", {}, {}, {}, {}, "contract drawings, by number"},
      {"G17", "Letters no smaller than the least height as printed", {}, {}, {},
       {"letters-small", "letters-small-at-half", "letters-odd"}},
      {"G18", "Nothing is told by colour alone", {}, {}, {}, {"ink-pale"}},
      {"G19", "Abbreviations, lines, faces and symbols are in the legend", {},
       [](const Reading& r, Outcome& o) {
         abbreviations(r, o);
         legend(r, o);
       },
       rename("G", "CG", "C. G.")},
      {"G20", "Note numbers run on, and those called exist", {}, note_numbers,
       rename("D", "3", "5")},
      {"G21", "No ditto marks, nothing \"typical\" without its number", {}, no_ditto,
       reword("P", "SECTION A-A", "TYPICAL SECTION")},
      {"G22", "Made and inspected without any standard drawing", {}, no_standard,
       reword("P", "Tolerances", "See standard drawing"), {"sheet-unknown", "reference-dead"}},
      {"G23", "Space for the engineer's seal", {}, {}, {}, {}, "space for an engineer's seal"},
      {"G24", "Departures from the contract ringed and listed", {}, {}, {}, {},
       "departures from the contract, ringed and listed"},
      {"G25", "Key plan or words that place the sheet in the bridge",
       {{"G", "KEY PLAN", false}, {"P", "WHERE USED", false}, {"D", "Called from"}}, places,
       unmark("T", "key-plan"), {}, "key plans on panel and detail sheets"}};
}

}  // namespace deckquire::contents
