// Why a span cannot be divided, in the words of the project file.
#include <fmt/format.h>

#include "base/text.h"
#include "deck/division_search.h"

namespace deckquire {
namespace {

using optimum::Infeasible;
using optimum::Relaxation;

struct Words {
  const Project& project;
  const JointRules& rules;
  const JointStretch& stretch;

  std::string length(optimum::Nm n) const {
    return print_length(Length::from_nanometres(n), project.units);
  }
  std::string at(optimum::Nm n) const {
    return print_station(Length::from_nanometres(n), project.units);
  }
  const std::string& span() const {
    return project.deck.spans[static_cast<std::size_t>(rules.span)].name;
  }
  /// A pitch as the panel length that it stands for.
  std::string panel(optimum::Nm pitch) const { return length(pitch - rules.gap()); }
};

const char* code_of(Infeasible::Code code) {
  switch (code) {
    case Infeasible::Code::line_in_zone:
      return "joint-not-clear";
    case Infeasible::Code::zone_too_long:
      return "no-room-for-joint";
    case Infeasible::Code::run_too_short:
      return "stretch-too-short";
    case Infeasible::Code::no_lines:
      break;
  }
  return "no-division";
}

std::string what(const Words& w, const Infeasible& why) {
  const std::string where = fmt::format("span {}: ", w.span());
  const std::string constraint = why.constraints.empty() ? "" : why.constraints.front();
  const optimum::Limits& l = w.stretch.limits;
  if (l.greatest < l.least)
    return where + fmt::format("no panel may be longer than {} ({}) or shorter than {} (shortest)",
                               w.panel(l.greatest), w.stretch.greatest_by, w.panel(l.least));
  switch (why.code) {
    case Infeasible::Code::line_in_zone:
      return where + fmt::format(
                         "a joint must stand at {}, where the width or the surface changes "
                         "or a row joint ends, but {} keeps it {} away",
                         w.at(why.relaxations.front().at), constraint, w.length(why.required));
    case Infeasible::Code::zone_too_long:
      return where + fmt::format(
                         "no joint can stand between {} and {} ({}): {} exceeds the "
                         "greatest pitch {} ({}) by {}",
                         w.at(why.from), w.at(why.to), constraint, w.length(why.required),
                         w.length(why.available), w.stretch.greatest_by,
                         w.length(why.required - why.available));
    case Infeasible::Code::run_too_short:
      return where + fmt::format(
                         "between {} and {} there must be joints, {} apart, but a panel is "
                         "at least {} long (shortest)",
                         w.at(why.from), w.at(why.to), w.length(why.available),
                         w.panel(why.required));
    case Infeasible::Code::no_lines:
      break;
  }
  std::string rules;
  for (const std::string& c : why.constraints) {
    const std::string name = c == "longest" ? w.stretch.greatest_by : c;
    rules += (rules.empty() ? "" : ", ") + name;
  }
  return where + fmt::format(
                     "no joints between {} and {} keep all rules together ({}): panels of "
                     "{} to {}",
                     w.at(why.from), w.at(why.to), rules, w.panel(w.stretch.limits.least),
                     w.panel(w.stretch.limits.greatest));
}

std::string cure(const Words& w, const Relaxation& r) {
  if (r.constraint == "longest")
    return fmt::format("panels longer by {} ({})", w.length(r.amount), w.stretch.greatest_by);
  if (r.constraint == "shortest")
    return fmt::format("panels shorter by {} (shortest)", w.length(r.amount));
  if (r.constraint == "closing") return "closing=\"yes\"";
  if (r.constraint == "symmetrical") return "symmetrical=\"no\"";
  if (r.constraint == "step") return "a finer step";
  return fmt::format("{} less by {} (or move it)", r.constraint, w.length(r.amount));
}

std::string cures(const Words& w, const Infeasible& why) {
  std::string out;
  for (const Relaxation& r : why.relaxations)
    out += (out.empty() ? "any of these would help: " : "; ") + cure(w, r);
  if (why.code == Infeasible::Code::line_in_zone || why.code == Infeasible::Code::run_too_short)
    if (w.rules.rule.joints_at_breaks)
      out += "; or joints-at-breaks=\"no\" if the width bends there";
  return out.empty() ? "no single rule helps: widen several, or write the panels out" : out;
}

}  // namespace

void report_refused(const Project& project, const JointRules& rules, const Refused& refused,
                    Findings& findings) {
  const Words w{project, rules, rules.stretches[refused.stretch]};
  findings.error(rules.rule.place, code_of(refused.why.code), what(w, refused.why),
                 cures(w, refused.why));
}

}  // namespace deckquire
