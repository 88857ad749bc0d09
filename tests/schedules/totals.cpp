#include "schedules/totals.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "base/files.h"
#include "deck/deck.h"
#include "project/reader.h"
#include "schedules/hole_patterns.h"
#include "schedules/schedules.h"
#include "schedules/serial_register.h"

namespace deckquire {
namespace {

/// Rows as machines read them, by the names of the columns.
using Record = std::map<std::string, std::string>;

std::vector<Record> records(const Table& t) {
  std::vector<Record> out;
  for (const auto& row : t.rows) {
    out.emplace_back();
    for (std::size_t i = 0; i < row.size(); ++i)
      out.back()[t.columns[i].name] = machine_cell(row[i], t.columns[i].measure);
  }
  return out;
}

double number(const std::string& text) { return text.empty() ? 0 : std::stod(text); }

const char* const measures[] = {"pieces", "length_m", "area_m2", "volume_m3", "mass_kg"};

/// Of one item: by the names above.
using Sum = std::map<std::string, double>;
using Bill = std::map<std::string, Sum>;  // by item and description

std::string key(const Record& r) { return r.at("item") + " | " + r.at("description"); }

void add(Bill& bill, const Record& r, double times = 1) {
  Sum& sum = bill[key(r)];
  for (const char* m : measures) sum[m] += times * number(r.at(m));
}

double in_unit(const Sum& s, const std::string& unit) {
  if (unit == "pcs") return s.at("pieces");
  if (unit == "m") return s.at("length_m");
  if (unit == "L") return 1000 * s.at("volume_m3");
  if (unit == "m2") return s.at("area_m2");
  if (unit == "m3") return s.at("volume_m3");
  if (unit == "kg") return s.at("mass_kg");
  return std::nan("");
}

struct Counting {
  const CountedJob& job;
  std::vector<std::string> wrong = {};
  int looked_at = 0;
  Bill by_panel = {}, by_mark = {}, whole = {};
  std::map<std::string, Bill> by_span = {};
  std::map<std::string, double> joints = {};  // in the unit that each is ordered by

  void same(const std::string& what, double a, double b, bool exact) {
    ++looked_at;
    const bool agree = exact ? a == b : std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)});
    if (!agree) wrong.push_back(what + ": " + machine_number(a) + " and " + machine_number(b));
  }
  void same(const std::string& what, const Bill& a, const Bill& b) {
    std::set<std::string> keys;
    for (const auto& [k, sum] : a) keys.insert(k);
    for (const auto& [k, sum] : b) keys.insert(k);
    for (const std::string& k : keys)
      for (const char* m : measures) {
        const auto of = [&](const Bill& bill) {
          const auto at = bill.find(k);
          return at == bill.end() ? 0.0 : at->second.at(m);
        };
        same(what + ", " + k + ", " + m, of(a), of(b), std::string(m) == "pieces");
      }
  }

  std::vector<Record> of(const char* name) const {
    const Table* t = job.find(name);
    return t ? records(*t) : std::vector<Record>{};
  }
  double sum(const char* table, const char* column) const {
    double s = 0;
    for (const Record& r : of(table)) s += number(r.at(column));
    return s;
  }
  double pieces(const std::string& item, const char* of_measure = "pieces") const {
    double s = 0;
    for (const auto& [k, amounts] : whole)
      if (k.starts_with(item + " | ")) s += amounts.at(of_measure);
    return s;
  }
  double features(FeatureKind kind, double Feature::*size = nullptr) const {
    double n = 0;
    for (const Panel& p : job.deck.panels)
      for (const Feature& f : p.shape.features)
        if (f.kind == kind) n += size ? f.*size : 1;
    return n;
  }

  void bills();
  void spans();
  void orders();
  void panels();
  void holes();
  void fittings();
  void all_joints();
};

void Counting::bills() {
  std::map<std::string, double> mass, stated;
  for (const Record& r : of("materials-by-panel")) {
    add(by_panel, r);
    add(by_span[r.at("span")], r);
    mass[r.at("serial")] += number(r.at("mass_kg"));
  }
  for (const Record& r : of("panels")) stated[r.at("serial")] = number(r.at("mass_kg"));
  for (const auto& [serial, kg] : stated) same("mass of " + serial, mass[serial], kg, false);
  same("panels with a bill", static_cast<double>(mass.size()), static_cast<double>(stated.size()), true);
  for (const Record& r : of("materials-by-mark")) add(by_mark, r, number(r.at("quantity")));
  same("panels and marks", by_panel, by_mark);
  for (const Record& r : of("materials")) add(whole, r);
  // Less what belongs to joints, which no panel has.
  Bill of_panels = whole;
  for (auto& [k, amounts] : of_panels)
    if (!by_panel.count(k))
      for (auto& [m, v] : amounts) v = 0;
  same("panels and job", by_panel, of_panels);
}

