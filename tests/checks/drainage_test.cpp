// Drainage of whole decks: what is said, what fails, what is not checked.
#include <map>
#include <set>

#include <fmt/format.h>

#include "checks/gutter_march.h"
#include "deck/trial.h"

using namespace deckquire;
using trial::example;

namespace {

struct Checked {
  trial::Built built;
  Calculations all;
  Findings findings;
};

Checked checked(const Project& p) {
  Checked c{trial::build(p), {}, {}};
  c.all = calculate(p, c.built.bridge, c.built.deck, c.findings);
  return c;
}

std::vector<const Calculation*> of(const Calculations& all, const std::string& working) {
  std::vector<const Calculation*> out;
  for (const Calculation& c : all.list)
    if (c.topic == Topic::drainage && c.working.name == working) out.push_back(&c);
  return out;
}

std::string not_checked(const Calculations& all) {
  std::string out;
  for (const NotChecked& n : all.not_checked)
    if (n.topic == Topic::drainage) out += n.what + ": " + n.needs + "\n";
  return out;
}

std::string drainage_codes(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings.sorted())
    if (f.code.starts_with("drainage")) out += f.code + " ";
  return out;
}

bool has(const std::string& text, const char* part) {
  return text.find(part) != std::string::npos;
}

const CheckLine* line(const Calculations& all, const std::string& what) {
  for (const CheckLine& l : all.summary)
    if (l.topic == Topic::drainage && l.what == what) return &l;
  return nullptr;
}

}  // namespace

TEST_CASE("drainage: the main example drains, and says by how much") {
  const Checked c = checked(example("saltmarsh"));
  CHECK(drainage_codes(c.findings) == "");
  for (const char* what : {"spread of water in the gutter", "depth of water at the curb",
                           "head over the outlet in the scupper", "flow in the down-pipe"}) {
    CAPTURE(what);
    REQUIRE(line(c.all, what));
    CHECK(line(c.all, what)->kept);
    CHECK(line(c.all, what)->ratio > 0.02);
  }
  CHECK(of(c.all, "gutter-balance").size() == 2);
  CHECK(of(c.all, "grate-on-grade").size() == 8);
  CHECK(of(c.all, "downpipe").size() == 1);
  for (const Calculation* b : of(c.all, "gutter-balance")) {
    CHECK(b->in_full);
    REQUIRE(b->working.curves.size() == 1);
    CHECK(b->working.curves[0].supports.size() == 4);
    CHECK(b->working.curves[0].x.size() == b->working.curves[0].y.size());
    CHECK(b->working.curves[0].x.size() > 60);
    double caught = 0;
    for (const Calculation* g : of(c.all, "grate-on-grade"))
      if (g->marks.size() == 1) caught += g->working.result("Qi");
    CHECK(caught > b->working.result("Qi"));
  }
  // What the grates of both gutters catch by their own workings is what the march caught.
  double grates = 0, march = 0;
  for (const Calculation* g : of(c.all, "grate-on-grade")) grates += g->working.result("Qi");
  for (const Calculation* b : of(c.all, "gutter-balance")) march += b->working.result("Qi");
  CHECK(grates == doctest::Approx(march).epsilon(1e-12));
  // What lies below is known, so that outlets keep clear of it.
  CHECK(!has(not_checked(c.all), "outlets over bearings"));
  CHECK(!has(not_checked(c.all), "outlets over roads"));
}

TEST_CASE("drainage: a spread that is too wide is an error at the scupper or the rain") {
  Project p = example("saltmarsh");
  p.conditions.rain->spread = mm(400);
  const Checked c = checked(p);
  CHECK(drainage_codes(c.findings) == "drainage-fails ");
  for (const Finding& f : c.findings.sorted())
    if (f.code == "drainage-fails") {
      CHECK(has(f.what, "spread of water in the gutter"));
      CHECK(f.place.line > 0);
    }
  CHECK_FALSE(line(c.all, "spread of water in the gutter")->kept);
}

TEST_CASE("drainage: each value that fails says so in its own words") {
  const auto fails = [](const Project& p, const char* what) {
    const Checked c = checked(p);
    const CheckLine* l = line(c.all, what);
    CAPTURE(what);
    REQUIRE(l);
    CHECK_FALSE(l->kept);
  };
  Project p = example("saltmarsh");
  p.conditions.rain->intensity = 1000e-3 / 3600;
  fails(p, "spread against the width up to the high line");
  p = example("saltmarsh");
  p.deck.section.curb.height = mm(8);
  fails(p, "depth of water at the curb");
  p = example("saltmarsh");
  p.deck.scuppers->outlet = mm(40);
  fails(p, "flow in the down-pipe");
  fails(p, "head over the outlet in the scupper");
}

