#include "schedules/field.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bridge/measured.h"
#include "deck/steel_room.h"

namespace deckquire {
namespace {

const char* const not_computed = "not computed";

class Field {
 public:
  Field(const Project& project, const Bridge& bridge, const Deck& deck)
      : project_(project), bridge_(bridge), deck_(deck) {
    Findings said;  // with the bridge
    measured_ = measured_steel(project, bridge, said);
  }

  FieldTable supports() const {
    FieldTable f{table("field-supports", "SUPPORTS",
                       "- back, + ahead, the way the stations rise. An abutment may come nearer to the deck until "
                       "the end gap is the least one, before heat closes it further; how much further away it may "
                       "be is not computed."),
                 line("support", "at")};
    f.table.columns = {{"support", "Support", Measure::text}};
    column(f.table, "station_m", "Station", Measure::station);
    for (std::size_t i = 0; i < bridge_.supports.size(); ++i) {
      const Support& s = bridge_.supports[i];
      const MeasuredSteel* m = found(MeasuredThing::support, i, {});
      std::vector<Cell> row{s.name};
      add(row, s.station, end_room(s), m ? m->station : std::nullopt);
      f.table.rows.push_back(std::move(row));
    }
    return f;
  }

  FieldTable girders() const {
    FieldTable f{table("field-girders", "GIRDERS AT THE JOINTS",
                       "Offsets are positive to the left: + left, - right, until a panel bears on too little, "
                       "an opening comes too near to the flange or a clip's insert meets it; whether a clip "
                       "still reaches is not computed, its reach is not stated. The level is that of the "
                       "flange's top; steel that is low is shimmed."),
                 line("girder", "at", "offset", "level", "width")};
    f.table.columns = {{"girder", "Girder", Measure::text},
                       {"joint", "Joint", Measure::text},
                       {"at_m", "At station", Measure::station}};
    column(f.table, "offset_mm", "Offset", Measure::length);
    column(f.table, "level_m", "Level", Measure::level);
    column(f.table, "flange_mm", "Flange", Measure::length);
    for (std::size_t i = 0; i < bridge_.girders.size(); ++i)
      for (const Joint& j : deck_.joints) {
        const Girder& g = bridge_.girders[i];
        if (j.station < g.from || j.station > g.to) continue;
        f.table.rows.push_back(girder_row(static_cast<int>(i), g, j));
      }
    return f;
  }

  FieldTable splices() const {
    FieldTable f{table("field-splices", "SPLICES",
                       "- back, + ahead: as far as the panel's hollow leaves the setting tolerance to plate and "
                       "bolts. The two sides of a plate that is longer or wider use up half of the difference "
                       "each. Bolts: highest end above the flange."),
                 line("splice", "at", "length", "width", "projection")};
    f.table.columns = {{"splice", "Splice", Measure::text}};
    column(f.table, "station_m", "Station", Measure::station);
    column(f.table, "length_mm", "Length", Measure::length);
    column(f.table, "width_mm", "Width", Measure::length);
    column(f.table, "bolts_mm", "Bolts above flange", Measure::length);
    for (std::size_t i = 0; i < bridge_.splices.size(); ++i) {
      const Splice& s = bridge_.splices[i];
      const MeasuredSteel* m = found(MeasuredThing::splice, i, {});
      const SpliceRoom r = splice_room(project_, bridge_, deck_, s);
      std::vector<Cell> row{s.name};
      add(row, s.station, both(r.back, r.ahead), m ? m->station : std::nullopt);
      add(row, s.length, longer(r.back, r.ahead), m ? m->length : std::nullopt);
      add(row, s.width, longer(r.left, r.right), m ? m->width : std::nullopt);
      add(row, s.plate + s.projection, upper(r.up), m ? m->projection : std::nullopt);
      f.table.rows.push_back(std::move(row));
    }
    return f;
  }

  FieldTable obstructions() const {
    FieldTable f{table("field-obstructions", "MASTS, HANGERS, COLUMNS",
                       "The middle may lie off by so much to any side before less than its clearance is free; "
                       "a larger one uses up half of the difference."),
                 line("obstruction", "at", "offset", "diameter", "length", "width")};
    f.table.columns = {{"obstruction", "Obstruction", Measure::text}};
    column(f.table, "station_m", "Station", Measure::station);
    column(f.table, "offset_mm", "Offset", Measure::length);
    column(f.table, "along_mm", "Along or diameter", Measure::length);
    column(f.table, "across_mm", "Across", Measure::length);
    for (std::size_t i = 0; i < bridge_.obstructions.size(); ++i) {
      const Obstruction& o = bridge_.obstructions[i];
      const MeasuredSteel* m = found(MeasuredThing::obstruction, i, {});
      const ObstructionRoom r = obstruction_room(bridge_, deck_, o);
      const double room = r.panel ? r.distance - o.clearance.in_mm() : 1e300;
      std::vector<Cell> row{o.name};
      add(row, o.station, either(room), m ? m->station : std::nullopt);
      add(row, o.offset, either(room), m ? m->offset : std::nullopt);
      const std::string size = upper(2 * room);
      add(row, o.diameter.value_or(o.length), size, m ? (o.diameter ? m->diameter : m->length) : std::nullopt);
      if (o.diameter)
        row.insert(row.end(), 3, Cell());
      else
        add(row, o.width, size, m ? m->width : std::nullopt);
      f.table.rows.push_back(std::move(row));
    }
    return f;
  }

