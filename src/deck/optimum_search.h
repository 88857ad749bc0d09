// What the files of optimum share: candidates, checks before the search, the beam beyond it.
#pragma once

#include "deck/optimum_sweep.h"

namespace deckquire::optimum {

/// Every pitch that a panel of some run may have, ascending: whole steps, stops and, where asked
/// for, the runs' own divisors.
std::vector<Nm> candidates_of(const Task& task, const Pieces& pieces);

/// Why no division exists at all, whatever the number of types; nothing where there is one.
std::optional<Infeasible> find_infeasible(const Task& task, const Pieces& pieces,
                                          const std::vector<Nm>& candidates);

/// The best layout that a beam of labels finds; kinds count. No claim of being the fewest. A
/// closing panel only at the end of a run, or over the middle of a symmetrical one.
std::optional<Layout> beam_search(const Task& task, const Pieces& pieces,
                                  const std::vector<Nm>& candidates);

/// Types and cost of lines already found.
Layout counted(const Task& task, std::vector<std::vector<Nm>> lines);

}  // namespace deckquire::optimum
