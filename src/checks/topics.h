// The topics of calculations.h, one function a topic. Used inside checks/ only.
#pragma once

#include "checks/calculations.h"

namespace deckquire {

struct CalculationJob {
  const Project& project;
  const Bridge& bridge;
  const Deck& deck;
  Calculations& out;

  void not_checked(Topic topic, std::string what, std::string needs) const {
    out.not_checked.push_back({topic, std::move(what), std::move(needs)});
  }
};

void calculate_drainage(const CalculationJob& job);
void calculate_strength(const CalculationJob& job);
void calculate_posts(const CalculationJob& job);
void calculate_hold_down(const CalculationJob& job);
void calculate_movement(const CalculationJob& job);
void calculate_lifting(const CalculationJob& job);

}  // namespace deckquire
