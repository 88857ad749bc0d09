// The folder of a register: "<stem>.register/" beside the project file.
//
//   0001.xml, 0002.xml ...   entries, one each time something was issued or built, never changed
//   0001-project.xml         the project file as it was issued by entry 0001
//   lock                     who writes just now
//
// Each entry holds the SHA-256 of the one before it, of its project, and of itself: what is edited,
// lost or put in between is found. A run that was stopped leaves files that no entry counts: they are
// not read, and the next one takes them away.
#pragma once

#include <functional>
#include <optional>

#include "base/findings.h"
#include "history/register.h"

namespace deckquire::history {

/// "bridges/saltmarsh.xml" -> "bridges/saltmarsh.register"
std::string register_folder(const std::string& project);

/// The whole register, empty where there is no folder. Nothing, and findings with file and line, where
/// an entry or a project is missing, changed or unknown. FileError when one cannot be read.
std::optional<Register> read_register(const std::string& folder, Findings& findings);

/// The text of the project as it was issued. FileError when it cannot be read.
std::string issued_project(const std::string& folder, const Issue& issue);

/// Called before each operation on the disk, for tests that stop there.
using BeforeStep = std::function<void(const char* what)>;

struct Appending {
  std::string who;             // told to another who waits: "issue of revision B"
  int wait_milliseconds = 5000;  // for another who writes
  BeforeStep before_step = {};
};

/// Adds the entry behind those of `seen`, with its number and the names and checksums that it gets
/// here; `project` is the text to store with an issue. False, and nothing done, when the register is
/// not what was seen any more. FileError when another run does not let go of the register, or the disk
/// refuses. Stopped at any point it leaves the register as it was, or with the entry.
bool append(const std::string& folder, const Register& seen, Entry entry,
            const std::string& project, const Appending& how = {});

}  // namespace deckquire::history
