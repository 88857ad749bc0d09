#include "workings/threads.h"

#include <fmt/format.h>

namespace deckquire::workings {

namespace {

struct Metric {
  int size;
  double pitch, drill, d_min, d2_min, D1_max, D2_max;
};
// d and pitch: ISO 261; limits of size: ISO 965-2.
constexpr Metric metric[] = {{6, 1, 5.0, 5.794, 5.212, 5.153, 5.500},
                             {8, 1.25, 6.8, 7.760, 7.042, 6.912, 7.348},
                             {10, 1.5, 8.5, 9.732, 8.862, 8.676, 9.206},
                             {12, 1.75, 10.2, 11.701, 10.679, 10.441, 11.063},
                             {14, 2, 12.0, 13.682, 12.503, 12.210, 12.913},
                             {16, 2, 14.0, 15.682, 14.503, 14.210, 14.913},
                             {18, 2.5, 15.5, 17.623, 16.164, 15.744, 16.600},
                             {20, 2.5, 17.5, 19.623, 18.164, 17.744, 18.600},
                             {22, 2.5, 19.5, 21.623, 20.164, 19.744, 20.600},
                             {24, 3, 21.0, 23.577, 21.803, 21.252, 22.316},
                             {27, 3, 24.0, 26.577, 24.803, 24.252, 25.316},
                             {30, 3.5, 26.5, 29.522, 27.462, 26.771, 28.007}};

struct Unified {
  const char* size;
  double d;
  int per_inch;
  const char* drill_name;
  double drill, d_min, d2_min, D1_max, D2_max;
  bool read;  // limits second-hand from ASME B1.1-2019; else by its formulas
};
constexpr Unified unified[] = {
    {"1/4", 0.25, 20, "No. 7 (0.2010 in)", 0.2010, 0.2408, 0.2127, 0.207, 0.2224, true},
    {"5/16", 0.3125, 18, "F (0.2570 in)", 0.2570, 0.3026, 0.2712, 0.265, 0.2817, false},
    {"3/8", 0.375, 16, "5/16 in", 0.3125, 0.3643, 0.3287, 0.321, 0.3401, false},
    {"1/2", 0.5, 13, "27/64 in", 0.421875, 0.4876, 0.4435, 0.434, 0.4565, true},
    {"5/8", 0.625, 11, "17/32 in", 0.53125, 0.6113, 0.5589, 0.546, 0.5732, false},
    {"3/4", 0.75, 10, "21/32 in", 0.65625, 0.7353, 0.6773, 0.663, 0.6927, true},
    {"7/8", 0.875, 9, "49/64 in", 0.765625, 0.8592, 0.7946, 0.778, 0.8110, false},
    {"1", 1.0, 8, "7/8 in", 0.875, 0.9830, 0.9101, 0.890, 0.9276, true},
    {"1-1/4", 1.25, 7, "1-7/64 in", 1.109375, 1.2314, 1.1476, 1.123, 1.1668, false}};

const std::vector<BoltGrade>& grades() {
  const std::string iso = "ISO 898-1, class ";
  constexpr double ksi = 6.894757293168361;
  static const std::vector<BoltGrade> all{
      {"4.6", 400, 240, 225, iso + "4.6 (second-hand)"},
      {"4.8", 420, 340, 310, iso + "4.8 (second-hand)"},
      {"5.8", 520, 420, 380, iso + "5.8 (second-hand)"},
      {"8.8", 800, 640, 580, iso + "8.8, d ≤ 16 mm (second-hand; proof stress from memory)"},
      {"8.8", 830, 660, 600, iso + "8.8, d > 16 mm (second-hand)"},
      {"10.9", 1040, 940, 830, iso + "10.9 (second-hand)"},
      {"12.9", 1220, 1100, 970, iso + "12.9 (second-hand)"},
      {"A307", 60 * ksi, 0, 0, "ASTM A307, 60 ksi (second-hand)"},
      {"A325", 120 * ksi, 0, 0, "ASTM F3125 Grade A325, 120 ksi (second-hand)"}};
  return all;
}

std::string metric_source(int size) {
  const char* marks = size < 10    ? "bolt and D2 second-hand, D1 from memory"
                      : size == 10 ? "second-hand"
                      : size <= 14 ? "hole second-hand, bolt from memory"
                      : size <= 18 ? "D2 second-hand, the rest from memory"
                                   : "from memory";
  return fmt::format("ISO 965-2, 6g in 6H, row M{} ({}; checked with the formulas of ISO 965-1)",
                     size, marks);
}

std::vector<ThreadSize> made() {
  std::vector<ThreadSize> all;
  for (const Metric& m : metric) {
    all.push_back({fmt::format("M{}", m.size), false, static_cast<double>(m.size), m.pitch, m.drill,
                   fmt::format("{:.1f} mm", m.drill), m.d_min, m.d2_min, m.D1_max, m.D2_max,
                   metric_source(m.size)});
  }
  constexpr double in = 25.4;
  for (const Unified& u : unified) {
    all.push_back(
        {fmt::format("{}-{}", u.size, u.per_inch), true, u.d * in, in / u.per_inch, u.drill * in,
         u.drill_name, u.d_min * in, u.d2_min * in, u.D1_max * in, u.D2_max * in,
         fmt::format("ASME B1.1-2019, 2A in 2B, {} UNC ({})", u.size,
                     u.read ? "second-hand" : "from its tolerance formulas, from memory")});
  }
  return all;
}

}  // namespace

const std::vector<ThreadSize>& thread_sizes() {
  static const std::vector<ThreadSize> all = made();
  return all;
}

const ThreadSize* find_thread(std::string_view name) {
  for (const ThreadSize& t : thread_sizes()) {
    if (t.name == name) return &t;
  }
  return nullptr;
}

const BoltGrade* find_grade(std::string_view name, double diameter) {
  const BoltGrade* found = nullptr;
  for (const BoltGrade& g : grades()) {
    if (g.name == name && (!found || diameter > 16)) found = &g;
  }
  return found;
}

std::vector<std::string> grade_names() {
  std::vector<std::string> names;
  for (const BoltGrade& g : grades()) {
    if (names.empty() || names.back() != g.name) names.push_back(g.name);
  }
  return names;
}

std::vector<std::string> thread_names() {
  std::vector<std::string> names;
  for (const ThreadSize& t : thread_sizes()) names.push_back(t.name);
  return names;
}

}  // namespace deckquire::workings