void Counting::spans() {
  std::set<std::string> rows;
  for (const Record& r : of("materials-by-span")) {
    const std::string k = key(r), unit = r.at("unit");
    rows.insert(k);
    const bool exact = unit == "pcs";
    double parts = number(r.at("joints"));
    joints[k] = parts;
    for (const SpanRun& s : job.deck.spans) {
      const double here = number(r.at("span_" + s.name));
      const auto at = by_span[s.name].find(k);
      same("span " + s.name + ", " + k, here, at == by_span[s.name].end() ? 0 : in_unit(at->second, unit),
           exact);
      parts += here;
    }
    same("spans, joints and job, " + k, parts, number(r.at("job")), exact);
    const auto at = whole.find(k);
    same("job by span and job, " + k, number(r.at("job")), at == whole.end() ? -1 : in_unit(at->second, unit),
         exact);
  }
  same("items by span", static_cast<double>(rows.size()), static_cast<double>(whole.size()), true);
}

void Counting::orders() {
  std::set<std::string> rows;
  for (const Record& r : of("orders")) {
    const std::string k = key(r), unit = r.at("unit");
    const bool exact = unit == "pcs", ordered = !r.at("to_order").empty();
    rows.insert(k);
    const auto at = whole.find(k);
    const double net = number(r.at("net")), more = number(r.at("allowance"));
    same("net and job, " + k, net, at == whole.end() ? -1 : in_unit(at->second, unit), exact);
    if (ordered) same("to order, " + k, net + more, number(r.at("to_order")), exact);
    same("an order or who brings it, " + k, ordered ? 1 : 0,
         r.at("rule").starts_with("comes from the ") ? 0 : 1, true);
    same("no allowance without a rule, " + k, more > 0 && r.at("rule") == "none stated" ? 1 : 0, 0, true);
  }
  same("items ordered", static_cast<double>(rows.size()), static_cast<double>(whole.size()), true);
}

void Counting::panels() {
  const double n = static_cast<double>(job.deck.panels.size());
  double here = 0;
  std::set<std::string> serials, listed;
  for (const Record& r : of("serial-register"))
    if (r.at("status") != "void") ++here, listed.insert(r.at("serial"));
  for (const Record& r : of("panels")) serials.insert(r.at("serial"));
  same("rows of panels", static_cast<double>(of("panels").size()), n, true);
  same("serials of panels", static_cast<double>(serials.size()), n, true);
  same("quantities of marks", sum("marks", "quantity"), n, true);
  same("panels of spans", sum("spans", "panels"), n, true);
  same("serials of the register", here, n, true);
  same("register and panels by name", serials == listed ? 1 : 0, 1, true);
  same("tags", pieces("panel tag"), n, true);
  const double mass = sum("panels", "mass_kg");
  same("mass of marks", sum("marks", "mass_all_kg"), mass, false);
  same("area of marks", sum("marks", "area_all_m2"), sum("panels", "area_m2"), false);
  double bill = 0;
  for (const auto& [k, amounts] : by_panel) bill += amounts.at("mass_kg");
  same("mass of the bill", bill, mass, false);
  for (const char* t : {"materials", "panels"}) {
    const Table& table = *job.find(t);
    for (std::size_t i = 0; i < table.columns.size(); ++i)
      if (table.columns[i].name == "mass_kg") same(t, number(machine_cell(table.total[i], Measure::mass)), mass, false);
  }
}

