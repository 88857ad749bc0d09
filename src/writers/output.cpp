#include "writers/output.h"

#include <algorithm>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <set>

#include "base/files.h"

namespace deckquire::writers {
namespace fs = std::filesystem;

namespace {

// A set folder holds little else; whoever names a folder full of other things meant another one.
constexpr int greatest_carried = 1000;

[[noreturn]] void fail(const fs::path& path, const std::string& what, int error) {
  throw FileError(fmt::format("{}: {}: {}", path.string(), what, std::strerror(error)));
}

/// A folder held open.
class OpenFolder {
 public:
  explicit OpenFolder(const fs::path& path)
      : fd_(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (fd_ < 0) fail(path, "cannot be opened", errno);
  }
  ~OpenFolder() { ::close(fd_); }
  OpenFolder(const OpenFolder&) = delete;
  OpenFolder& operator=(const OpenFolder&) = delete;
  int get() const { return fd_; }

 private:
  int fd_;
};

// Some file systems cannot sync a folder; the files in it are synced already.
void sync_folder(const fs::path& path) {
  const OpenFolder folder(path);
  if (::fsync(folder.get()) != 0 && errno != EINVAL) fail(path, "cannot be synced", errno);
}

void make_folders(const fs::path& path) {
  std::error_code error;
  fs::create_directories(path, error);
  if (error) fail(path, "the folder cannot be made", error.value());
}

/// Files that a set writes, and so replaces or removes.
bool belongs_to_set(const fs::path& relative) {
  const fs::path folder = relative.parent_path(), ending = relative.extension();
  static const char* const names[] = {"index.html", "set.pdf",  "templates.pdf", "travellers.pdf",
                                      "tags.pdf",   "loads.pdf", "tables.xlsx",
                                      "handover.pdf", "field.pdf"};
  if (folder.empty()) return std::find(std::begin(names), std::end(names), relative) != std::end(names);
  const bool drawn = folder == "sheets" || folder == "tags" || folder == "cutter";
  return (drawn && ending == ".svg") || (folder == "tables" && ending == ".csv");
}

/// A link to the same file where the file system can, else a copy.
void carry_file(const fs::path& from, const fs::path& to) {
  if (::linkat(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), 0) == 0) return;
  if (errno == EEXIST) return;
  std::error_code error;
  fs::copy(from, to, fs::copy_options::copy_symlinks, error);
  if (error) fail(from, "cannot be carried over to the new set", error.value());
}

void carry_over(const fs::path& from, const fs::path& to) {
  std::error_code error;
  int carried = 0;
  for (fs::recursive_directory_iterator it(from, error), end; !error && it != end;
       it.increment(error)) {
    const fs::path relative = it->path().lexically_relative(from);
    const bool folder = it->is_directory() && !it->is_symlink();
    if (!folder && belongs_to_set(relative)) continue;
    if (++carried > greatest_carried)
      throw FileError(
          fmt::format("{}: holds more than {} files that are no part of a set; name a "
                      "folder of its own for the set",
                      from.string(), greatest_carried));
    if (folder)
      make_folders(to / relative);
    else
      carry_file(it->path(), to / relative);
  }
  if (error) fail(from, "cannot be read", error.value());
}

/// The folder's parent, held by one writer at a time so that leftovers seen there are nobody's.
class ParentLock {
 public:
  explicit ParentLock(const fs::path& parent) : folder_(parent) {
    // Where locks are not known, writers at the same time are the user's business.
    while (::flock(folder_.get(), LOCK_EX) != 0 && errno == EINTR) {
    }
  }

