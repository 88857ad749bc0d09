// What a panel weighs, and where its centre of gravity lies.
#include <fmt/format.h>

#include <algorithm>

#include "base/geometry.h"
#include "workings/cautions.h"
#include "workings/inputs.h"
#include "workings/lifting.h"
#include "workings/lists.h"

namespace deckquire::workings {

namespace {

/// Parts with m_… and z_… among the steps.
class Takeoff {
 public:
  explicit Takeoff(Reckoner& r) : r_(r) {}
  void part(const std::string& suffix, const std::string& words, const char* mass,
            const char* height) {
    r_.step("m_" + suffix, "mass of " + words, mass, Kind::mass, "kg");
    r_.step("z_" + suffix, "height of " + words, height, Kind::length, "mm");
    note(suffix);
  }
  void note(const std::string& suffix) {
    sum_ += (sum_.empty() ? "m_" : " + m_") + suffix;
    moments_ += (moments_.empty() ? "m_" : " + m_") + suffix + "*z_" + suffix;
    r_.result("m_" + suffix);
    r_.result("z_" + suffix);
  }
  void total() {
    r_.step("m", "mass of the panel", sum_, Kind::mass, "kg");
    r_.step("z", "height of the centre of gravity above the soffit", "(" + moments_ + ")/m",
            Kind::length, "mm");
  }

