// What the measured panels make of their runs, in words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "schedules/as_built.h"

namespace deckquire {
namespace {

class AsBuiltWords {
 public:
  AsBuiltWords(const Project& project, const Deck& deck, const MeasuredRun& run, Findings& findings)
      : project_(project), deck_(deck), run_(run), findings_(findings) {}

  void say() const {
    if (run_.too_far()) return does_not_close();
    const auto most = run_.can_take();
    if (most && std::abs(run_.prediction.drift) > *most + 1e-6) may_not_close();
  }

 private:
  const Project& project_;
  const Deck& deck_;
  const MeasuredRun& run_;
  Findings& findings_;

  std::string length(double v) const {
    return print_length(mm(std::round(v * 100) / 100), project_.units);
  }
  Place place() const { return project_.deck.spans[static_cast<std::size_t>(run_.span)].place; }
  const char* way(double v) const { return v > 0 ? "longer" : "shorter"; }

  std::string name() const {
    const std::string span = deck_.spans[static_cast<std::size_t>(run_.span)].name;
    const bool rows = std::any_of(deck_.panels.begin(), deck_.panels.end(),
                                  [](const Panel& p) { return p.row > 0; });
    return rows ? fmt::format("span {}, row {}", span, run_.row + 1) : "span " + span;
  }

  std::string found() const {
    return fmt::format("{}: {} of {} panels were measured, together {} {} than designed", name(),
                       run_.measured, run_.panels.size(), length(std::abs(run_.drift)), way(run_.drift));
  }

  void does_not_close() const {
    const auto most = run_.can_take();
    findings_.error(
        place(), "run-does-not-close",
        fmt::format("{}; the closing gap at joint {} becomes {} instead of {}{}", found(),
                    run_.closing->name, length(run_.closing_gap - run_.drift), length(run_.closing_gap),
                    most ? fmt::format(", and it can take {}", length(*most)) : ""),
        ways_out(most ? std::abs(run_.drift) - *most : std::abs(run_.drift)));
  }

  /// `excess`: what must be got rid of at least.
  std::string ways_out(double excess) const {
    std::vector<std::string> ways;
    if (run_.next >= 0) {
      const Panel& p = deck_.panels[static_cast<std::size_t>(run_.next)];
      const double full = p.shape.length - run_.drift;
      const double least = p.shape.length - (run_.drift > 0 ? excess : -excess);
      ways.push_back(fmt::format("make the next panel, {} at position {}, {} instead of {} long ({} at "
                                 "{} closes)",
                                 p.serial, p.position, length(full), length(p.shape.length),
                                 length(least), run_.drift > 0 ? "most" : "least"));
    } else if (run_.drift > 0) {
      ways.push_back(fmt::format("cut {} to {} from a panel that is not set", length(excess),
                                 length(run_.drift)));
    }
    if (run_.least && run_.open_joints > 0) {
      const double each = excess / run_.open_joints;
      const double gap = project_.deck.joints.gap.in_mm();
      if (run_.drift < 0)
        ways.push_back(fmt::format("set the {} open joints {} wider", run_.open_joints, length(each)));
      else if (gap - each >= project_.conditions.temperature.least_gap.in_mm())
        ways.push_back(fmt::format("set the {} open joints {} tighter, at {}", run_.open_joints,
                                   length(each), length(gap - each)));
    }
    ways.push_back("give the ends another gap");
    return join(ways, "; or ") +
           "; write lengths as measured into <panel>, so that the run adds up, and issue that";
  }

  void may_not_close() const {
    findings_.warning(
        place(), "run-may-not-close",
        fmt::format("{}, {} each; if the others come out so too, the run ends {} off", found(),
                    length(run_.drift / run_.measured), length(std::abs(run_.prediction.drift))),
        fmt::format("the closing gap can take {}: put the mould right before the next panel is cast",
                    length(*run_.can_take())));
  }
};

void say_out_of_tolerance(const Project& project, const Deck& deck,
                          const std::vector<MeasuredRun>& runs, Findings& findings) {
  const MeasuredPanel* worst = nullptr;
  const MeasuredRun* of = nullptr;
  int count = 0;
  for (const MeasuredRun& run : runs)
    for (const MeasuredPanel& m : run.panels) {
      if (std::abs(m.most_off()) <= run.length_tolerance + 1e-6) continue;
      ++count;
      if (!worst || std::abs(m.most_off()) > std::abs(worst->most_off())) worst = &m, of = &run;
    }
  if (!worst) return;
  const Panel& p = deck.panels[static_cast<std::size_t>(worst->panel)];
  const auto length = [&](double v) { return print_length(mm(v), project.units); };
  findings.warning(project.deck.spans[static_cast<std::size_t>(of->span)].place, "panel-out-of-tolerance",
                   fmt::format("panel {} at position {} was measured {} too {}{}", p.serial, p.position,
                               length(std::abs(worst->most_off())), worst->most_off() > 0 ? "long" : "short",
                               count > 1 ? fmt::format(", and {} more are out", count - 1) : ""),
                   fmt::format("the tolerance of length is ±{}: the engineer decides whether it is used, "
                               "re-cut or replaced",
                               length(of->length_tolerance)));
}

}  // namespace

void find_as_built(const Project& project, const Deck& deck, const std::vector<MeasuredRun>& runs,
                   Findings& findings) {
  for (const MeasuredRun& run : runs) AsBuiltWords(project, deck, run, findings).say();
  say_out_of_tolerance(project, deck, runs, findings);
}

}  // namespace deckquire