 private:
  OpenFolder folder_;
};

std::string prefix_of(const fs::path& folder, const char* what) {
  return "." + folder.filename().string() + "." + what + "-";
}

void remove_leftovers(const fs::path& folder) {
  std::error_code error;
  std::set<fs::path> stages, previous;
  for (fs::directory_iterator it(folder.parent_path(), error), end; !error && it != end;
       it.increment(error)) {
    const std::string name = it->path().filename().string();
    if (name.starts_with(prefix_of(folder, "stage"))) stages.insert(it->path());
    if (name.starts_with(prefix_of(folder, "previous"))) previous.insert(it->path());
  }
  // A run killed between the two renames of exchange() left the only whole set under this name.
  for (const fs::path& p : previous)
    if (!fs::exists(folder)) fs::rename(p, folder, error);
  stages.merge(previous);
  for (const fs::path& p : stages) fs::remove_all(p, error);
}

/// A new folder beside `folder`, removed again unless it was moved away.
class Stage {
 public:
  explicit Stage(const fs::path& folder) {
    std::string name = (folder.parent_path() / (prefix_of(folder, "stage") + "XXXXXX")).string();
    if (!::mkdtemp(name.data())) fail(folder.parent_path(), "no folder can be made in it", errno);
    path = name;
    struct stat old {};
    const mode_t mask = ::umask(0);
    ::umask(mask);
    const bool replaces = ::stat(folder.c_str(), &old) == 0;
    ::chmod(path.c_str(), replaces ? old.st_mode & 07777 : 0777 & ~mask);
  }
  ~Stage() {
    std::error_code error;
    fs::remove_all(path, error);
  }
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;
  fs::path path;
};

void fill(const fs::path& stage, const std::vector<OutputFile>& files) {
  std::set<fs::path> folders{stage};
  for (const OutputFile& f : files) {
    const fs::path path = stage / f.path;
    if (folders.insert(path.parent_path()).second) make_folders(path.parent_path());
    create_file(path.string(), f.bytes);
  }
  for (const fs::path& f : folders) sync_folder(f);
}

/// Two renames for file systems that cannot exchange; a failure of the second undoes the first.
void exchange_by_renaming(const fs::path& stage, const fs::path& folder) {
  fs::path aside =
      folder.parent_path() / (prefix_of(folder, "previous") + stage.filename().string());
  if (::rename(folder.c_str(), aside.c_str()) != 0) fail(folder, "cannot be replaced", errno);
  if (::rename(stage.c_str(), folder.c_str()) != 0) {
    const int error = errno;
    ::rename(aside.c_str(), folder.c_str());
    fail(folder, "cannot be replaced", error);
  }
  std::error_code ignored;
  fs::remove_all(aside, ignored);
}

void move_into_place(const fs::path& stage, const fs::path& folder) {
  if (!fs::exists(folder)) {
    if (::rename(stage.c_str(), folder.c_str()) != 0) fail(folder, "cannot be made", errno);
    return;
  }
  if (::renameat2(AT_FDCWD, stage.c_str(), AT_FDCWD, folder.c_str(), RENAME_EXCHANGE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS) fail(folder, "cannot be replaced", errno);
  exchange_by_renaming(stage, folder);
}

/// Absolute, links resolved, so that its parent is where it really lies.
fs::path real_place(const std::string& folder) {
  std::error_code error;
  fs::path path = fs::weakly_canonical(fs::absolute(folder), error);
  if (error) fail(folder, "cannot be reached", error.value());
  if (path.filename().empty()) path = path.parent_path();
  if (fs::exists(path, error) && !fs::is_directory(path, error))
    throw FileError(fmt::format("{}: is not a folder", folder));
  // Exchanging the folder that a shell stands in would leave the shell in the old one.
  const fs::path here = fs::current_path(error);
  const auto [in_path, in_here] = std::mismatch(path.begin(), path.end(), here.begin(), here.end());
  if (!error && in_path == path.end())
    throw FileError(fmt::format(
        "{}: is the current folder or holds it; name a folder of its own for the set", folder));
  return path;
}

}  // namespace

void replace_set(const std::string& folder, const std::vector<OutputFile>& files) {
  const fs::path place = real_place(folder);
  make_folders(place.parent_path());
  const ParentLock lock(place.parent_path());
  remove_leftovers(place);
  const Stage stage(place);
  fill(stage.path, files);
  if (fs::exists(place)) carry_over(place, stage.path);
  move_into_place(stage.path, place);
  sync_folder(place.parent_path());
}

}  // namespace deckquire::writers
