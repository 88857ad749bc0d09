#include <doctest/doctest.h>

#include <cmath>
#include <set>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;

namespace {

const std::string saltmarsh = DECKQUIRE_SOURCE "/projects/saltmarsh.xml";

double number(const std::map<std::string, std::string>& row, const char* name) {
  return std::stod(row.at(name));
}

}  // namespace

// The columns are fixed by the design, section 9.
TEST_CASE("list: panels and marks begin with the columns that other programs rely on") {
  const std::string panels = run("list " + saltmarsh + " panels --csv").out;
  CHECK(panels.starts_with(
      "position,serial,mark,turned,span,start_station_m,end_station_m,length_left_mm,"
      "length_right_mm,width_start_mm,width_end_mm,area_m2,mass_kg"));
  const std::string marks = run("list " + saltmarsh + " marks --csv").out;
  CHECK(marks.starts_with("mark,quantity,opposite_hand_of,length_mm,width_mm,mass_kg,sheet"));
}

TEST_CASE("list: panels and marks of every example agree with one another") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const auto panels = rows_of(run("list " + project + " panels --csv").out);
    const auto marks = rows_of(run("list " + project + " marks --csv").out);
    CHECK(panels.size() > 1);
    std::map<std::string, int> used;
    std::set<std::string> serials;
    double start = -1e9, end = -1e9;
    for (const auto& p : panels) {
      ++used[p.at("mark")];
      CHECK(serials.insert(p.at("serial")).second);
      // Behind the panel before it, or beside it in another row.
      const double here = number(p, "start_station_m");
      const bool behind = here > end, beside = here == start && number(p, "end_station_m") == end;
      CHECK((behind || beside));
      start = here;
      end = number(p, "end_station_m");
      CHECK(number(p, "mass_kg") > 0);
      const double mean = (number(p, "width_start_mm") + number(p, "width_end_mm")) / 2 / 1000;
      const double length = end - number(p, "start_station_m");
      // Openings and notches are out of the area; the widths are those of the ends.
      CHECK(number(p, "area_m2") == doctest::Approx(mean * length).epsilon(0.25));
    }
    CHECK(used.size() == marks.size());
    for (const auto& m : marks) {
      CAPTURE(m.at("mark"));
      CHECK(used[m.at("mark")] == std::stoi(m.at("quantity")));
    }
  }
}

TEST_CASE("list: what draw writes in tables/ is what list prints") {
  REQUIRE(drawn(saltmarsh).outcome.status == 0);
  for (const std::string name : {"marks", "panels", "materials", "posts", "scuppers", "joints"}) {
    CAPTURE(name);
    CHECK(run("list " + saltmarsh + " " + name + " --csv").out ==
          read_file(drawn(saltmarsh).folder + "/tables/" + name + ".csv"));
  }
}

TEST_CASE("list: names without a schedule, nearest name for a wrong one") {
  const Outcome names = run("list " + saltmarsh);
  CHECK(names.status == 0);
  CHECK(names.out.find("marks ") != std::string::npos);
  const Outcome wrong = run("list " + saltmarsh + " pannels");
  CHECK(wrong.status == 2);
  CHECK(wrong.err == "deckquire: list: there is no schedule 'pannels'; did you mean 'panels'?\n");
  CHECK(run("list " + saltmarsh + " marks --csv --json").status == 2);
}

TEST_CASE("list: a standard output that cannot be written is an error") {
  const Outcome o = run("list " + saltmarsh + " marks --csv >/dev/full");
  CHECK(o.status == 3);
  CHECK(o.err.find("No space left on device") != std::string::npos);
}

TEST_CASE("check: nothing to say about the examples; JSON says so, and what was calculated") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const Outcome o = run("check " + project);
    CHECK(o.status == 0);
    CHECK(o.err == "");
    CHECK(o.out.find("not checked: ") != std::string::npos);
    const std::string json = run("check " + project + " --json").out;
    CHECK(json.starts_with("{\n\"findings\": [],\n\"summary\": ["));
    CHECK(json.find("\"not_checked\": [\n  \"") != std::string::npos);
    CHECK(json.find("\"calculations\": [") != std::string::npos);
  }
}
