#include "audit/audit.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/issued_set.h"
#include "commands/load.h"
#include "schedules/schedules.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

using writers::json_string;

void print_text(const audit::Report& r) {
  std::size_t widest = 0;
  for (const audit::Check& c : r.checks) widest = std::max(widest, c.code.size());
  for (const audit::Check& c : r.checks)
    fmt::print("{:<{}}  {:>7} looked at  {:>5} wrong  {}\n", c.code, widest, c.looked_at, c.flaws,
               c.rule);
  for (const audit::Flaw& f : r.flaws)
    fmt::print("{} at {}, {} [{}]: {}\n", f.sheet, decimal(f.at.x, 0), decimal(f.at.y, 0), f.code,
               f.what);
  fmt::print("use of the drawing space:");
  for (const audit::SheetUse& u : r.use) fmt::print(" {} {} %", u.sheet, decimal(100 * u.share, 0));
  fmt::print("\n{} of {} checks found nothing wrong, {} flaws\n",
             std::count_if(r.checks.begin(), r.checks.end(),
                           [](const audit::Check& c) { return c.flaws == 0; }),
             r.checks.size(), r.flaws.size());
}

void print_json(const audit::Report& r) {
  std::string out = "{\"checks\":[";
  for (std::size_t i = 0; i < r.checks.size(); ++i)
    out += fmt::format("{}{{\"code\":{},\"rule\":{},\"looked_at\":{},\"flaws\":{}}}",
                       i == 0 ? "" : ",", json_string(r.checks[i].code),
                       json_string(r.checks[i].rule), r.checks[i].looked_at, r.checks[i].flaws);
  out += "],\"flaws\":[";
  for (std::size_t i = 0; i < r.flaws.size(); ++i) {
    const audit::Flaw& f = r.flaws[i];
    out += fmt::format("{}{{\"code\":{},\"sheet\":{},\"x_mm\":{},\"y_mm\":{},\"what\":{}}}",
                       i == 0 ? "" : ",", json_string(f.code), json_string(f.sheet),
                       decimal(f.at.x, 2), decimal(f.at.y, 2), json_string(f.what));
  }
  out += "],\"use\":[";
  for (std::size_t i = 0; i < r.use.size(); ++i)
    out += fmt::format("{}{{\"sheet\":{},\"share\":{}}}", i == 0 ? "" : ",",
                       json_string(r.use[i].sheet), decimal(r.use[i].share, 3));
  fmt::print("{}]}}\n", out);
}

}  // namespace

int audit(const AuditOptions& options) try {
  Findings findings;
  const auto loaded = load(options.project, findings);
  const auto style = loaded ? style_of(loaded->project, options.style, findings) : std::nullopt;
  report(findings);
  if (!style) return project_errors;
  const paper::Lettering lettering(style->fonts);
  Findings own;
  const IssuedSet set = draw_issued_set(
      *loaded, {*style, style_name(loaded->project, options.style), lettering}, findings, own);
  deckquire::commands::report(own);
  if (own.has_errors()) return project_errors;
  const std::vector<Table> tables = schedules_of_set(*loaded);
  const std::vector<Finding> remarks = findings.sorted();
  const sheets::SetInput input{loaded->project, loaded->bridge, loaded->deck, tables,
                               loaded->scope,   remarks,        *style,       lettering};
  const auto report = deckquire::audit::audit_set(input, set.plan, set.sheets);
  options.json ? print_json(report) : print_text(report);
  return report.flaws.empty() ? done : project_errors;
} catch (const WrongLine& e) {
  fmt::print(stderr, "deckquire: {}\n", e.what());
  return wrong_command_line;
}

}  // namespace deckquire::commands
