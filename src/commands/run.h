// From the command line to an exit status.
#pragma once

#include <CLI/CLI.hpp>

namespace deckquire::commands {

/// Parses the line and so runs the verb that it names, whose callback puts its outcome in `status`.
/// Wrong lines, files that fail and a standard output that cannot be written become a message and
/// their exit status (see commands.h).
int run(CLI::App& app, int argc, char** argv, const int& status);

}  // namespace deckquire::commands
