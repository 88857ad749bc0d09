// The figures of the alignment: elements in plan, curves, vertical curves.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "bridge/curve_data.h"
#include "schedules/parts.h"

namespace deckquire {
namespace {

std::string degrees_text(double radians) {
  return decimal(radians * 180 / pi, 6);
}

/// In metres; empty where the line is straight.
Cell radius_cell(double curvature) {
  if (curvature == 0) return {};
  return 1e-3 / std::abs(curvature);
}

Cell metres_cell(const std::optional<double>& millimetres) {
  if (!millimetres) return {};
  return *millimetres / 1000;
}

std::string element_name(std::size_t i, const ElementData& e) {
  const char* turn = e.turn > 0 ? ", left" : ", right";
  switch (e.kind) {
    case ElementKind::tangent:
      return fmt::format("{} tangent", i + 1);
    case ElementKind::curve:
      return fmt::format("{} curve{}", i + 1, turn);
    case ElementKind::transition:
      return fmt::format("{} transition", i + 1);
  }
  return {};
}

struct OnSurvey {
  double easting0 = 0, northing0 = 0;
  Cell easting(GroundPoint p) const { return easting0 + p.x / 1000; }
  Cell northing(GroundPoint p) const { return northing0 + p.y / 1000; }
};

OnSurvey survey_of(const Alignment& line) {
  const SurveyPoint start = line.survey(line.from(), Length());
  return {start.easting, start.northing};
}

std::vector<Cell> element_row(const OnSurvey& on, std::size_t i, const ElementData& e) {
  return {element_name(i, e),
          mm(e.from),
          mm(e.to),
          (e.to - e.from) / 1000,
          radius_cell(e.curvature_from),
          radius_cell(e.curvature_to),
          degrees_text(e.turn),
          degrees_text(e.bearing),
          on.easting(e.begin),
          on.northing(e.begin),
          e.parameter > 0 ? Cell(e.parameter / 1000) : Cell()};
}

std::vector<Cell> end_row(const OnSurvey& on, const ElementData& last) {
  double bearing = std::fmod(last.bearing - last.turn, 2 * pi);
  if (bearing < 0) bearing += 2 * pi;
  return {std::string("end"),   mm(last.to),           {}, {}, {}, {}, {}, degrees_text(bearing),
          on.easting(last.end), on.northing(last.end), {}};
}

}  // namespace

Table alignment_table(const Bridge& bridge) {
  Table t{"alignment",
          "ELEMENTS OF THE ALIGNMENT",
          "Bearing, easting and northing are those of the line where the element begins; the last "
          "row is the end of the line. Bearings are clockwise from north; a turn to the left is "
          "positive. A of a transition is the root of its length over the change of curvature.",
          {},
          {},
          {},
          true};
  t.columns = {{"element", "Element", Measure::text},
               {"from_m", "From", Measure::station},
               {"to_m", "To", Measure::station},
               {"length_m", "Length", Measure::coordinate},
               {"radius_from_m", "Radius at begin", Measure::coordinate},
               {"radius_to_m", "Radius at end", Measure::coordinate},
               {"turn_deg", "Turn, degrees", Measure::text},
               {"bearing_deg", "Bearing, degrees", Measure::text},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"parameter_m", "A", Measure::coordinate}};
  const OnSurvey on = survey_of(bridge.alignment);
  const auto all = element_data(bridge.alignment);
  for (std::size_t i = 0; i < all.size(); ++i) t.rows.push_back(element_row(on, i, all[i]));
  t.rows.push_back(end_row(on, all.back()));
  const auto no_clothoid = [](const ElementData& e) { return e.parameter == 0; };
  if (!std::all_of(all.begin(), all.end(), no_clothoid)) return t;
  t.columns.pop_back();
  for (auto& row : t.rows) row.pop_back();
  return t;
}

Table curves_table(const Bridge& bridge) {
  Table t{"curves",
          "CURVES IN PLAN",
          "From PC, where the curve begins, to PT, where it ends. T is the tangent from either to "
          "their intersection PI, L the length along the arc, LC the long chord, E the external "
          "distance from PI to the arc, M the middle ordinate from the chord to the arc.",
          {},
          {},
          {},
          true};
  t.columns = {{"element", "Element", Measure::text},
               {"pc_m", "PC", Measure::station},
               {"pt_m", "PT", Measure::station},
               {"radius_m", "Radius", Measure::coordinate},
               {"deflection_deg", "Deflection, degrees", Measure::text},
               {"tangent_m", "T", Measure::coordinate},
               {"length_m", "L", Measure::coordinate},
               {"long_chord_m", "LC", Measure::coordinate},
               {"external_m", "E", Measure::coordinate},
               {"middle_ordinate_m", "M", Measure::coordinate},
               {"pi_easting_m", "PI easting", Measure::coordinate},
               {"pi_northing_m", "PI northing", Measure::coordinate},
               {"centre_easting_m", "Centre easting", Measure::coordinate},
               {"centre_northing_m", "Centre northing", Measure::coordinate}};
  const OnSurvey on = survey_of(bridge.alignment);
  const auto all = element_data(bridge.alignment);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const ElementData& e = all[i];
    if (!e.curve) continue;
    const CurveData& c = *e.curve;
    t.rows.push_back({element_name(i, e), mm(e.from), mm(e.to), c.radius / 1000,
                      degrees_text(c.deflection), metres_cell(c.tangent), c.length / 1000,
                      c.long_chord / 1000, metres_cell(c.external), c.middle_ordinate / 1000,
                      e.intersection ? on.easting(*e.intersection) : Cell(),
                      e.intersection ? on.northing(*e.intersection) : Cell(), on.easting(*e.centre),
                      on.northing(*e.centre)});
  }
  return t;
}

Table vertical_curves_table(const Bridge& bridge) {
  Table t{"vertical-curves",
          "VERTICAL CURVES",
          "Parabolas from BVC, where they begin, to EVC, where they end, centred on PVI, where the two "
          "grades would meet. Levels are "
          "those of the curve: moulded top on the alignment, without the wearing surface.",
          {},
          {},
          {},
          true};
  t.columns = {{"pvi_m", "PVI", Measure::station},
               {"bvc_m", "BVC", Measure::station},
               {"evc_m", "EVC", Measure::station},
               {"length_m", "Length", Measure::coordinate},
               {"grade_back", "Grade back", Measure::percent},
               {"grade_ahead", "Grade ahead", Measure::percent},
               {"bvc_level_m", "Level at BVC", Measure::level},
               {"pvi_level_m", "Level at PVI", Measure::level},
               {"evc_level_m", "Level at EVC", Measure::level},
               {"turning", "Turning point", Measure::text},
               {"turning_m", "At", Measure::station},
               {"turning_level_m", "Level there", Measure::level}};
  for (const VerticalCurve& v : bridge.alignment.vertical_curves())
    t.rows.push_back({v.middle, v.begin, v.end, (v.end - v.begin).in_m(), v.grade_back,
                      v.grade_ahead, v.level_begin, v.level_middle, v.level_end,
                      v.turning ? std::string(v.high ? "high" : "low") : std::string("none"),
                      v.turning ? Cell(*v.turning) : Cell(),
                      v.turning ? Cell(v.level_turning) : Cell()});
  return t;
}

}  // namespace deckquire
