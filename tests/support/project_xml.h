// A Project written as the XML that it would be read from.
#pragma once

#include <string>

#include "project/project.h"

namespace deckquire {

/// One element a line. Every length is written in millimetres with all its nanometres. The places
/// of the project get the file `p.file` and the lines of this text; what the writer does not know
/// (conditions, redlines, the set) is left out.
std::string project_xml(Project& p);

}  // namespace deckquire
