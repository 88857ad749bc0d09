#include <doctest/doctest.h>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;

namespace {

const std::string saltmarsh = DECKQUIRE_SOURCE "/projects/saltmarsh.xml";

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("why: two marks, one difference a line") {
  const Outcome o = run("why " + saltmarsh + " DP01 DP02");
  CHECK(o.status == 0);
  CHECK(o.err == "");
  CHECK(o.out ==
        "DP01 (5 panels, positions 1, 12, 13, 26, 27) differs from DP02 (2 panels, positions 2, "
        "28):\n"
        "  end joint at its back end instead of panel joint\n"
        "  a hatch less: H1 at x = 1244, y = 1500\n"
        "They are not opposite hands of each other.\n");
  CHECK(run("why " + saltmarsh + " dp01 dp02").out == o.out);
}

TEST_CASE("why: opposite hands and a mark against itself are named as such") {
  CHECK(has(run("why " + saltmarsh + " DP08 DP05").out,
            "DP08 is the opposite hand of DP05: its mirror image, and so another part\n"));
  const Outcome same = run("why " + saltmarsh + " DP02 DP02");
  CHECK(same.status == 0);
  CHECK(same.out ==
        "DP02 (2 panels, positions 2, 28) is one mark: its panels are the same part within 1\n");
}

TEST_CASE("why: JSON of a pair has the hand, the turn and the measures") {
  const std::string out = run("why " + saltmarsh + " DP08 DP05 --json").out;
  CHECK(has(out, "\"opposite_hand\": true"));
  CHECK(has(out, "{\"mark\": \"DP08\", \"quantity\": 2, \"positions\": [8, 31]}"));
  CHECK(has(out, "\"of\": \"left edge\""));
  CHECK(has(out, "\"amount_mm\": "));
}

TEST_CASE("why: a word that is no mark gets the nearest, a wrong project its findings") {
  const Outcome near = run("why " + saltmarsh + " DP99 DP01");
  CHECK(near.status == 2);
  CHECK(near.err == "deckquire: why: there is no mark 'DP99'; did you mean 'DP09'?\n");
  const Outcome far = run("why " + saltmarsh + " lookout");
  CHECK(far.status == 2);
  CHECK(has(far.err, "they are DP01 to DP15"));
  CHECK(run("why " + saltmarsh + " DP01 DP02 DP03").status == 2);
  CHECK(run("why /nowhere.xml").status == 3);
}

TEST_CASE("why: without marks the moves that save a mould, each as tried") {
  CHECK(has(run("why " + saltmarsh).out, "No two marks become one"));
  const TrialFolder trial;
  std::string text = read_file(saltmarsh);
  const std::string place = "name=\"S7\" at=\"0+061.296\"";
  text.replace(text.find(place), place.size(), "name=\"S7\" at=\"0+061.320\"");
  create_file(trial.path + "/moved.xml", text);
  const Outcome o = run("why " + trial.path + "/moved.xml");
  CHECK(o.status == 0);
  CHECK(has(o.out,
            "moving scupper S7 by 24 back would make DP13 (1 panel, position 25) a DP03: 15 marks "
            "instead of 16, one mould fewer\n"));
  CHECK(has(o.out, "The designer has to allow every move.\n"));
  CHECK(has(run("why " + trial.path + "/moved.xml --json").out, "\"marks_after\": 15"));
  const std::string one = run("why " + trial.path + "/moved.xml DP03").out;
  CHECK(has(one, "Nearest to it is DP13.\n"));
  CHECK(has(one, "would make DP13"));
}
