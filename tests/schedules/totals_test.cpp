// The same count on every table: one deck, counted on every road, and every seeded fault found.
#include "schedules/totals.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> all_examples() {
  std::vector<std::string> out;
  for (const char* folder : {"/projects", "/projects/story", "/tests/sheets", "/tests/placement"})
    for (const auto& entry : fs::directory_iterator(std::string(DECKQUIRE_SOURCE) + folder)) {
      const std::string stem = entry.path().stem().string();
      const bool fails = stem.size() > 6 && stem.compare(stem.size() - 6, 6, "-fails") == 0;
      const bool later = std::string(folder) == "/projects/story" && stem.front() != '1';  // need a register
      if (entry.path().extension() == ".xml" && !fails && !later) out.push_back(entry.path().string());
    }
  std::sort(out.begin(), out.end());
  return out;
}

const std::string saltmarsh = DECKQUIRE_SOURCE "/projects/saltmarsh.xml";

/// One more, a longer one, a heavier one; false where the cell is no number.
bool increase(Cell& c) {
  if (auto* n = std::get_if<std::int64_t>(&c)) return ++*n, true;
  if (auto* v = std::get_if<double>(&c)) return *v += 1, true;
  if (auto* m = std::get_if<Measured>(&c)) return m->value += 1, true;
  if (auto* l = std::get_if<Length>(&c)) return *l += mm(1), true;
  return false;
}

}  // namespace

TEST_CASE("totals: of every example the sums over panels, marks, spans and job agree, and all counts") {
  int jobs = 0;
  for (const std::string& path : all_examples()) {
    CAPTURE(path);
    int looked_at = 0;
    for (const std::string& wrong : disagreements(CountedJob(path), &looked_at)) FAIL_CHECK(wrong);
    CHECK(looked_at > 100);
    ++jobs;
  }
  CHECK(jobs > 12);
}

TEST_CASE("totals: a figure that is one too many in any table is found") {
  const CountedJob right(saltmarsh);
  REQUIRE(disagreements(right).empty());
  const std::vector<std::pair<const char*, std::vector<const char*>>> figures = {
      {"marks", {"quantity", "area_all_m2", "mass_all_kg"}},
      {"panels", {"area_m2", "mass_kg"}},
      {"spans", {"panels"}},
      {"joints", {"width_mm"}},
      {"materials", {"pieces", "length_m", "area_m2", "volume_m3", "mass_kg"}},
      {"materials-by-span", {"job", "joints", "span_1", "span_2", "span_3"}},
      {"materials-by-mark", {"quantity", "pieces", "length_m", "area_m2", "volume_m3", "mass_kg"}},
      {"materials-by-panel", {"pieces", "length_m", "area_m2", "volume_m3", "mass_kg"}},
      {"orders", {"net", "allowance", "to_order"}}};
  int faults = 0;
  for (const auto& [name, columns] : figures)
    for (const char* column : columns) {
      CountedJob job = right;
      Table& t = job.table(name);
      std::size_t i = 0;
      while (t.columns[i].name != column) REQUIRE(++i < t.columns.size());
      bool seeded = false;
      for (auto& row : t.rows)
        if (!seeded) seeded = increase(row[i]);
      CAPTURE(std::string(name) + ": " + column);
      CHECK(seeded);
      CHECK_FALSE(disagreements(job).empty());
      ++faults;
    }
  CHECK(faults == 31);
}

TEST_CASE("totals: a row that is missing from any table is found") {
  const CountedJob right(saltmarsh);
  for (const char* name :
       {"marks", "panels", "spans", "posts", "scuppers", "joints", "holes", "materials",
        "materials-by-span", "materials-by-mark", "materials-by-panel", "orders", "serial-register"}) {
    CountedJob job = right;
    Table& t = job.table(name);
    REQUIRE(!t.rows.empty());
    t.rows.erase(t.rows.begin() + static_cast<std::ptrdiff_t>(t.rows.size() / 2));
    CAPTURE(name);
    CHECK_FALSE(disagreements(job).empty());
  }
}

TEST_CASE("totals: a fitting that is missing in one panel is found") {
  const CountedJob right(saltmarsh);
  for (FeatureKind kind : {FeatureKind::post_plate, FeatureKind::scupper, FeatureKind::hatch,
                           FeatureKind::sleeve, FeatureKind::hold_down, FeatureKind::lifting_insert,
                           FeatureKind::pad}) {
    CountedJob job = right;
    bool seeded = false;
    for (Panel& p : job.deck.panels) {
      auto& all = p.shape.features;
      const auto at = std::find_if(all.begin(), all.end(), [&](const Feature& f) { return f.kind == kind; });
      if (seeded || at == all.end()) continue;
      all.erase(at);
      seeded = true;
    }
    CAPTURE(feature_name(kind));
    CHECK(seeded);
    CHECK_FALSE(disagreements(job).empty());
  }
}
