// Reading and writing whole files, with errors that say what happened to which file.
#pragma once

#include <stdexcept>
#include <string>

namespace deckquire {

/// A file could not be read or written (exit status 3). what() names the path and the reason.
class FileError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The whole file; at most `limit` bytes (FileError beyond that, for a folder, or when unreadable).
std::string read_file(const std::string& path, std::size_t limit = std::size_t{64} << 20);

/// Writes a file that was not there before, checks and syncs. FileError on failure.
void create_file(const std::string& path, const std::string& bytes);

/// Writes to a temporary name beside `path`, checks, syncs and renames. FileError, and no trace
/// left, on failure.
void write_file(const std::string& path, const std::string& bytes);

}  // namespace deckquire