void Counting::holes() {
  std::map<std::string, double> quantity, holes;
  for (const Record& r : of("marks")) quantity[r.at("mark")] = number(r.at("quantity"));
  for (const Record& r : of("holes")) holes[r.at("what")] += quantity[r.at("mark")];
  same("tapped holes and rail post bolts", holes["post plate, tapped"], pieces("rail post bolt"), true);
  double threads = 0;
  for (const Record& r : of("posts")) threads += std::atoi(r.at("thread").c_str());
  same("tapped holes and posts", holes["post plate, tapped"], threads, true);
  same("outlets", holes["scupper outlet"], pieces("outlet pipe"), true);
  same("grate bolts", holes["grate bolt, tapped insert"], pieces("grate bolt"), true);
  same("cover bolts", holes["hatch cover bolt, tapped insert"], pieces("cover bolt"), true);
  same("hold-down inserts", holes["hold-down insert"], pieces("hold-down insert"), true);
  same("lifting inserts", holes["lifting insert"], pieces("lifting insert"), true);
  same("sleeves", holes["sleeve"], pieces("sleeve"), true);
  double on_patterns = 0;
  for (const HolePattern& p : hole_patterns(job.project, job.deck))
    on_patterns += p.quantity * static_cast<double>(p.holes.size());
  same("holes of the templates", on_patterns,
       holes["post plate, tapped"] + holes["scupper outlet"] + holes["grate bolt, tapped insert"] +
           holes["hatch cover bolt, tapped insert"],
       true);
}

void Counting::fittings() {
  same("posts", static_cast<double>(of("posts").size()), pieces("post plate"), true);
  same("post plates", features(FeatureKind::post_plate), pieces("post plate"), true);
  for (const char* item : {"scupper body", "outlet pipe", "scupper grate"}) {
    same(item, features(FeatureKind::scupper), pieces(item), true);
    same("scuppers listed", static_cast<double>(of("scuppers").size()), pieces(item), true);
  }
  same("hatch covers", features(FeatureKind::hatch), pieces("hatch cover"), true);
  same("sleeves", features(FeatureKind::sleeve), pieces("sleeve"), true);
  for (const char* item : {"hold-down insert", "hold-down clip", "hold-down bolt"})
    same(item, features(FeatureKind::hold_down), pieces(item), true);
  for (const char* item : {"lifting insert", "insert cap"})
    same(item, features(FeatureKind::lifting_insert), pieces(item), true);
  same("pads", features(FeatureKind::pad), pieces("bearing pad"), true);
  // Panels of a mark may differ by the tolerance of marks; their bill is that of the drawing.
  const double length = features(FeatureKind::pad, &Feature::length) / 1000;
  const double play = job.project.deck.marks.tolerance.in_m() * features(FeatureKind::pad);
  same("length of pads", std::abs(length - pieces("bearing pad", "length_m")) <= play ? 1 : 0, 1, true);
}

void Counting::all_joints() {
  double ends = 0, covers = 0, sealed = 0;
  for (const Record& r : of("joints")) {
    const bool end = r.at("kind").starts_with("end joint");
    ends += end ? 1 : 0;
    if (end) covers += number(r.at("width_mm")) / 1000;
    if (r.at("kind") == "sealed") sealed += number(r.at("width_mm")) / 1000;
  }
  for (const Record& r : of("row-joints"))
    if (r.at("kind") == "sealed") sealed += number(r.at("length_mm")) / 1000;
  same("cover plates", ends, pieces("joint cover plate"), true);
  same("length of cover plates", covers, pieces("joint cover plate", "length_m"), false);
  same("sealant", sealed, pieces("sealant", "length_m"), false);
  same("backer rod", sealed, pieces("backer rod", "length_m"), false);
  for (const auto& [k, amount] : joints)
    same("parts of joints only, " + k, amount > 0 && by_panel.count(k) ? 1 : 0, 0, true);
}

}  // namespace

CountedJob::CountedJob(const std::string& path) {
  Findings findings;
  auto read = read_project(read_file(path), path, findings);
  REQUIRE(read);
  project = std::move(*read);
  bridge = build_bridge(project, findings);
  deck = build_deck(project, bridge, findings);
  REQUIRE(!findings.has_errors());
  tables = make_schedules(project, bridge, deck);
  tables.push_back(serial_register_table(deck, {}, plan_deliveries(project, deck, findings)));
}

Table& CountedJob::table(const std::string& name) {
  for (Table& t : tables)
    if (t.name == name) return t;
  FAIL("no table " << name);
  return tables.front();
}

const Table* CountedJob::find(const std::string& name) const {
  for (const Table& t : tables)
    if (t.name == name) return &t;
  return nullptr;
}

std::vector<std::string> disagreements(const CountedJob& job, int* looked_at) {
  Counting c{job};
  c.bills();
  c.spans();
  c.orders();
  c.panels();
  c.holes();
  c.fittings();
  c.all_joints();
  if (looked_at) *looked_at = c.looked_at;
  return c.wrong;
}

}  // namespace deckquire
