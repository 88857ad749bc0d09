// What lies on which piece, against looking at every pair.
#include "deck/site.h"
#include "deck/trial.h"

using namespace deckquire;

namespace {

/// The examples, with masts along both edges and in the middle, and sleeves.
std::vector<Project> crowded() {
  std::vector<Project> out;
  for (const char* name : {"saltmarsh", "heron", "ropewalk"}) {
    Project p = trial::example(name);
    const AlignmentData& a = p.bridge.alignment;
    trial::Dice dice{7};
    for (int i = 0; i < 12; ++i) {
      ObstructionData o;
      o.name = "M" + std::to_string(i);
      o.kind = "mast";
      o.station = a.from + (a.to - a.from) * dice.next();
      o.offset = mm(dice.next() * 8000 - 4000);
      o.diameter = mm(80);
      o.clearance = mm(60);
      p.bridge.obstructions.push_back(o);
      SleeveData s;
      s.name = "T" + std::to_string(i);
      s.station = a.from + (a.to - a.from) * dice.next();
      s.offset = mm(dice.next() * 1000 - 500);
      s.diameter = mm(50);
      p.deck.sleeves.push_back(s);
    }
    out.push_back(p);
  }
  return out;
}

}  // namespace

TEST_CASE("contents: each piece has its own hatches and sleeves, and every obstruction near it") {
  for (const Project& p : crowded()) {
    Findings none;
    const Bridge bridge = build_bridge(p, none);
    const Division d = divide(p, bridge, none);
    REQUIRE(!d.pieces.empty());
    std::size_t near = 0;
    for (std::size_t i = 0; i < d.pieces.size(); ++i) {
      const int piece = static_cast<int>(i);
      std::vector<int> hatches, sleeves;
      for (std::size_t k = 0; k < p.deck.hatches.size(); ++k)
        if (owner(d, p.deck.hatches[k].station, p.deck.hatches[k].offset) == piece)
          hatches.push_back(static_cast<int>(k));
      for (std::size_t k = 0; k < p.deck.sleeves.size(); ++k)
        if (owner(d, p.deck.sleeves[k].station, p.deck.sleeves[k].offset) == piece)
          sleeves.push_back(static_cast<int>(k));
      CHECK(d.pieces[i].hatches == hatches);
      CHECK(d.pieces[i].sleeves == sleeves);
      // What is not listed lies clear of the panel.
      const PanelSite site(p, bridge, d, piece, none);
      const Ring<PanelFrame> outline{site.right.front(), site.right.back(), site.left.back(),
                                     site.left.front()};
      const auto& listed = d.pieces[i].obstructions;
      near += listed.size();
      for (std::size_t k = 0; k < bridge.obstructions.size(); ++k) {
        if (std::find(listed.begin(), listed.end(), static_cast<int>(k)) != listed.end()) continue;
        Ring<PanelFrame> kept;
        for (const GroundPoint& g : kept_free_ring(bridge, bridge.obstructions[k]))
          kept.push_back(site.frame.panel(g));
        CHECK(distance(kept, outline) > 0);
      }
    }
    CHECK(near < d.pieces.size() * bridge.obstructions.size() / 2);  // and few that are far
  }
}

TEST_CASE("splices between two stations, against looking at all of them") {
  const Project p = trial::example("saltmarsh");
  Findings none;
  const Bridge bridge = build_bridge(p, none);
  trial::Dice dice{3};
  for (int i = 0; i < 200; ++i) {
    Length from =
        bridge.splices[static_cast<std::size_t>(dice.upto(static_cast<int>(bridge.splices.size())))]
            .station;  // often exactly at one
    if (i % 3 == 0) from = mm(dice.next() * 105000);
    const Length to = from + mm(dice.next() * 30000);
    std::vector<int> all;
    for (std::size_t k = 0; k < bridge.splices.size(); ++k)
      if (from <= bridge.splices[k].station && bridge.splices[k].station <= to)
        all.push_back(static_cast<int>(k));
    CHECK(splices_between(bridge, from, to) == all);
  }
}
