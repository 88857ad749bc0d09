// What hangs on what: the calculations of the main example, a value changed at a time; what is
// missing; what fails.
#include <set>

#include "loaded.h"

using namespace loaded;

namespace {

constexpr Topic topics[] = {Topic::drainage,  Topic::strength, Topic::posts,
                            Topic::hold_down, Topic::movement, Topic::lifting};

std::string names(const std::set<Topic>& which) {
  std::string all;
  for (Topic t : which) all += std::string(all.empty() ? "" : " ") + topic_code(t);
  return all;
}

std::string changed(const Calculated& a, const Calculated& b) {
  std::set<Topic> which;
  for (Topic t : topics)
    if (a.printed(t) != b.printed(t)) which.insert(t);
  return names(which);
}

}  // namespace

TEST_CASE("calculations: the main example is calculated in every topic, and kept") {
  const Calculated c = calculated(trial::example("saltmarsh"));
  CHECK(c.all.kept());
  CHECK(trial::codes(c.findings) == "");
  for (Topic t : {Topic::strength, Topic::posts, Topic::hold_down, Topic::movement, Topic::lifting}) {
    CAPTURE(topic_name(t));
    double worst = 0;
    for (const CheckLine& l : c.all.summary)
      if (l.topic == t) worst = std::max(worst, l.ratio);
    CHECK(worst > 0.3);
    CHECK(worst < 1);
  }
  // Every mark is in every topic that looks at panels.
  for (Topic t : {Topic::strength, Topic::posts, Topic::hold_down, Topic::movement, Topic::lifting}) {
    std::set<int> marks;
    for (const Calculation& k : c.all.list)
      if (k.topic == t) marks.insert(k.marks.begin(), k.marks.end());
    CAPTURE(topic_name(t));
    CHECK(marks.size() == c.built.deck.marks.size());
  }
  // In full: what the summary points to, and only some of the rest.
  std::size_t full = 0;
  for (const Calculation& k : c.all.list) full += k.in_full;
  CHECK(full * 2 < c.all.list.size());
  for (const CheckLine& l : c.all.summary) CHECK(c.all.list[l.worst].in_full);
  for (const Calculation& k : c.all.list) CHECK(k.place.line > 0);
}

TEST_CASE("calculations: the same deck gives the same text") {
  const Project p = trial::example("saltmarsh");
  CHECK(changed(calculated(p), calculated(p)) == "");
}

TEST_CASE("calculations: a value changes the topics that hang on it, and no other") {
  const Project p = trial::example("saltmarsh");
  const Calculated before = calculated(p);
  struct Change {
    const char* what;
    void (*make)(Project&);
    const char* topics;
  };
  const Change changes[] = {
      // The clips go with the girders, and the lifting inserts keep away from the clips.
      {"girders farther apart",
       [](Project& q) { q.bridge.girders[0].offset = mm(1010), q.bridge.girders[1].offset = mm(-1010); },
       "strength post hold-down movement lifting"},
      {"height of the rail", [](Project& q) { q.conditions.rail->height = mm(1200); }, "post"},
      {"load of the rail", [](Project& q) { q.conditions.rail->line *= 1.1; }, "post"},
      {"hotter", [](Project& q) { q.conditions.temperature.greatest = Temperature::si(45); },
       "movement"},
      {"colder panels", [](Project& q) { q.conditions.temperature.deck_least = Temperature::si(-25); },
       "movement"},
      {"stiffer core", [](Project& q) { q.deck.strength->core_shear_modulus = Pressure::si(95e6); },
       "strength post lifting"},
      {"stronger skins", [](Project& q) { q.deck.strength->face_strength = Pressure::si(70e6); },
       "strength post lifting"},
      {"more people", [](Project& q) { q.conditions.pedestrian->load = Pressure::si(5500); },
       "strength post"},
      {"heavier wheels", [](Project& q) { q.conditions.vehicle->wheel = Force::si(4100); },
       "strength"},
      {"limits of deflection", [](Project& q) { q.conditions.deflection->span = 310; }, "strength"},
      {"more wind", [](Project& q) { q.conditions.wind->uplift = Pressure::si(950); }, "hold-down"},
      {"stronger clips", [](Project& q) { q.deck.hold_downs->capacity = Force::si(9000); },
       "strength hold-down"},
      {"flatter slings", [](Project& q) { q.deck.lifting.angle = degrees(55); }, "lifting"},
      {"bolts", [](Project& q) { q.deck.posts->anchor->bolt_class = "10.9"; }, "post"},
      {"a heavier surface",
       [](Project& q) { q.deck.surfaces[0].mass = AreaDensity::si(9); },
       "strength post hold-down lifting"},
      {"a wider gap allowed to shrink", [](Project& q) { q.conditions.temperature.least_gap = mm(6); },
       "movement"}};
  for (const Change& change : changes) {
    Project q = p;
    change.make(q);
    CAPTURE(change.what);
    CHECK(changed(before, calculated(q)) == change.topics);
  }
}

