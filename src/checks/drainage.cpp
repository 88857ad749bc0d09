// Does the deck drain? What the project must give, the storm, and the gutters; their workings are
// in drainage_gutters.cpp and drainage_scuppers.cpp.
#include "checks/drainage.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "deck/site.h"

namespace deckquire {
namespace {

using workings::Origin;

const char* side_word(Side side) {
  return side == Side::left ? "left" : "right";
}

/// False, and lines of what is not checked, where nothing can be calculated.
bool enough(const CalculationJob& job) {
  const auto no = [&](const char* what, const char* needs) {
    job.not_checked(Topic::drainage, what, needs);
  };
  const auto& rain = job.project.conditions.rain;
  const SectionData& section = job.project.deck.section;
  if (!rain) {
    no("drainage of the deck",
       "rain with its intensity, the gutter's roughness and an allowable spread (<rain>)");
    return false;
  }
  bool all = true;
  if (!rain_intensity(*rain, 0)) {
    no("flow and spread of water in the gutters",
       "the rain's intensity at 5 minutes (<rain intensity=> or <duration>)");
    all = false;
  }
  if (!rain->roughness) {
    no("flow and spread of water in the gutters", "the gutter's roughness (<rain roughness=>)");
    all = false;
  }
  if (section.fall == Fall::none || section.slope <= 0) {
    no("flow and spread of water on the deck", "a crossfall: the top is level across");
    all = false;
  }
  if (all && !rain->spread)
    no("spread of water against an allowed one", "the spread allowed (<rain spread=>)");
  return all;
}

std::vector<InletPlace> scuppers_of(const Deck& deck, Side side) {
  std::vector<InletPlace> out;
  for (std::size_t i = 0; i < deck.scuppers.size(); ++i)
    if (deck.scuppers[i].side == side)
      out.push_back({deck.scuppers[i].station.in_m(), static_cast<int>(i)});
  return out;
}

/// Why the scuppers of a gutter cannot be calculated; empty where they can.
std::string grate_fault(const DrainageJob& d) {
  if (d.water.grate) return "";
  if (d.rain.grate.empty()) return "the tested type of grate that theirs is like (<rain grate=>)";
  const double left = d.rain.clogging == ClogModel::length ? 1 - d.rain.blocked : 1;
  return fmt::format(
      "splash-over velocities of a grate {} mm long{}: tested are 122 to 1463 mm",
      decimal(left * d.job.project.deck.scuppers->grate_length.in_mm(), 0),
      left < 1 ? " where debris leaves it free" : "");
}

std::vector<GutterLine> lines_of(const CalculationJob& job) {
  std::vector<GutterLine> out;
  const SectionData& section = job.project.deck.section;
  const Length from = job.deck.panels.front().start, to = job.deck.panels.back().end;
  for (Side side : {Side::left, Side::right}) {
    if (!drains_to(section, side)) continue;
    if (has_gutter(section, side))
      out.emplace_back(job.project, job.bridge, side, from, to);
    else
      job.not_checked(Topic::drainage,
                      fmt::format("water on the {} side, where it runs over the edge",
                                  side_word(side)),
                      "a curb there, or what lies below");
  }
  return out;
}

std::vector<DrainedGutter> marched(const DrainageJob& d, const std::vector<GutterLine>& lines) {
  std::vector<DrainedGutter> out;
  bool said = false;
  for (const GutterLine& line : lines) {
    const auto scuppers = scuppers_of(d.job.deck, line.side());
    const std::string fault = scuppers.empty() ? "" : grate_fault(d);
    if (!fault.empty()) {
      if (!std::exchange(said, true))
        d.job.not_checked(Topic::drainage, "what the scuppers catch, and the spread between them",
                          fault);
      continue;
    }
    out.push_back({&line, march(line, d.water, d.job.bridge.alignment, scuppers),
                   fmt::format("{} gutter", side_word(line.side()))});
  }
  return out;
}

/// Sheet flow from the high line to the gutter by the kinematic wave (HEC-22 3rd ed., eq. 3-3), s.
double sheet_seconds(const DrainageJob& d, const GutterLine& line) {
  const double length = line.width(line.from()), rate = d.intensity * 3.6e6;
  return 60 * 6.92 / std::pow(rate, 0.4) *
         std::pow(d.water.n * length / std::sqrt(d.water.Sx), 0.6);
}

/// Least time of concentration of all reaches, s: the shortest rain that wets one of them wholly.
double concentration(const DrainageJob& d, const std::vector<DrainedGutter>& gutters) {
  double least = 0;
  for (const DrainedGutter& g : gutters) {
    const double t = sheet_seconds(d, *g.line) + g.march.seconds;
    least = least > 0 ? std::min(least, t) : t;
  }
  return least;
}

void take_intensity(DrainageJob& d, double seconds) {
  d.intensity = *rain_intensity(d.rain, seconds);
  d.water.rate = d.rain.runoff * d.intensity;
  d.intensity_origin = {Origin::From::project,
                        "at 5 minutes, the shortest time of concentration that is taken "
                        "(HEC-22 4th ed., §9.2.2)",
                        d.rain.place};
}

/// The table of durations as the working takes it.
std::string table_of(const RainData& rain) {
  const workings::Unit& rate = *workings::find_unit(workings::Kind::rain, "mm/h");
  std::string out;
  const auto add = [&](double seconds, double intensity) {
    out += fmt::format("{}{} min: {} mm/h", out.empty() ? "" : ", ", decimal(seconds / 60, 4),
                       workings::print_given(intensity, rate));
  };
  if (rain.intensity && rain.durations.front().seconds > 300) add(300, *rain.intensity);
  for (const RainDuration& r : rain.durations) add(r.seconds, r.intensity);
  return out;
}

/// The intensity out of a table of durations: the march is repeated until the time of its fastest
/// reach and the intensity agree.
void from_table(DrainageJob& d, std::vector<DrainedGutter>& gutters) {
  double seconds = 300;
  for (int k = 0; k < 8; ++k) {
    const double t = std::min(std::max(300.0, concentration(d, gutters)),
                              std::max(300.0, d.rain.durations.back().seconds));
    if (std::abs(t - seconds) < 0.5) break;
    seconds = t;
    take_intensity(d, seconds);
    for (DrainedGutter& g : gutters)
      g.march = march(*g.line, d.water, d.job.bridge.alignment,
                      scuppers_of(d.job.deck, g.line->side()));
  }
  GivenValues v(d);
  v.computed("t", seconds,
             fmt::format("sheet flow and gutter flow of the fastest reach take {} min; not less than "
                         "5 min is taken (HEC-22 4th ed., §9.2.2)",
                         decimal(concentration(d, gutters) / 60, 1)));
  v.word("idf", table_of(d.rain), d.rain.durations.front().place);
  if (add_working(d, "rain-intensity", std::move(v.values), "", d.rain.place))
    d.intensity_origin = {Origin::From::computed, "working rain-intensity", d.rain.place};
}

/// What outlets were not compared with, for want of its place; the rest is in crossings.cpp.
void say_what_lies_below(const CalculationJob& job) {
  if (job.deck.scuppers.empty()) return;
  if (job.project.bridge.crossings.empty())
    job.not_checked(Topic::drainage, "outlets over roads, tracks and paths",
                    "what lies below the bridge (crossing)");
  std::vector<std::string> unknown;
  for (const SupportData& s : job.project.bridge.supports)
    if (!s.top) unknown.push_back(s.name);
  if (!unknown.empty())
    job.not_checked(Topic::drainage, "outlets over bearings and tops of " + join(unknown, ", "),
                    "their sizes (support top=)");
}

}  // namespace

GivenValues& GivenValues::from_project(const char* symbol, double si, const Place& place,
                                       std::string words) {
  values[symbol] = {si, "", {Origin::From::project, std::move(words), place}};
  return *this;
}

GivenValues& GivenValues::computed(const char* symbol, double si, std::string words) {
  values[symbol] = {si, "", {Origin::From::computed, std::move(words), {}}};
  return *this;
}

GivenValues& GivenValues::word(const char* symbol, std::string text, const Place& place) {
  values[symbol] = {0, std::move(text), {Origin::From::project, "", place}};
  return *this;
}

GivenValues& GivenValues::rain() {
  from_project("C", d_.rain.runoff, d_.rain.place);
  values["i"] = {d_.intensity, "", d_.intensity_origin};
  return *this;
}

GivenValues& GivenValues::gutter() {
  from_project("n", d_.water.n, d_.rain.place);
  return from_project("Sx", d_.water.Sx, d_.job.project.deck.section.place);
}

GivenValues& GivenValues::allowed() {
  if (d_.water.allowed) from_project("Tmax", *d_.water.allowed, d_.rain.place, d_.rain.code);
  return from_project("hc", d_.water.curb, d_.job.project.deck.section.curb.place);
}

Calculation* add_working(const DrainageJob& d, const char* kind, workings::Values values,
                         std::string on, const Place& place) {
  const workings::WorkingKind& k = *workings::find_working(kind);
  try {
    Calculation c;
    c.topic = Topic::drainage;
    c.working = workings::reckon(k, std::move(values));
    c.on = std::move(on);
    c.place = place;
    d.job.out.list.push_back(std::move(c));
    return &d.job.out.list.back();
  } catch (const workings::WorkingError& e) {
    d.job.not_checked(Topic::drainage, on.empty() ? k.title : fmt::format("{}, {}", k.title, on),
                      fmt::format("values within its range: {}", e.what()));
    return nullptr;
  }
}

void calculate_drainage(const CalculationJob& job) {
  if (job.deck.panels.empty() || !enough(job)) return;
  const RainData& rain = *job.project.conditions.rain;
  DrainageJob d{job, rain, *gutter_water(job.project, *rain_intensity(rain, 0)), 0, {}};
  take_intensity(d, 0);
  const std::vector<GutterLine> lines = lines_of(job);
  std::vector<DrainedGutter> gutters = marched(d, lines);
  if (gutters.empty()) return;
  if (!rain.durations.empty()) from_table(d, gutters);
  gutter_workings(d, gutters);
  scupper_workings(d, gutters);
  say_what_lies_below(job);
}

}  // namespace deckquire
