// The search behind alternatives.h. Used inside deck/ only.
#pragma once

#include "deck/alternatives.h"
#include "deck/layouts.h"
#include "deck/trials.h"

namespace deckquire {

/// One division of one span.
struct SpanChoice {
  std::vector<optimum::Nm> lines;
  std::vector<Length> panels;
  optimum::Nm deviation = 0;
  const Tried* tried = nullptr;  // nullptr: beyond the bound of the work
};

/// A division of the whole deck: for each span that asks, one of its choices.
struct Whole {
  std::string name;
  std::vector<int> choice;
};

struct Score {
  int setups = 0, panels = 0;
  optimum::Nm deviation = 0;
  std::vector<int> choice;
  friend auto operator<=>(const Score&, const Score&) = default;
};

class DivisionSearch {
 public:
  /// `asking`: the spans to divide, each with a rule; the others stay as they are in `fixed`.
  DivisionSearch(const Project& project, const Bridge& bridge, const std::vector<SpanFrame>& frames,
                 std::vector<int> asking, std::vector<std::vector<Length>> fixed);

  /// False, and an error in `findings`, where a span cannot be divided.
  bool seek(Findings& findings);
  /// Adds a division of the whole deck from elsewhere, if it keeps the rules or `anyway`.
  void add(const std::string& name, const std::vector<std::vector<Length>>& spans, bool anyway);
  /// Shapes what there is room for, and finds the best combination.
  void decide();

  /// Builds and checks the whole deck with the best division; where that has errors the next best
  /// ones are, and the first without any, or one with the fewest, becomes the best. `findings`
  /// hears of it. At most 24 decks of `most_shaped` panels in all.
  void settle(const DeckChecks& checks, Findings& findings);
  /// True where settle() took another one than was sought.
  bool settled() const { return settled_; }

  const Whole& best() const { return best_; }
  const std::vector<Whole>& wholes() const { return wholes_; }
  std::vector<std::vector<Length>> panels(const Whole& w) const;
  Alternative described(const Whole& w);
  /// Every span's panels were shaped, without an error.
  bool buildable(const Whole& w) const;
  int refused_span() const { return refused_span_; }
  int at_least() const { return at_least_; }
  bool proven() const { return proven_; }
  std::string bound() const;
  /// True, and an error in `findings`, where no choice of a span keeps its greatest mass.
  bool too_heavy(Findings& findings) const;

 private:
  /// What a division comes to as a whole deck.
  struct Verdict {
    bool refused = false;  // not complete: what was checked would mean little
    int errors = 0;
    std::string first;
  };
  Verdict verdict(const Whole& w, const DeckChecks& checks) const;
  std::vector<Whole> next_best() const;
  bool find_layouts(Mass allowance, Findings& findings);
  void add_outline(const std::string& name, const Outline& o);
  void add_recipes();
  void add_by_features();
  void add_equal();
  std::vector<Recipe> recipes() const;
  std::vector<optimum::Nm> feature_pitches() const;
  int index_of(std::size_t asking, const std::vector<optimum::Nm>& lines);
  void shape_all();
  bool usable(std::size_t asking, int choice) const;
  bool within_mass(std::size_t asking, const Tried& t) const;
  std::optional<Mass> most_mass(std::size_t asking) const;
  Score score(const std::vector<int>& choice) const;
  void improve(Whole w);
  int setups(const std::vector<int>& choice) const;

  const Project& project_;
  const Bridge& bridge_;
  const std::vector<SpanFrame>& frames_;
  std::vector<int> asking_;
  std::vector<std::vector<Length>> fixed_;  // by span of the deck
  std::vector<JointRules> rules_;           // by asking span
  std::vector<std::vector<SpanChoice>> choices_;
  std::vector<int> fixed_types_;
  Trials trials_;
  std::vector<Whole> wholes_;
  Whole best_;
  Score best_score_;
  bool moulds_ = false, bounded_ = false, proven_ = true, settled_ = false;
  int at_least_ = 0, refused_span_ = -1;
};

/// The error for a stretch that has no division: the rule in the way, where, what would help.
void report_refused(const Project& project, const JointRules& rules, const Refused& refused,
                    Findings& findings);

}  // namespace deckquire
