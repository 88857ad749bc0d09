// `deckquire reckon` as a user runs it.
#include <doctest/doctest.h>

#include "e2e/program.h"

using namespace deckquire;

namespace {

bool has(const std::string& text, const std::string& part) {
  INFO(text);
  INFO(part);
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE(
    "reckon: without a name all workings, with a name what it takes, with values the working") {
  const Outcome all = run("reckon");
  CHECK(all.status == 0);
  CHECK(all.err.empty());
  CHECK(has(all.out, "drainage\n  rational-runoff"));
  CHECK(has(all.out, "scupper-spacing"));
  const Outcome help = run("reckon gutter-spread");
  CHECK(help.status == 0);
  CHECK(has(help.out, "a bare number is in m³/s, with units=us in ft³/s"));
  CHECK(has(help.out, "default 0.015: "));
  CHECK(has(help.out, "FHWA HEC-22"));
  CHECK(has(help.out, "Example\n  deckquire reckon gutter-spread Q="));
  const Outcome spread = run("reckon gutter-spread Q=1.5L/s Sx=2% 'SL=2.5 %' w=6ft");
  CHECK(spread.status == 0);
  CHECK(has(spread.out, "  T =  0.6006 m    spread"));
  CHECK(has(spread.out, "= (Q × n/(Kg × Sx^(5/3) × SL^(1/2)))^(3/8)\n"));
  CHECK(has(spread.out, "Not checked\n  spread of water in the gutter: needs Tmax"));
  CHECK(has(spread.out, "\n  depth of water at the curb: needs hc"));
  const Outcome json = run("reckon gutter-spread Q=1.5L/s Sx=2% SL=2.5% --json");
  CHECK(json.status == 0);
  CHECK(json.out.starts_with("{\n  \"name\": \"gutter-spread\""));
  CHECK(run("reckon --json").out.starts_with("[\n  {\"name\": "));
}

TEST_CASE("reckon: what is wrong is one line, status 2, nothing on standard output") {
  const std::pair<std::string, std::string> wrong[] = {
      {"gutter-sprad Q=1",
       "deckquire: reckon: there is no working 'gutter-sprad'; did you mean "
       "'gutter-spread'?\n"},
      {"gutter-spread Sx=2%",
       "deckquire: reckon gutter-spread: Q is missing (flow in the gutter; m³/s, L/s, L/min, m³/h, "
       "ft³/s, "
       "US gpm); SL is missing (grade along the gutter; a number, or %)\n"},
      {"gutter-spread Q=1.5L/s Sx=2% Sl=1%",
       "deckquire: reckon gutter-spread: there is no input 'Sl'; did you mean 'SL'?\n"},
      {"gutter-spread Q=1.5L/s Sx=2% SL=0",
       "deckquire: reckon gutter-spread: SL = 0 is out of range (grade along the gutter): at least "
       "1e-5 "
       "and at most 0.5\n"},
      {"gutter-spread Q=1.5psi Sx=2% SL=1%",
       "deckquire: reckon gutter-spread: Q (flow in the gutter): 'psi' is no unit of flow; the "
       "units are "
       "m³/s, L/s, L/min, m³/h, ft³/s, US gpm\n"},
      {"gutter-spread 1.5",
       "deckquire: reckon gutter-spread: '1.5' is no name=value; write it without blanks or in "
       "quotes\n"},
      {"pipe-bend delta=45deg V=1 units=us",
       "deckquire: reckon pipe-bend: units=us: this working has no constants of its own for US "
       "units; "
       "leave it out and give each value with its unit, US or SI\n"},
  };
  for (const auto& [line, message] : wrong) {
    const Outcome o = run("reckon " + line);
    CHECK(o.status == 2);
    CHECK(o.out.empty());
    CHECK(o.err == message);
  }
}
