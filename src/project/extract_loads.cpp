// Loads, rain, temperatures and strengths out of the file.
#include "project/extract.h"

namespace deckquire {
namespace {

std::optional<Pressure> pressure(const Fields& f, const char* attribute) {
  const auto v = f.optional_si(attribute);
  return v ? std::optional(Pressure::si(*v)) : std::nullopt;
}

std::optional<Temperature> temperature(const Fields& f, const char* attribute) {
  const auto v = f.optional_si(attribute);
  return v ? std::optional(Temperature::si(*v)) : std::nullopt;
}

VehicleData extract_vehicle(const Fields& f) {
  return {Force::si(f.si("wheel")),
          f.length("gauge"),
          f.length("patch-along"),
          f.length("patch-across"),
          f.length("effective"),
          f.text("code"),
          f.place()};
}

RailLoadData extract_rail_load(const Fields& f) {
  return {f.si("line"), Force::si(f.si("point")), f.length("height"), f.text("code"), f.place()};
}

FactorsData extract_factors(const Fields& f) {
  return {
      f.si("dead"), f.si("pedestrian"), f.si("vehicle"), f.si("wind"), f.si("dead-against-wind"),
      f.si("rail"), f.text("code"),     f.place()};
}

RainData extract_rain(const Fields& f) {
  RainData r;
  r.words = f.text("value");
  r.intensity = f.optional_si("intensity");
  f.each("duration", [&](const Fields& e) {
    r.durations.push_back({e.si("minutes") * 60, e.si("intensity"), e.place()});
  });
  r.runoff = f.si("runoff");
  r.roughness = f.optional_si("roughness");
  r.spread = f.optional_length("spread");
  r.code = f.text("code");
  r.grate = f.text("grate");
  r.opening = f.optional_si("opening");
  const std::string model = f.text("clogging");
  r.clogging = model == "none"     ? ClogModel::none
               : model == "length" ? ClogModel::length
                                   : ClogModel::flow;
  r.blocked = f.si("blocked");
  r.blocked_in_sag = f.si("blocked-in-sag");
  r.pipe_filling = f.si("pipe-filling");
  r.place = f.place();
  return r;
}

TemperatureData extract_temperature(const Fields& f) {
  TemperatureData t;
  t.setting = temperature(f, "setting");
  t.least = temperature(f, "least");
  t.greatest = temperature(f, "greatest");
  t.deck_least = temperature(f, "deck-least");
  t.deck_greatest = temperature(f, "deck-greatest");
  t.steel_expansion = f.optional_si("steel-expansion");
  t.panel_expansion = f.optional_si("panel-expansion");
  t.least_gap = f.length("least-gap");
  t.source = f.text("source");
  t.place = f.place();
  return t;
}

}  // namespace

void extract_loads(const Fields& f, Conditions& c) {
  f.each("load", [&](const Fields& e) {
    c.loads.push_back({e.text("name"), e.text("value"), e.text("code"), e.place()});
  });
  f.each("pedestrian", [&](const Fields& e) {
    c.pedestrian = PedestrianData{Pressure::si(e.si("load")), e.text("code"), e.place()};
  });
  f.each("vehicle", [&](const Fields& e) { c.vehicle = extract_vehicle(e); });
  f.each("wind", [&](const Fields& e) {
    c.wind = WindData{Pressure::si(e.si("uplift")), e.text("code"), e.place()};
  });
  f.each("rail-load", [&](const Fields& e) { c.rail = extract_rail_load(e); });
  f.each("factors", [&](const Fields& e) { c.factors = extract_factors(e); });
  f.each("deflection", [&](const Fields& e) {
    c.deflection = DeflectionData{e.si("span"), e.si("arm"), e.text("code"), e.place()};
  });
  f.each("rain", [&](const Fields& e) { c.rain = extract_rain(e); });
  c.temperature = extract_temperature(f.child("temperature"));
}

std::optional<PanelStrengthData> extract_panel_strength(const Fields& deck) {
  if (!deck.has_child("panel-strength")) return std::nullopt;
  const Fields f = deck.child("panel-strength");
  return PanelStrengthData{Pressure::si(f.si("face-modulus")),
                           Pressure::si(f.si("core-shear-modulus")),
                           pressure(f, "face-strength"),
                           pressure(f, "core-shear-strength"),
                           pressure(f, "bearing-strength"),
                           f.text("source"),
                           f.place()};
}

std::optional<AnchorData> extract_anchor(const Fields& posts) {
  if (!posts.has_child("anchor")) return std::nullopt;
  const Fields f = posts.child("anchor");
  return AnchorData{f.text("bolts"),  pressure(f, "plate-strength"),
                    f.length("toe"),  f.si("shear-ratio"),
                    f.text("source"), f.place()};
}

}  // namespace deckquire
