// XML -> Project.
#pragma once

#include <optional>
#include <string>

#include "project/project.h"

namespace deckquire {

/// Reads a project. `file` is the name used in messages. Every problem of form in the text goes to
/// `findings`, each with its place; nullopt when there is one that is an error. Never throws for
/// bad input, whatever its size or depth.
std::optional<Project> read_project(const std::string& text, const std::string& file,
                                    Findings& findings);

/// The text of the XML schema that describes what read_project accepts (projects/project.xsd).
std::string project_schema();

/// The table of every element, attribute, unit, default and meaning, as Markdown
/// (projects/README.md embeds it).
std::string project_reference();

}  // namespace deckquire
