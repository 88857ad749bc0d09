// Where the elements stand that statements are of. Inside this folder only.
#pragma once

#include "base/document.h"
#include "history/statements.h"

namespace deckquire::history {

/// Elements of the file by path: "project/deck/hatch[H2]".
using StatementNodes = std::map<std::string, pugi::xml_node>;

/// The statements of a document that is read already, and its elements into `nodes` if wanted.
Statements statements_of(const Document& document, StatementNodes* nodes);

}  // namespace deckquire::history
