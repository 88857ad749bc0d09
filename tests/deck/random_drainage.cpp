// Random decks in random rain.
#include <cmath>

#include "checks/calculations.h"
#include "deck/random_checks.h"
#include "workings/hydraulics.h"

namespace trial {

void check_drainage(const Case& c) {
  Dice dice{c.made.seed + 77};
  Project p = c.project();
  RainData rain;
  rain.intensity = (10 + 200 * dice.next()) / 3.6e6;
  rain.runoff = 0.5 + dice.next() / 2;
  rain.roughness = 0.01 + dice.next() / 100;
  rain.spread = mm(200 + 800 * dice.next());
  const auto& types = hydraulics::grate_types();
  rain.grate = types[static_cast<std::size_t>(dice.upto(static_cast<int>(types.size())))].name;
  if (dice.upto(2) == 0) rain.opening = 0.3 + dice.next() / 2;
  rain.clogging = static_cast<ClogModel>(dice.upto(3));
  rain.blocked = rain.blocked_in_sag = dice.next() / 2;
  rain.pipe_filling = 0.33;
  p.conditions.rain = rain;
  Findings findings;
  const Calculations all = calculate(p, c.built.bridge, c.deck(), findings);
  int gutters = 0, unsaid = 0;
  for (const NotChecked& n : all.not_checked) unsaid += n.topic == Topic::drainage;
  for (const Calculation& k : all.list) {
    if (k.topic != Topic::drainage) continue;
    if (k.working.name != "gutter-balance") continue;
    ++gutters;
    const double rest =
        1 - (k.working.result("Qi") + k.working.result("Qe")) / k.working.result("Qr");
    if (!(std::abs(rest) < 1e-9)) c.say("{}: {} of the rain is not found again", k.on, rest);
    for (const workings::Curve& curve : k.working.curves)
      for (const double T : curve.y)
        if (!std::isfinite(T) || T < 0) c.say("{}: a spread of {}", k.on, T);
  }
  if (gutters == 0 && unsaid == 0) c.say("nothing is said of the drainage");
}

}  // namespace trial
