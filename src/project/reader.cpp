#include "project/reader.h"

#include "project/extract.h"
#include "project/validate.h"

namespace deckquire {
namespace {

/// The project's unit; none when it is missing, wrong or said twice, which validation reports.
OwnUnit own_unit(const Document& document) {
  const auto a = document.root().attribute("units");
  const Attribute* row = find_attribute(*find_element("project"), "units");
  int said = 0;
  for (const auto other : document.root().attributes())
    said += std::string_view(other.name()) == "units" ? 1 : 0;
  if (said != 1 || refusal(*row, a.value(), {})) return {""};
  return {std::string(trimmed(a.value()))};
}

}  // namespace

std::optional<Project> read_project(const std::string& text, const std::string& file,
                                    Findings& findings) {
  Findings mine;
  std::optional<Project> project;
  const Document document(text, file, mine);
  Report report(mine);
  if (document.ok() && is_project(document, report)) {
    const OwnUnit own = own_unit(document);
    validate(document, own, report);
    find_contradictions(document, own, report);
    if (!mine.has_errors()) project = extract_project(document, own, file);
  }
  for (const Finding& f : mine.sorted()) findings.error(f.place, f.code, f.what, f.remedy);
  return project;
}

}  // namespace deckquire
