#include "project/extract.h"

namespace deckquire {
namespace {

CurbSides side(const std::string& word) {
  return word == "left" ? CurbSides::left : word == "right" ? CurbSides::right : CurbSides::both;
}

PostPlateData extract_plate(const Fields& f) {
  PostPlateData p;
  p.length = f.length("length");
  p.width = f.length("width");
  p.thickness = f.length("thickness");
  p.cover = f.length("cover");
  p.thread = f.text("thread");
  p.along = f.integer("along");
  p.across = f.integer("across");
  p.pitch_along = f.length("pitch-along");
  p.pitch_across = f.length("pitch-across");
  p.tap_depth = f.length("tap-depth");
  return p;
}

void extract_bodies(const Fields& f, ScuppersData& s) {
  const Fields body = f.child("body"), grate = f.child("grate"), outlet = f.child("outlet");
  s.body_length = body.length("length");
  s.body_width = body.length("width");
  s.cavity = body.length("cavity");
  s.wall = body.length("wall");
  s.grate_length = grate.length("length");
  s.grate_width = grate.length("width");
  s.grate = grate.length("thickness");
  s.bolt = grate.text("bolt");
  s.bolts = grate.integer("bolts");
  s.bolt_length_pitch = grate.length("pitch-length");
  s.bolt_width_pitch = grate.length("pitch-width");
  s.outlet = outlet.length("diameter");
  s.outlet_wall = outlet.length("wall");
  s.outlet_below = outlet.length("below");
}

}  // namespace

std::optional<PostsData> extract_posts(const Fields& deck, const BridgeData& bridge) {
  if (!deck.has_child("posts")) return std::nullopt;
  const Fields f = deck.child("posts");
  PostsData p;
  p.greatest = f.optional_length("greatest");
  p.spacing = f.optional_length("spacing");
  p.bays = f.text("bays") == "equal" ? Bays::equal : Bays::half;
  p.first = f.length("first", bridge.alignment.from + p.spacing.value_or(Length()) / 2);
  p.first_given = f.given("first");
  p.sides = side(f.text("sides"));
  p.in_line = f.text("in-line") == "yes";
  p.at_ends = f.optional_length("at-ends");
  p.at_breaks = f.text("at-breaks") == "yes";
  p.freedom = f.length("freedom");
  p.clear = f.length("clear");
  p.plate = extract_plate(f.child("plate"));
  p.anchor = extract_anchor(f);
  p.place = f.place();
  f.each("post", [&](const Fields& e) {
    p.posts.push_back({e.text("name"), e.length("at"), side(e.text("side")), e.place()});
  });
  return p;
}

std::optional<ScuppersData> extract_scuppers(const Fields& deck) {
  if (!deck.has_child("scuppers")) return std::nullopt;
  const Fields f = deck.child("scuppers");
  ScuppersData s;
  s.inset = f.length("inset");
  s.spacing = f.optional_length("spacing");
  s.by_rain = f.text("by") == "drainage";
  s.reserve = f.length("reserve");
  s.sides = side(f.text("sides"));
  s.at_sags = f.text("at-sags") == "yes";
  s.at_end_joints = f.text("at-end-joints") == "yes";
  s.clear = f.length("clear");
  s.freedom = f.length("freedom");
  extract_bodies(f, s);
  s.place = f.place();
  f.each("scupper", [&](const Fields& e) {
    s.scuppers.push_back({e.text("name"), e.length("at"), side(e.text("side")), e.place()});
  });
  return s;
}

}  // namespace deckquire