 private:
  Reckoner& r_;
  std::string sum_, moments_;
};

void skins_and_core(Reckoner& r, Takeoff& t) {
  r.step("t_m", "mean thickness", "t_e + s*B/4", Kind::length, "mm");
  r.step("k", "length along the slope over length level", "sqrt(1 + s^2)", Kind::number, "");
  r.step("h_c", "mean height of the core", "t_m - 2*t_s", Kind::length, "mm");
  r.condition("t_e > 2*t_s", "there is room for a core at the edge",
              "thinner skins or a thicker panel");
  r.step("A_c", "section of the core", "B*h_c", Kind::area, "mm²");
  t.part("bottom", "the bottom skin", "rho_s*B*L*t_s*1e-9", "t_s/2");
  t.part("top", "the top skin, along the slope", "rho_s*B*k*L*t_s*1e-9", "t_m - t_s/2");
  t.part("webs", "the webs across the bridge", "rho_w*n_w*t_w*A_c*1e-9",
         "t_s + (h_c^2 + (s*B/2)^2/12)/(2*h_c)");
  t.part("core", "the core between the webs", "rho_c*A_c*(L - n_w*t_w)*1e-9", "z_webs");
}

void more_parts(Reckoner& r, Takeoff& t) {
  if (!r.given("more")) return;
  int i = 0;
  for (const std::string& item : split(r.text("more"), ";")) {
    const std::vector<std::string> halves = split(item, "@");
    if (halves.size() != 2) {
      throw WorkingError(
          fmt::format("more: '{}' is no mass at a height; write 12 kg @ 60 mm", item));
    }
    const std::string suffix = fmt::format("{}", ++i);
    r.found("m_" + suffix, "mass of further part " + suffix,
            typed_value(halves[0], Kind::mass, "kg", "more"), Kind::mass, "kg", "as entered");
    r.found("z_" + suffix, "height of further part " + suffix,
            typed_value(halves[1], Kind::length, "mm", "more"), Kind::length, "mm", "as entered");
    t.note(suffix);
  }
}

/// A part that is there but has no size or density would weigh nothing, unnoticed.
void need_with(const Reckoner& r, const char* part, std::initializer_list<const char*> values) {
  if (r.value(part) == 0) return;
  for (const char* v : values) {
    if (r.value(v) == 0) throw WorkingError(fmt::format("{} is missing: {} is not 0", v, part));
  }
}

void panel_mass(Reckoner& r) {
  if (r.value("n_k") != 0 && r.value("n_k") != 2)
    throw WorkingError("n_k: curbs are 0 or 2, one on each side");
  need_with(r, "n_w", {"t_w", "rho_w"});
  need_with(r, "n_k", {"b_k", "h_k", "rho_k"});
  need_with(r, "n_p", {"a_p", "b_p", "t_p", "z_p"});
  need_with(r, "t_o", {"rho_o"});
  Takeoff t(r);
  skins_and_core(r, t);
  if (r.value("n_k") > 0) {
    t.part("curbs", "the curbs", "n_k*rho_k*b_k*h_k*L*1e-9", "t_e + s*b_k/2 + h_k/2");
  }
  if (r.value("n_p") > 0) t.part("plates", "the steel plates", "n_p*rho_p*a_p*b_p*t_p*1e-9", "z_p");
  if (r.value("t_o") > 0) {
    r.step("b_o", "width of the overlay, level", "B - n_k*b_k", Kind::length, "mm");
    t.part("overlay", "the overlay between the curbs, along the slope", "rho_o*t_o*b_o*k*L*1e-9",
           "t_e + s*(n_k*b_k/2 + B/2)/2 + t_o/2");
  }
  more_parts(r, t);
  t.total();
  r.constant("g", "standard gravity in m/s²", standard_gravity, "ISO 80000-3");
  r.step("G", "weight", "m*g", Kind::force, "N");
  r.step("m_A", "mass per area", "m/(B*L*1e-6)", Kind::area_density, "kg/m²");
  r.result("m");
  r.result("z");
  r.result("G", "kN");
  r.result("m_A");
  r.condition("m > 0", "more is put in than taken out", "check the parts taken out");
  r.not_checked(
      "openings, recesses, inserts, resin-rich corners: enter them under more, taken out with a "
      "minus");
  r.caution(cautions::weight);
}

struct Shape {
  double area = 0, x = 0, y = 0;  // m2, mm
  std::string words;
};

Ring<PanelFrame> typed_ring(const std::string& text, const char* what) {
  Ring<PanelFrame> ring;
  for (const std::string& corner : split(text, ",")) {
    const std::vector<std::string> xy = split(corner, " ");
    if (xy.size() != 2) {
      throw WorkingError(fmt::format(
          "{}: '{}' is no corner; write x y in mm, corners parted by commas: 0 0, 3000 0, …", what,
          corner));
    }
    ring.push_back({typed_value(xy[0], Kind::length, "mm", what),
                    typed_value(xy[1], Kind::length, "mm", what)});
  }
  if (ring.size() < 3)
    throw WorkingError(fmt::format("{}: '{}' has fewer than three corners", what, text));
  return ring;
}

Shape typed_shape(const std::string& text, const char* what) {
  constexpr std::string_view round = "round ";
  if (text.starts_with(round)) {
    const std::vector<std::string> v = split(text.substr(round.size()), " ");
    if (v.size() != 3) {
      throw WorkingError(fmt::format("{}: '{}': write round x y diameter, in mm", what, text));
    }
    const double d = typed_value(v[2], Kind::length, "mm", what);
    return {pi * d * d / 4e6, typed_value(v[0], Kind::length, "mm", what),
            typed_value(v[1], Kind::length, "mm", what), fmt::format("circle of {:g} mm", d)};
  }
  Ring<PanelFrame> ring = typed_ring(text, what);
  const double a = area(ring);
  if (!(a != 0)) throw WorkingError(fmt::format("{}: '{}' encloses nothing", what, text));
  if (a < 0) std::reverse(ring.begin(), ring.end());
  const auto c = centroid(ring);
  return {area(ring) / 1e6, c.x, c.y,
          fmt::format("{} corners, sums of cross products", ring.size())};
}

void plan_centroid(Reckoner& r) {
  std::vector<Shape> shapes{typed_shape(r.text("corners"), "corners")};
  if (r.given("openings")) {
    for (const std::string& o : split(r.text("openings"), ";"))
      shapes.push_back(typed_shape(o, "openings"));
  }
  std::string A, Ax, Ay;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    const std::string k = std::to_string(i), what = i == 0 ? "the outline" : "opening " + k;
    const Shape& s = shapes[i];
    r.found("A_" + k, "area of " + what, s.area, Kind::area, "m²", s.words);
    r.found("x_" + k, "centroid of " + what, s.x, Kind::length, "mm", s.words);
    r.found("y_" + k, "centroid of " + what, s.y, Kind::length, "mm", s.words);
    const std::string sign = i == 0 ? "" : " - ";
    A += sign + "A_" + k, Ax += sign + "A_" + k + "*x_" + k, Ay += sign + "A_" + k + "*y_" + k;
  }
  for (const char* s : {"A_0", "x_0", "y_0"}) r.result(s);
  r.step("A", "net area", A, Kind::area, "m²");
  r.step("x", "centre of gravity", "(" + Ax + ")/A", Kind::length, "mm");
  r.step("y", "centre of gravity", "(" + Ay + ")/A", Kind::length, "mm");
  r.step("m", "mass", "m_A*A", Kind::mass, "kg");
  r.constant("g", "standard gravity in m/s²", standard_gravity, "ISO 80000-3");
  r.step("G", "weight", "m*g", Kind::force, "N");
  for (const char* s : {"A", "x", "y", "m"}) r.result(s);
  r.result("G", "kN");
  r.condition("A > 0", "the openings leave something", "check the openings");
  r.not_checked("that openings lie inside the outline and apart from each other");
  r.caution(cautions::weight);
}

}  // namespace

