// Deck -> workings: does it drain, carry, move, hold down and lift? Every number is that of a
// working (workings/), with the deck's own values and the project's.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "workings/working.h"

namespace deckquire {

/// In the order of the C sheets.
enum class Topic { drainage, strength, posts, hold_down, movement, lifting };
constexpr int topic_count = 6;
/// "drainage", "strength and deflection" ...: the word that sheets and messages print.
const char* topic_name(Topic topic);
/// "drainage", "hold-down" ...: in the codes of findings.
const char* topic_code(Topic topic);

/// One working of this deck.
struct Calculation {
  Topic topic{};
  std::string number;      // "C2.1": in the order of the list, by topic; given by calculate()
  std::string on;          // what it is of: "DP03, at 0+012.400", "left gutter"; empty: the deck
  std::vector<int> marks;  // indices of the marks that it holds for: their P sheets refer to it
  std::vector<int> joints; // indices of the joints that it holds for, where it is of joints
  Place place;             // the line of the project that decides most
  workings::Working working;
  bool in_full = true;  // printed with all steps; else in the summary only (others are worse)
};

/// One line of the summary: of all verdicts of a topic with the same words, the worst.
struct CheckLine {
  Topic topic{};
  std::string what;              // the verdict's words
  std::string on;                // of the worst
  std::string demand, capacity;  // printed, with unit
  double ratio = 0;
  bool kept = true;
  int count = 0;          // verdicts with these words
  std::size_t worst = 0;  // index into Calculations::list
};

struct NotChecked {
  Topic topic{};
  std::string what, needs;  // "uplift of the panels", "the wind's pressure (wind uplift=)"
};

struct Calculations {
  std::vector<Calculation> list;   // by topic
  std::vector<CheckLine> summary;  // by topic, then as they come
  std::vector<NotChecked> not_checked;
  bool kept() const;
};

/// Numbers the list, which is ordered by topic, and fills the summary.
void number_and_summarise(Calculations& all);

/// All that the project gives the values for; what it does not is in `not_checked`, never "ok". Of
/// every verdict or limit that is not kept an error goes to `findings` with the place in the
/// project, one for all marks that share a cause.
Calculations calculate(const Project& project, const Bridge& bridge, const Deck& deck,
                       Findings& findings);

}  // namespace deckquire
