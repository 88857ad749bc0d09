// One file of the register as text, and back.
#pragma once

#include <optional>

#include "base/findings.h"
#include "history/register.h"

namespace deckquire::history {

constexpr const char* register_namespace = "urn:deckquire:register:1";

/// The whole file; `before` is the SHA-256 of the file before it, empty for the first. Its last line
/// but one is the seal: the SHA-256 of all lines above it.
std::string write_entry(const Entry& entry, const std::string& before);

/// What write_entry() made; nothing, and a finding with its place, when the file was changed since,
/// is not complete, or holds what this program does not know.
struct ReadEntry {
  Entry entry;
  std::string before;
};
std::optional<ReadEntry> read_entry(const std::string& text, const std::string& file,
                                    Findings& findings);

}  // namespace deckquire::history
