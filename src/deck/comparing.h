// Two panels laid on each other, and the list of what differs while it is being written. Used by
// the files of differences only.
#pragma once

#include "deck/differences.h"

namespace deckquire {

struct Comparing {
  const PanelShape& a;
  const PanelShape& b;  // turned already, if it is to be
  const Project& project;
  std::vector<Difference> list;

  PanelPoint shift() const { return bounds(b.outline).low - bounds(a.outline).low; }
  bool differ(double p, double q) const;
  bool differ(PanelPoint p, PanelPoint q) const { return differ(p.x, q.x) || differ(p.y, q.y); }
  /// Lengths in the project's units; "412 instead of 400".
  std::string print(double v) const { return print_length(mm(v), project.units); }
  std::string instead(double p, double q) const;
  /// A place of a, as its sheet gives it: from the back right corner.
  PanelPoint on_sheet(PanelPoint p) const;
  std::string place(PanelPoint p) const;                 // "x = 412, y = 1200"
  std::string places(PanelPoint p, PanelPoint q) const;  // "x = 412 instead of 400"
  void say(std::string of, std::string words, double amount = 0);
  /// Says "<what> 412 instead of 400" where the two differ.
  void measure(const std::string& of, const std::string& what, double p, double q);
};

/// Length, widths, edges, skews, ends, corners, curbs, section, surface.
void compare_plan(Comparing& c);
/// Everything in and on the panels.
void compare_features(Comparing& c);

}  // namespace deckquire
