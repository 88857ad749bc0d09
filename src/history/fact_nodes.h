// Where the elements stand that facts are of. Inside this folder only.
#pragma once

#include "base/document.h"
#include "history/facts.h"

namespace deckquire::history {

/// Elements of the file by path: "project/deck/hatch[H2]".
using FactNodes = std::map<std::string, pugi::xml_node>;

/// The facts of a document that is read already, and its elements into `nodes` if wanted.
Facts facts_of(const Document& document, FactNodes* nodes);

}  // namespace deckquire::history
