#include "commands/run.h"

#include <fmt/format.h>

#include <csignal>
#include <cstdio>
#include <cstring>

#include "base/text.h"
#include "commands/commands.h"

namespace deckquire::commands {
namespace {

/// A mistyped verb gets the nearest one, which the parser does not offer.
bool known_verb(const CLI::App& app, const std::string& word) {
  std::vector<std::string> verbs;
  for (const CLI::App* verb : app.get_subcommands({})) {
    if (verb->get_name() == word) return true;
    verbs.push_back(verb->get_name());
  }
  const std::string near = nearest_word(word, verbs);
  const std::string hint =
      near.empty() ? "the verbs are " + join(verbs, ", ") : "did you mean '" + near + "'?";
  fmt::print(stderr, "deckquire: there is no verb '{}'; {}\n", word, hint);
  return false;
}

int parse(CLI::App& app, int argc, char** argv, const int& status) {
  try {
    app.parse(argc, argv);
    return status;
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? done : wrong_command_line;
  } catch (const std::exception& e) {
    fmt::print(stderr, "deckquire: {}\n", e.what());
    return file_trouble;
  }
}

bool output_is_written() {
  if (std::fflush(stdout) == 0 && !std::ferror(stdout)) return true;
  fmt::print(stderr, "deckquire: standard output cannot be written: {}\n", std::strerror(errno));
  return false;
}

}  // namespace

int run(CLI::App& app, int argc, char** argv, const int& status) {
  // A file beyond the size limit is then an error of its write, with a message, and not a death.
  std::signal(SIGXFSZ, SIG_IGN);
  if (argc < 2) {
    fmt::print(stderr, "{}", app.help());
    return wrong_command_line;
  }
  if (argv[1][0] != '-' && !known_verb(app, argv[1])) return wrong_command_line;
  const int outcome = parse(app, argc, argv, status);
  return output_is_written() ? outcome : file_trouble;
}

}  // namespace deckquire::commands
