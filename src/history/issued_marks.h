// All marks that were ever issued, to be found by what they mean. Used inside history/ only.
#pragma once

#include <map>

#include "history/signature.h"

namespace deckquire::history {

class IssuedMarks {
 public:
  explicit IssuedMarks(const Register& issued);

  struct Fit {
    int mark = -1;
    bool turned = false;  // end for end to the drawing; false where either way would do
    bool drawn = false;   // it is the drawing itself, not a panel a little off it
  };
  /// The mark that a panel was issued with; of several `first`, else the lowest number.
  Fit find(const PanelShape& shape, const Project& project, int first) const;

  int index(const std::string& name) const;  // -1: never issued
  const IssuedMark& mark(int index) const { return known(index).mark; }
  /// Where its drawing shows the tag, from the lowest corner.
  std::optional<PanelPoint> tag(int index) const { return known(index).drawings.front().tag; }
  /// Whether panels of the mark were issued that were this part.
  bool means(int index, const Facts& facts) const;
  int highest() const { return highest_; }

 private:
  struct Known {
    IssuedMark mark;
    int number = 0;
    std::vector<Facts> drawings;  // the mark's own, then the variants
  };
  const Known& known(int index) const { return all_[static_cast<std::size_t>(index)]; }
  Fit find(const Facts& facts, int first) const;

  std::vector<Known> all_;  // in order of number
  std::map<std::string, int> names_;
  /// By kind_of(), then by the sum of all numbers, which equal parts have nearly equal, in whatever
  /// order their facts come: indices into all_.
  std::map<std::string, std::multimap<double, int>> kinds_;
  int highest_ = 0;
};

}  // namespace deckquire::history
