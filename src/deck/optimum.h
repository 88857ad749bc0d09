// The division of runs into panels of the fewest types. Pure arithmetic on whole nanometres: it
// knows no bridge. Method and check cases D1 to D9: reference on algorithms, part 1.
//
// A run lies between two lines that must be joints. A pitch is a panel and one joint gap, from line
// to line. A line may not lie strictly inside a zone; exactly at its end is legal.
//
// The key, smallest first: (types, panels, sum of |p - preferred|, sum of its squares, closing
// panels, list of lines); so the answer is one, on every machine.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace deckquire::optimum {

using Nm = std::int64_t;
__extension__ using Wide = __int128;  // squares of nanometres

/// Where no line may stand, and why: "clear-hatch: hatch H1".
struct Zone {
  Nm from = 0, to = 0;
  std::string what;
};
bool forbidden(const std::vector<Zone>& zones, Nm at);

/// One panel a run may have any length within these, whatever the step: it closes the run.
struct Closing {
  Nm least = 0, greatest = 0;
  /// Not the first nor the last panel of its run, if the run has three or more.
  bool inside = true;
};

struct Limits {
  Nm least = 0, greatest = 0;  // of a pitch
  Nm step = 1;                 // pitches are whole numbers of it ...
  std::vector<Nm> stops;       // ... or one of these
  bool divisors = true;        // ... or a run's length over a whole number
  Nm grain = 1;                // divisors are whole numbers of it
  Nm preferred = 0;
  std::optional<Closing> closing;
};

struct Run {
  Nm from = 0, to = 0;
  Limits limits;
  bool symmetrical = false;  // about its own middle
  int times = 1;             // runs that it stands for: itself, and its mirror images elsewhere
};

struct Task {
  std::vector<Run> runs;
  std::vector<Zone> zones;
  /// May there be a panel between two lines? Empty: wherever the limits allow it.
  std::function<bool(Nm from, Nm to)> admissible;
  /// Panels of one pitch and unequal kinds are of different types. Empty: one kind. With kinds the
  /// search is the beam, and nothing is proven but what pitches alone prove.
  std::function<int(Nm from, Nm to)> kind;
  std::size_t labels = 100;  // that the beam keeps at a line
  /// Steps of the search before it settles for the best found: a count, not a clock.
  std::int64_t work = 12'000'000;
};

struct Cost {
  std::int64_t panels = 0;
  Nm deviation = 0;
  Wide squares = 0;
  std::int64_t closing = 0;
  friend auto operator<=>(const Cost&, const Cost&) = default;
  Cost& operator+=(const Cost& b);
  friend Cost operator+(Cost a, const Cost& b) { return a += b; }
  Cost times(std::int64_t n) const;
};

/// What is known of the number of types.
struct Proof {
  int at_least = 1;       // no layout with fewer types exists on this lattice
  bool fewest = false;    // and the layout has just that many
  bool compared = false;  // every layout of that many types was compared
};

struct Layout {
  int types = 0;
  Cost cost;
  std::vector<std::vector<Nm>> lines;  // of each run, its ends included
  Proof proof;
};

/// What would have to give way for a division to exist, and by how much at the least.
struct Relaxation {
  std::string constraint;  // "longest", "shortest", "step", "closing" or a zone's `what`
  Nm amount = 0;           // longest: more; shortest: less; a zone: less of it. 0: not a length
  Nm at = 0;               // the line concerned
};

struct Infeasible {
  enum class Code {
    line_in_zone,   // a line that must be a joint lies in a zone
    zone_too_long,  // a zone is longer than the greatest pitch
    run_too_short,  // a run is shorter than the least pitch
    no_lines        // each by itself would do, together they leave no way through
  };
  Code code = Code::no_lines;
  Nm from = 0, to = 0;             // where
  Nm required = 0, available = 0;  // of what: see code
  std::vector<std::string> constraints;
  std::vector<Relaxation> relaxations;  // each helps by itself; smallest first
};

struct Answer {
  std::optional<Layout> layout;
  std::optional<Infeasible> infeasible;
};

/// The layout of the smallest key. Exact up to four types within the work allowed (see Layout's
/// proof), beyond that the best of a beam search.
Answer fewest_types(const Task& task);

/// The layout of the smallest rest of the key among those of exactly `types` lengths; nothing if
/// there is none or the work allowed does not reach so far. For comparing alternatives.
std::optional<Layout> best_with(const Task& task, int types);

/// The words for it: "no layout with fewer than 3 types exists on this lattice".
std::string words(const Proof& proof, int types);

/// A run in which every panel differs (the width changes all along): the fewest panels, then the
/// lightest heaviest one, then deviations and lines. `load` is what is limited, in whole units; a
/// panel within another is lighter. Lines are whole steps from the run's beginning.
struct Taper {
  Run run;
  std::vector<Zone> zones;
  std::function<std::int64_t(Nm from, Nm to)> load;
  std::int64_t most = INT64_MAX;
};
struct TaperLayout {
  std::vector<Nm> lines;
  std::int64_t heaviest = 0;
};
std::optional<TaperLayout> spread(const Taper& taper);
/// The fewest panels, each as long as can be: what `spread` improves on.
std::optional<TaperLayout> longest_first(const Taper& taper);

}  // namespace deckquire::optimum
