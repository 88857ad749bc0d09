// What was cast is protected: what would change it, and what was decided about that. Used inside
// history/ only.
#pragma once

#include <map>

#include "history/identities.h"

namespace deckquire::history {

enum class Way { none, rework, replace, accept };

/// A built panel, or one whose place is gone, that the design would change.
struct BuiltChange {
  const IssuedPosition* old = nullptr;
  const Panel* panel = nullptr;  // nullptr: its place is gone
  std::optional<PanelShape> built;  // its shape in place
};

/// The built panels of the register, and the decisions of the project about them.
class BuiltPanels {
 public:
  BuiltPanels(const Project& project, const Register& issued);

  bool has(const std::string& serial) const { return built_.count(serial) > 0; }
  /// What is decided for the project's last revision, or was accepted for good: `wanted` is what the
  /// design asks for now. Without a decision the change is kept for report().
  Way decide(const BuiltChange& change, const Signature& wanted);
  /// A way that cannot be gone.
  void refuse(const BuiltChange& change, const std::string& why, Findings& findings) const;
  /// Changes without a decision, one finding for all that are changed alike; decisions of this
  /// revision that decide nothing.
  void report(Findings& findings) const;

 private:
  const Decision* decision(const std::string& serial, bool of_this_revision) const;
  std::string name(const BuiltChange& change) const;

  const Project& project_;
  std::string revision_;  // the project's last
  bool is_issued_ = false;
  std::map<std::string, PanelLife> built_;
  std::vector<BuiltChange> open_;
  std::map<const Decision*, bool> used_;
};

}  // namespace deckquire::history
