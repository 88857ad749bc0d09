// Tables of facts: what T sheets, CSV files and `list` show.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/text.h"
#include "base/units.h"

namespace deckquire {

/// What a column holds, and so how it is printed and written.
enum class Measure {
  text,
  count,
  length,     // drawings: mm or feet-inches; CSV: mm, name ends in _mm
  station,    // drawings: trade form; CSV: metres, name ends in _m
  coordinate, // easting, northing: metres or feet, three decimals; CSV metres
  level,      // metres or feet; CSV metres
  run,        // what is bought by the metre: metres or feet, one decimal; CSV metres
  fill,       // what is bought by the litre: litres or US gallons, one decimal; CSV litres
  mass,       // kg or lb, whole; CSV kg
  force,      // kN, one decimal, or lbf, whole; CSV N
  reach,      // m or ft, one decimal, rounded up: radius of a crane, sling; CSV metres
  area,       // m2 or sq ft; CSV m2
  volume,     // m3 or cu ft; CSV m3
  percent     // 1.25; CSV a ratio
};

struct Column {
  std::string name;  // machine name, SI: "start_station_m"
  std::string head;  // on the sheet, without unit: "Start station"
  Measure measure = Measure::text;
};

/// A quantity of a row whose unit is named in another cell of that row, by a UnitOf. In the SI unit of
/// its measure, as a plain double.
struct Measured {
  double value = 0;
  Measure measure = Measure::count;
};
/// Prints as the unit: "pcs", "m", "kg" ...; machines read that of CSV: "m2".
struct UnitOf {
  Measure measure = Measure::count;
};

/// std::monostate prints as an empty cell. A plain double is in the SI unit of its measure: length in
/// mm, station, coordinate, level, reach and run in m, mass in kg, force in N, area in m2, volume in m3, fill in
/// litres, percent as a ratio.
using Cell = std::variant<std::monostate, std::string, std::int64_t, Length, double, Measured, UnitOf>;

struct Table {
  std::string name;   // "panels": file name and word on the command line
  std::string title;  // "Panels in position"
  std::string intro;  // one sentence above the table on the sheet, may be empty
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  std::vector<Cell> total;   // empty, or one cell a column
  bool on_sheet = true;      // false: CSV and `list` only
  bool on_page = false;      // shown whole, and searched, on the index page too
};

/// True of a cell that is text to machines too: words, or the name of a unit.
bool is_words(const Cell& c);

/// The unit printed once in the head: "mm", "m", "ft-in" ..., empty for text and count.
std::string column_unit(Measure m, UnitSystem u);

/// As the sheets print it.
std::string print_cell(const Cell& c, Measure m, UnitSystem u);

/// As machines read it: SI, full precision, no quoting yet.
std::string machine_cell(const Cell& c, Measure m);

}  // namespace deckquire
