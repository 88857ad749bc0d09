// What divisions of single spans come to as real panels: each is shaped with every feature, typed
// and weighed. Used inside deck/ only.
#pragma once

#include <map>
#include <memory>

#include "deck/division.h"
#include "deck/typing.h"

namespace deckquire {

/// A division of one span, built.
struct Tried {
  bool good = false;       // without an error, and everything found room
  std::vector<int> types;  // different ones, ascending; numbers hold over all spans and trials
  int panels = 0;
  Mass heaviest, total;
};

class Trials {
 public:
  Trials(const Project& project, const Bridge& bridge, const std::vector<SpanFrame>& frames)
      : project_(project),
        bridge_(bridge),
        frames_(frames),
        typing_(project.deck.marks.tolerance) {}

  /// Built once; a second question is answered from memory.
  const Tried& of(int span, const std::vector<Length>& panels);
  /// The type whose opposite hand this one is, else itself.
  int mould_of(int type) const { return moulds_[static_cast<std::size_t>(type)]; }
  /// Panels shaped so far: what the work grows with.
  std::int64_t shaped() const { return shaped_; }

 private:
  Tried build(int span, const std::vector<Length>& panels);
  const Project& alone(int span);

  const Project& project_;
  const Bridge& bridge_;
  const std::vector<SpanFrame>& frames_;
  Typing typing_;
  std::vector<int> moulds_;
  std::vector<Mass> masses_;
  std::map<int, Project> alone_;
  std::map<std::pair<int, std::vector<Length>>, Tried> known_;
  std::int64_t shaped_ = 0;
};

}  // namespace deckquire