WorkingKind panel_mass_kind() {
  WorkingKind k;
  k.name = "panel-mass";
  k.title = "Mass of a crowned panel, part by part";
  k.about =
      "Rectangular panel, flat below and falling both ways from its middle: skins, webs, core, "
      "curbs, plates, "
      "overlay and further parts (12 kg @ 60 mm; -8 kg @ 50 mm).";
  k.group = "lifting";
  k.sources = {"Volumes × densities (derived)", "Steel 7850 kg/m³ (490 lb/ft³)"};
  const auto length = [](const char* symbol, const char* meaning) {
    return InputSpec{symbol, meaning, Kind::length, "mm"}.range(0);
  };
  const auto none = [](const char* symbol, const char* meaning, Kind kind, const char* unit) {
    return InputSpec{symbol, meaning, kind, unit}.range(0).standard("0", "none");
  };
  k.inputs = {InputSpec{"B", "width across the bridge", Kind::length, "mm"}.range(above_zero),
              InputSpec{"L", "length along the bridge", Kind::length, "mm"}.range(above_zero),
              InputSpec{"t_e", "thickness at the edges", Kind::length, "mm"}.range(above_zero),
              none("s", "crossfall, each way from the middle", Kind::number, ""),
              length("t_s", "thickness of each skin"),
              InputSpec{"rho_s", "density of the skins", Kind::density, "kg/m³"}.range(0),
              none("n_w", "webs", Kind::count, ""),
              none("t_w", "thickness of a web", Kind::length, "mm"),
              none("rho_w", "density of the webs", Kind::density, "kg/m³"),
              InputSpec{"rho_c", "density of the core", Kind::density, "kg/m³"}.range(0),
              none("n_k", "curbs: 0 or 2", Kind::count, ""),
              none("b_k", "width of a curb", Kind::length, "mm"),
              none("h_k", "height of a curb", Kind::length, "mm"),
              none("rho_k", "density of the curbs", Kind::density, "kg/m³"),
              none("n_p", "steel plates", Kind::count, ""),
              none("a_p", "length of a plate", Kind::length, "mm"),
              none("b_p", "width of a plate", Kind::length, "mm"),
              none("t_p", "thickness of a plate", Kind::length, "mm"),
              none("z_p", "height of a plate's middle above the soffit", Kind::length, "mm"),
              InputSpec{"rho_p", "density of the plates", Kind::density, "kg/m³"}.range(0).standard(
                  "7850", "steel"),
              none("t_o", "thickness of the overlay", Kind::length, "mm"),
              none("rho_o", "density of the overlay", Kind::density, "kg/m³"),
              InputSpec{"more", "further parts, mass at height"}.as_list().if_known()};
  k.example =
      "B=3000 L=2400 t_e=100 s=2% t_s=8 rho_s=1850 n_w=17 t_w=6 rho_w=1850 rho_c=80 n_k=2 b_k=150 "
      "h_k=120 rho_k=1200 t_o=6 rho_o=1900 \"more=15 kg @ 205 mm\"";
  k.work = panel_mass;
  return k;
}

WorkingKind plan_centroid_kind() {
  WorkingKind k;
  k.name = "plan-centroid";
  k.title = "Area, mass and centre of gravity of a panel in plan";
  k.about =
      "Any outline with openings, and one mass per area. Corners x y in mm: 0 0, 3000 0, 3000 "
      "2400, 0 1900. "
      "Openings, parted by semicolons, by their corners, or round x y diameter: round 300 250 150.";
  k.group = "lifting";
  k.sources = {"Polygon: sums of cross products of neighbouring corners (derived)"};
  k.inputs = {
      InputSpec{"corners", "outline, x y of each corner in mm: 0 0, 3000 0, 3000 2400, 0 1900"}
          .as_list(),
      InputSpec{"openings", "openings"}.as_list().if_known(),
      InputSpec{"m_A", "mass per area", Kind::area_density, "kg/m²"}.range(0)};
  k.example =
      "\"corners=0 0, 3000 0, 3000 2400, 0 1900\" \"openings=1800 700, 2400 700, 2400 1300, 1800 "
      "1300; round 300 250 150\" m_A=62";
  k.work = plan_centroid;
  return k;
}

}  // namespace deckquire::workings
