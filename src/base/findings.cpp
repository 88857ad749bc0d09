#include "base/findings.h"

#include <algorithm>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace deckquire {

void Findings::error(Place place, std::string code, std::string what, std::string remedy) {
  list_.push_back(
      {Severity::error, std::move(place), std::move(code), std::move(what), std::move(remedy)});
}

void Findings::warning(Place place, std::string code, std::string what, std::string remedy) {
  list_.push_back(
      {Severity::warning, std::move(place), std::move(code), std::move(what), std::move(remedy)});
}

void Findings::note(Place place, std::string code, std::string what, std::string remedy) {
  list_.push_back(
      {Severity::note, std::move(place), std::move(code), std::move(what), std::move(remedy)});
}

void Findings::add(const Findings& others) {
  list_.insert(list_.end(), others.list_.begin(), others.list_.end());
}

bool Findings::has_errors() const {
  return std::any_of(list_.begin(), list_.end(),
                     [](const Finding& f) { return f.severity == Severity::error; });
}

std::vector<Finding> Findings::sorted() const {
  std::vector<Finding> out = list_;
  std::stable_sort(out.begin(), out.end(), [](const Finding& a, const Finding& b) {
    return std::tie(a.place.file, a.place.line, a.place.column) <
           std::tie(b.place.file, b.place.line, b.place.column);
  });
  // Several panels may find the same thing: its sentence is said once.
  std::set<std::tuple<std::string, int, int, std::string, std::string>> said;
  std::erase_if(out, [&](const Finding& f) {
    return !said.insert({f.place.file, f.place.line, f.place.column, f.code, f.what}).second;
  });
  return out;
}

std::string to_line(const Finding& f) {
  const char* severity = f.severity == Severity::error     ? "error"
                         : f.severity == Severity::warning ? "warning"
                                                           : "note";
  const std::string place =
      f.place.line > 0 ? fmt::format("{}:{}:{}", f.place.file, f.place.line, f.place.column)
                       : f.place.file;
  return fmt::format("{}: {} [{}]: {}; {}", place, severity, f.code, f.what, f.remedy);
}

}  // namespace deckquire