TEST_CASE("calculations: an overloaded bridge fails where it is overloaded") {
  struct Change {
    const char* codes;
    void (*make)(Project&);
  };
  const Change changes[] = {
      {"strength-fails",
       [](Project& q) { q.conditions.vehicle->wheel = Force::si(5000); }},
      {"post-fails", [](Project& q) { q.deck.posts->anchor->plate_strength = Pressure::si(400e6); }},
      {"hold-down-fails", [](Project& q) { q.conditions.wind->uplift = Pressure::si(1500); }},
      {"movement-fails",
       [](Project& q) { q.conditions.temperature.greatest = Temperature::si(85); }},
      {"lifting-fails lifting-fails", [](Project& q) { q.deck.lifting.capacity_kn = 1; }},
      {"lifting-limit", [](Project& q) { q.deck.lifting.angle = degrees(44); }}};
  for (const Change& change : changes) {
    Project q = trial::example("saltmarsh");
    change.make(q);
    const Calculated c = calculated(q);
    std::set<std::string> codes;
    for (const Finding& f : c.findings.sorted()) {
      codes.insert(f.code);
      CHECK(f.place.line > 0);
    }
    CAPTURE(change.codes);
    std::string all;
    for (const std::string& code : codes) all += (all.empty() ? "" : " ") + code;
    CHECK(std::string(change.codes).find(all) == 0);
    CHECK(!codes.empty());
    CHECK(!c.all.kept());
  }
}

TEST_CASE("calculations: what is missing is said, and nothing is called kept for it") {
  struct Gap {
    Topic topic;
    const char* needs;
    void (*take)(Project&);
    const char* gone;  // verdict that must not be there; empty: none of the topic
  };
  const Gap gaps[] = {
      {Topic::strength, "panel-strength", [](Project& q) { q.deck.strength.reset(); }, ""},
      {Topic::posts, "panel-strength", [](Project& q) { q.deck.strength.reset(); },
       "bending of the skins, hogging under the rail load"},
      {Topic::lifting, "panel-strength", [](Project& q) { q.deck.strength.reset(); },
       "sagging moment in the lift"},
      {Topic::strength, "(pedestrian)", [](Project& q) { q.conditions.pedestrian.reset(); },
       "deflection of a span under people"},
      {Topic::strength, "(vehicle)", [](Project& q) { q.conditions.vehicle.reset(); },
       "deflection of a span under the wheels"},
      {Topic::strength, "(factors)", [](Project& q) { q.conditions.factors.reset(); },
       "shear of the core under people"},
      {Topic::strength, "(deflection)", [](Project& q) { q.conditions.deflection.reset(); },
       "deflection of a span under people"},
      {Topic::strength, "face-strength=", [](Project& q) { q.deck.strength->face_strength.reset(); },
       "bending of the skins, sagging under people"},
      {Topic::lifting, "face-strength=", [](Project& q) { q.deck.strength->face_strength.reset(); },
       "sagging moment in the lift"},
      {Topic::strength, "core-shear-strength=",
       [](Project& q) { q.deck.strength->core_shear_strength.reset(); },
       "shear of the core under people"},
      {Topic::strength, "bearing-strength=",
       [](Project& q) { q.deck.strength->bearing_strength.reset(); },
       "bearing on a girder under people"},
      {Topic::posts, "(rail-load)", [](Project& q) { q.conditions.rail.reset(); }, ""},
      {Topic::posts, "(factors)", [](Project& q) { q.conditions.factors.reset(); }, ""},
      {Topic::posts, "(posts anchor)", [](Project& q) { q.deck.posts->anchor.reset(); }, ""},
      {Topic::posts, "plate-strength=",
       [](Project& q) { q.deck.posts->anchor->plate_strength.reset(); },
       "length of thread for the bolt to break first, the standard's form"},
      {Topic::posts, "no proof stress", [](Project& q) { q.deck.posts->anchor->bolt_class = "A307"; },
       "tension and shear of one bolt together, couple model"},
      {Topic::hold_down, "(wind uplift=)", [](Project& q) { q.conditions.wind.reset(); }, ""},
      {Topic::hold_down, "(factors)", [](Project& q) { q.conditions.factors.reset(); }, ""},
      {Topic::hold_down, "capacity of one clip", [](Project& q) { q.deck.hold_downs->capacity.reset(); },
       ""},
      {Topic::hold_down, "hold-downs", [](Project& q) { q.deck.hold_downs.reset(); }, ""},
      {Topic::movement, "least=, greatest=",
       [](Project& q) { q.conditions.temperature.least.reset(); }, ""},
      {Topic::movement, "setting=", [](Project& q) { q.conditions.temperature.setting.reset(); }, ""},
      {Topic::movement, "steel-expansion=",
       [](Project& q) { q.conditions.temperature.steel_expansion.reset(); }, ""},
      {Topic::movement, "panel-expansion=",
       [](Project& q) { q.conditions.temperature.panel_expansion.reset(); }, "no such"},
      {Topic::lifting, "handling=", [](Project& q) { q.deck.lifting.handling.reset(); }, ""},
      {Topic::lifting, "lifting capacity=", [](Project& q) { q.deck.lifting.capacity_kn = 0; },
       "pull at one insert"}};
  const Project good = trial::example("saltmarsh");
  const Calculated before = calculated(good);
  for (const Gap& gap : gaps) {
    Project q = good;
    gap.take(q);
    const Calculated c = calculated(q);
    CAPTURE(gap.needs);
    CAPTURE(topic_name(gap.topic));
    CHECK(c.not_checked(gap.topic, gap.needs));
    CHECK(!before.not_checked(gap.topic, gap.needs));
    for (const CheckLine& l : c.all.summary)
      if (l.topic == gap.topic) CHECK((*gap.gone != 0 && l.what != gap.gone));
  }
}

TEST_CASE("calculations: nothing is known of a bare project, and nothing is kept") {
  const Calculated c = calculated(trial::example("quickstart"));
  CHECK(c.all.summary.empty());
  for (Topic t : {Topic::strength, Topic::posts, Topic::hold_down, Topic::movement, Topic::lifting}) {
    CAPTURE(topic_name(t));
    CHECK(c.not_checked(t, "needs"));
  }
}
