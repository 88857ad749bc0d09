// Calculation sheets of the checklist.
#include <algorithm>

#include <fmt/format.h>

#include "audit/contents/reading.h"
#include "base/text.h"

namespace deckquire::contents {

namespace {

const Calculations& calculations_of(const Reading& r) {
  return r.drawn.set.scope.calculations;
}

void each_in_full(const Reading& r, const std::function<void(const Calculation&)>& look) {
  for (const Calculation& c : calculations_of(r).list)
    if (c.in_full) look(c);
}

void sources(const Reading& r, Outcome& o) {
  const std::string words = r.words("C");
  each_in_full(r, [&](const Calculation& c) {
    o.expect(!c.working.sources.empty(), c.number + " has no source");
    for (const std::string& s : c.working.sources)
      o.expect(holds(words, "Source: " + s), c.number + ": " + s);
  });
}

void inputs(const Reading& r, Outcome& o) {
  const std::string words = r.words("C");
  each_in_full(r, [&](const Calculation& c) {
    for (const workings::Input& in : c.working.inputs) {
      using From = workings::Origin::From;
      const bool project = in.origin.from == From::project && in.origin.place.line > 0;
      o.expect(in.origin.from != From::typed,
               c.number + ": where does " + in.symbol + " come from");
      if (project)
        o.expect(holds(words, "project, " + r.project().element_at(in.origin.place)),
                 c.number + ": element of " + in.symbol);
    }
  });
}

void ratios(const Reading& r, Outcome& o) {
  const std::string words = r.words("C");
  for (const CheckLine& line : calculations_of(r).summary)
    o.expect(holds(words, decimal(line.ratio, 2)) && holds(words, line.kept ? "kept" : "FAILS"),
             line.what);
  // Each in the summary, and again in its own table.
  std::size_t verdicts = calculations_of(r).summary.size(), said = 0;
  each_in_full(r, [&](const Calculation& c) { verdicts += c.working.verdicts.size(); });
  for (const std::string word : {"kept", "FAILS"})
    for (std::size_t at = words.find(word); at != std::string::npos; at = words.find(word, at + 1))
      ++said;
  o.expect(said >= verdicts, fmt::format("{} verdicts, {} said", verdicts, said));
}

void marks(const Reading& r, Outcome& o) {
  const Calculations& all = calculations_of(r);
  const bool of_marks = std::any_of(all.list.begin(), all.list.end(), [](const Calculation& c) {
    return c.topic == Topic::strength || c.topic == Topic::lifting;
  });
  if (!of_marks) return;
  for (const Page* p : r.of("P"))
    if (p->table("FEATURES")) o.expect(says(p->words, "Calculated*strength*lifting"), p->number());
  for (std::size_t m = 0; m < r.deck().marks.size(); ++m)
    for (const Topic topic : {Topic::strength, Topic::lifting})
      o.expect(std::any_of(all.list.begin(), all.list.end(),
                           [&](const Calculation& c) {
                             return c.topic == topic && std::count(c.marks.begin(), c.marks.end(),
                                                                   static_cast<int>(m)) > 0;
                           }),
               r.deck().marks[m].name + ": " + topic_name(topic));
}

void sketches(const Reading& r, Outcome& o) {
  std::size_t curves = 0, drawn = 0;
  each_in_full(r, [&](const Calculation& c) { curves += c.working.curves.size(); });
  for (const Page* p : r.of("C")) drawn += p->groups("view").size();
  o.expect(curves == drawn, fmt::format("{} diagrams, {} drawn", curves, drawn));
}

void signed_pages(const Reading& r, Outcome& o) {
  for (const Page* p : r.of("C"))
    for (const char* field : {"Drawn", "Checked", "Date", "Sheet"})
      o.expect(!p->field(field).empty(), p->number() + ": " + field);
}

}  // namespace

Items calculation_sheets() {
  const std::string example = "saltmarsh";
  return {
      {"K1",
       "Clause beside each equation",
       {},
       sources,
       reword("C", "Source: ", "Origin: "),
       {},
       "",
       example},
      {"K2",
       "Source of every input",
       {{"C", "Given*Value*What it is*From", false}},
       inputs,
       reword("C", "project, ", "file, "),
       {},
       "",
       example},
      {"K3",
       "Demand, resistance, ratio",
       {{"C", "Demand*Limit*Ratio", false}},
       ratios,
       reword("C", "kept", "fine"),
       {},
       "",
       example},
      {"K4", "All marks covered", {}, marks, reword("P", "Calculated", "Counted"), {}, "", example},
      {"K5",
       "Lifting and handling",
       {{"C", "LIFTING", false}, {"C", "written plan by a qualified person"}}},
      {"K6", "Sketches agree with the figures", {}, sketches, unmark("C", "view"), {}, "", example},
      {"K7",
       "Pages numbered, signed, dated",
       {},
       signed_pages,
       reword("C", "Drawn", "By"),
       {},
       "",
       example}};
}

}  // namespace deckquire::contents