 private:
  const Project& project_;
  const Bridge& bridge_;
  const Deck& deck_;
  std::vector<MeasuredSteel> measured_;

  static Table table(const char* name, const char* title, const char* intro) {
    return {name, title, intro, {}, {}, {}, false};
  }

  template <class... Words>
  static std::string line(const char* of, const Words*... attributes) {
    std::string out = fmt::format("<measured of=\"{}\" name=\"______\"", of);
    ((out += fmt::format(" {}=\"______\"", attributes)), ...);
    return out + " by=\"______\" date=\"____-__-__\"/>";
  }

  static void column(Table& t, const std::string& name, const std::string& head, Measure measure) {
    t.columns.push_back({name, head, measure});
    t.columns.push_back({"allows_" + name.substr(0, name.rfind('_')), "allows", Measure::text});
    t.columns.push_back({"measured_" + name, "measured", measure});
  }

  static void add(std::vector<Cell>& row, Length nominal, std::string allows,
                  const std::optional<Length>& measured) {
    row.push_back(nominal);
    row.push_back(std::move(allows));
    row.push_back(measured ? Cell(*measured) : Cell());
  }

  const MeasuredSteel* found(MeasuredThing of, std::size_t index, std::optional<Length> at) const {
    for (const MeasuredSteel& m : measured_)
      if (m.of == of && m.index == static_cast<int>(index) && (!at || m.station == at)) return &m;
    return nullptr;
  }

  /// Rounded down to the print unit's whole steps: what is printed can be had.
  std::string amount(double room) const {
    if (room > 1e5) return "any";
    if (project_.units == UnitSystem::metric) room = std::floor(room * 2 + 1e-6) / 2;
    else room = std::floor(room / (25.4 / 16) + 1e-6) * 25.4 / 16;
    return print_length(mm(std::abs(room)), project_.units);
  }

  std::string side(const char* sign, const std::optional<double>& room) const {
    if (!room) return std::string(sign) + " any";
    if (*room < -1e-4) return fmt::format("{} none", sign);
    return sign + amount(*room);
  }
  std::string both(const std::optional<double>& minus, const std::optional<double>& plus) const {
    if (minus && plus && std::abs(*minus - *plus) < 0.05 && *minus > 1e-4) return "±" + amount(*minus);
    return side("-", minus) + " " + side("+", plus);
  }
  std::string either(double room) const { return room < 1e-4 ? "0" : "±" + amount(room); }
  std::string upper(const std::optional<double>& room) const {
    if (room && *room > -1e-4 && *room < 1e-4) return "+0";
    return side("+", room);
  }
  /// A plate that grows, its middle in place.
  std::string longer(const std::optional<double>& a, const std::optional<double>& b) const {
    if (!a && !b) return "any";
    return upper(2 * std::min(a.value_or(1e300), b.value_or(1e300)));
  }

  std::string end_room(const Support& s) const {
    const Joint* joint = outer_joint_at(bridge_, deck_, s);
    if (joint == nullptr) return "no gap depends on it";
    const TemperatureData& t = project_.conditions.temperature;
    if (t.place.line == 0) return not_computed;
    const bool first = joint == &deck_.joints.front();
    const double room = (joint->gap - t.least_gap).in_mm();
    return first ? "+" + amount(std::max(0.0, room)) : "-" + amount(std::max(0.0, room));
  }

  std::string high_room() const {
    for (const ToleranceData& t : project_.conditions.tolerances)
      if (t.of == "level") return "±" + amount(t.value.in_mm());
    if (!project_.deck.pads) return not_computed;
    return fmt::format("under +{}, shim", amount(project_.deck.pads->thickness.in_mm()));
  }

  std::vector<Cell> girder_row(int index, const Girder& g, const Joint& j) const {
    const MeasuredSteel* m = found(MeasuredThing::girder, static_cast<std::size_t>(index), j.station);
    const double offset = girder_offset(bridge_, g, j.station.in_mm());
    const auto room = flange_room(project_, bridge_, deck_, g, j.station, offset, g.flange.in_mm());
    std::vector<Cell> row{g.name, j.name, j.station};
    add(row, mm(offset), room ? both(room->right, room->left) : not_computed,
        m ? m->offset : std::nullopt);
    add(row, steel_top(project_, bridge_, deck_, j.station), high_room(), m ? m->level : std::nullopt);
    add(row, g.flange, room ? both(room->narrower, room->wider) : not_computed,
        m ? m->width : std::nullopt);
    return row;
  }
};

}  // namespace

std::vector<FieldTable> field_tables(const Project& project, const Bridge& bridge, const Deck& deck) {
  const Field field(project, bridge, deck);
  std::vector<FieldTable> out;
  for (FieldTable f : {field.supports(), field.girders(), field.splices(), field.obstructions()})
    if (!f.table.rows.empty()) out.push_back(std::move(f));
  return out;
}

}  // namespace deckquire
