// What lies on a panel between two lines, as a number: equal for panels that will be one type, as
// far as that can be told without shaping them. Used inside deck/ only.
#pragma once

#include <array>
#include <map>

#include "deck/joint_rules.h"

namespace deckquire {

/// Heeds: edges, bends and wearing surface, end joints, recesses, scuppers, hatches, sleeves,
/// obstructions, posts that do not follow the joints; a half-turn is no difference, nor a mirror
/// image where `moulds`. Posts by the half-bay rule, hold-downs and lifting inserts follow from
/// these and the length.
class PanelKinds {
 public:
  PanelKinds(const Project& project, const Bridge& bridge, const std::vector<JointRules>& rules,
             bool moulds);
  int of(optimum::Nm from, optimum::Nm to);

 private:
  /// A thing on the deck: stations and offsets, whole nanometres.
  struct Thing {
    optimum::Nm from, to, low, high;
    int kind;
  };
  using Row = std::array<optimum::Nm, 5>;
  using Signature = std::vector<Row>;
  void add(double from, double to, double low, double high, int kind);
  void add_fittings(const Project& project);
  Signature signature(optimum::Nm from, optimum::Nm to) const;
  int number(Signature s);

  const Bridge& bridge_;
  const std::vector<JointRules>& rules_;
  bool moulds_;
  std::vector<Thing> things_;  // by where they begin
  optimum::Nm longest_ = 0;    // of a thing
  std::map<Signature, int> numbers_;
  std::map<std::pair<optimum::Nm, optimum::Nm>, int> known_;
};

}  // namespace deckquire