TEST_CASE("drainage: what is missing is not checked, never ok") {
  const auto lines = [](auto change) {
    Project p = example("saltmarsh");
    change(p);
    const Checked c = checked(p);
    return std::pair(not_checked(c.all), of(c.all, "gutter-balance").size());
  };
  using P = Project&;
  auto [none, count] = lines([](P p) { p.conditions.rain.reset(); });
  CHECK(has(none, "drainage of the deck: rain with its intensity"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) { p.conditions.rain->intensity.reset(); });
  CHECK(has(none, "intensity at 5 minutes"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) { p.conditions.rain->roughness.reset(); });
  CHECK(has(none, "roughness"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) { p.conditions.rain->spread.reset(); });
  CHECK(has(none, "the spread allowed"));
  CHECK(count == 2);
  std::tie(none, count) = lines([](P p) { p.conditions.rain->grate.clear(); });
  CHECK(has(none, "tested type of grate"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) { p.conditions.rain->blocked = 0.7; });
  CHECK(has(none, "96 mm long where debris leaves it free"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) {
    p.deck.section.fall = Fall::none;
    p.deck.section.slope = 0;
  });
  CHECK(has(none, "crossfall"));
  CHECK(count == 0);
  std::tie(none, count) = lines([](P p) {
    p.deck.posts.reset();
    p.deck.section.curb.sides = CurbSides::left;
  });
  CHECK(has(none, "water on the right side, where it runs over the edge"));
  CHECK(count == 1);
}

TEST_CASE("drainage: low points without the grate's opening are not checked") {
  Project p = example("saltmarsh");
  p.bridge.alignment.grades = {{mm(0), metres(101.25), {}},
                               {metres(46.296), metres(100.787), {}},
                               {metres(95.092), metres(101.3), {}}};
  CHECK_FALSE(of(checked(p).all, "grate-in-sag").empty());
  p.conditions.rain->grate = "45-tilt-bar";
  p.conditions.rain->opening.reset();
  const Checked c = checked(p);
  CHECK(of(c.all, "grate-in-sag").empty());
  CHECK(has(not_checked(c.all), "depth of water over the scuppers at low points"));
}

TEST_CASE("drainage: a low point without a scupper fails") {
  Project p = example("saltmarsh");
  p.bridge.alignment.grades = {{mm(0), metres(101.25), {}},
                               {metres(80), metres(100.45), {}},
                               {metres(95.092), metres(100.6), {}}};
  const Checked c = checked(p);
  CHECK(has(drainage_codes(c.findings), "drainage-limit"));
}

TEST_CASE("drainage: no scupper, and none needed, with the length that the gutter carries") {
  Project p = example("quickstart");
  p.deck.scuppers.reset();
  p.conditions.rain = example("saltmarsh").conditions.rain;
  const Checked c = checked(p);
  const CheckLine* l = line(c.all, "length of gutter without a scupper");
  REQUIRE(l);
  CHECK(l->kept);
  CHECK(l->ratio > 0.2);
  // The ratio of lengths and that of spreads say the same: T grows with the 3/8th power of the
  // flow.
  CHECK(line(c.all, "spread of water in the gutter")->ratio ==
        doctest::Approx(std::pow(l->ratio, 3.0 / 8)).epsilon(0.01));
}

TEST_CASE("drainage: a table of durations gives the intensity at the time of concentration") {
  Project p = example("saltmarsh");
  const double five = *p.conditions.rain->intensity;
  p.conditions.rain->intensity.reset();
  p.conditions.rain->durations = {{300, five, {}}, {600, five * 0.7, {}}, {1800, five * 0.4, {}}};
  Checked c = checked(p);
  REQUIRE(of(c.all, "rain-intensity").size() == 1);
  const double short_reach = of(c.all, "rain-intensity")[0]->working.result("i");
  CHECK(short_reach <= five);
  CHECK(short_reach > five * 0.7);
  // A table that begins above 5 minutes does not say what falls in 5.
  p.conditions.rain->durations.erase(p.conditions.rain->durations.begin());
  CHECK(has(not_checked(checked(p).all), "intensity at 5 minutes"));
}

TEST_CASE("drainage: more rain changes the drainage, and nothing else") {
  const auto texts = [](const Project& p) {
    std::map<std::string, std::set<std::string>> out;
    for (const Calculation& c : checked(p).all.list)
      out[topic_code(c.topic)].insert(c.on + workings::to_text(c.working));
    return out;
  };
  Project p = example("saltmarsh");
  const auto before = texts(p);
  p.conditions.rain->intensity = *p.conditions.rain->intensity * 1.1;
  auto after = texts(p);
  REQUIRE(before.count("drainage"));
  for (const std::string& t : after["drainage"])
    CHECK_MESSAGE(before.at("drainage").count(t) == 0, t);
  for (const auto& [topic, all] : before)
    if (topic != "drainage") CHECK(all == after[topic]);
}

TEST_CASE("drainage: every example with this rain keeps the balance") {
  for (const char* name : {"saltmarsh", "heron", "orchard", "ropewalk", "quickstart"}) {
    Project p = example(name);
    p.conditions.rain = example("saltmarsh").conditions.rain;
    const Checked c = checked(p);
    CAPTURE(name);
    REQUIRE_FALSE(of(c.all, "gutter-balance").empty());
    for (const Calculation* b : of(c.all, "gutter-balance"))
      CHECK(b->working.result("Qi") + b->working.result("Qe") ==
            doctest::Approx(b->working.result("Qr")).epsilon(1e-9));
  }
}
