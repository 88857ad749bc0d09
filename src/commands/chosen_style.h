// Which style a set is drawn in.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>

#include "paper/style.h"
#include "project/project.h"

namespace deckquire::commands {

/// Thrown for what the command line alone is to blame for.
struct WrongLine : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Its name: `asked` on the command line, or else the project's.
const std::string& style_name(const Project& project, const std::string& asked);

/// The style named on the command line (`asked`), or else the project's. Nothing, and a finding, when
/// the project names none that there is; WrongLine when the command line does.
std::optional<paper::Style> style_of(const Project& project, const std::string& asked,
                                     Findings& findings);

}  // namespace deckquire::commands
