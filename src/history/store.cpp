#include "history/store.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <thread>
#include <utility>

#include "base/checksum.h"
#include "base/files.h"
#include "base/text.h"
#include "history/entry_xml.h"

namespace deckquire::history {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = std::size_t{256} << 20;

std::string entry_file(int number) {
  return padded(number, 4) + ".xml";
}
std::string project_file(int number) {
  return padded(number, 4) + "-project.xml";
}

/// The number of "0012.xml" or, with that end, of "0012-project.xml"; 0 for other names.
int number_in(const std::string& name, const std::string& end) {
  if (!name.ends_with(end)) return 0;
  const std::string figures = name.substr(0, name.size() - end.size());
  const bool good = figures.size() >= 4 && figures.size() <= 8 &&
                    figures.find_first_not_of("0123456789") == std::string::npos;
  return good ? std::stoi(figures) : 0;
}

std::vector<std::string> names_in(const std::string& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (auto e = fs::directory_iterator(folder, error); !error && e != fs::directory_iterator();
       e.increment(error))
    names.push_back(e->path().filename().string());
  // A folder that is there and cannot be read is not one that is not there.
  if (error && error != std::errc::no_such_file_or_directory)
    throw FileError(fmt::format("{}: cannot read the register: {}", folder, error.message()));
  std::sort(names.begin(), names.end());
  return names;
}

[[noreturn]] void fail(const std::string& path, const char* doing) {
  throw FileError(fmt::format("{}: cannot {}: {}", path, doing, std::strerror(errno)));
}

/// Closes, and so unlocks, on the way out.
struct Descriptor {
  int fd;
  explicit Descriptor(int opened) : fd(opened) {}
  ~Descriptor() {
    if (fd >= 0) ::close(fd);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
};

void sync_folder(const std::string& folder) {
  const Descriptor d(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (d.fd < 0 || ::fsync(d.fd) != 0) fail(folder, "save");
}

/// Never over a file that is there. Not every file system can promise that in one step; the lock keeps
/// other runs away from those that cannot.
void rename_new(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS) fail(to, "create");
  if (fs::exists(to)) throw FileError(to + ": is there already");
  if (::rename(from.c_str(), to.c_str()) != 0) fail(to, "create");
}

class Append {
 public:
  Append(const std::string& folder, const Appending& how) : folder_(folder), how_(how) {}

  bool run(const Register& seen, Entry& entry, const std::string& project) {
    make_folder();
    const Descriptor held(lock());
    Findings findings;
    const auto now = read_register(folder_, findings);
    if (!now || now->entries.size() != seen.entries.size()) return false;
    const int number = static_cast<int>(seen.entries.size()) + 1;
    clean(number);
    entry.number = number;
    if (entry.issue) {
      entry.issue->project_file = project_file(number);
      entry.issue->project_checksum = sha256(project);
      put(project_file(number), project);
    }
    const std::string before =
        number == 1 ? "" : sha256(read_file(path(entry_file(number - 1)), most_bytes));
    put(entry_file(number), write_entry(entry, before));
    step("save the folder");
    sync_folder(folder_);
    return true;
  }

 private:
  std::string path(const std::string& name) const { return folder_ + "/" + name; }
  void step(const char* what) const {
    if (how_.before_step) how_.before_step(what);
  }

  void make_folder() {
    step("make the folder");
    std::error_code error;
    if (!fs::create_directory(folder_, error)) {
      if (error) throw FileError(fmt::format("{}: cannot create: {}", folder_, error.message()));
      return;
    }
    step("save the folder's name");
    const fs::path parent = fs::path(folder_).parent_path();
    sync_folder(parent.empty() ? "." : parent.string());
  }

  int lock() {
    step("open the lock");
    const std::string file = path("lock");
    Descriptor d(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666));
    if (d.fd < 0) fail(file, "open");
    using clock = std::chrono::steady_clock;
    const auto end = clock::now() + std::chrono::milliseconds(how_.wait_milliseconds);
    while (::flock(d.fd, LOCK_EX | LOCK_NB) != 0) {
      if (errno != EWOULDBLOCK && errno != EINTR) fail(file, "lock");
      if (clock::now() > end)
        throw FileError(fmt::format("{}: another run writes to this register ({}); try again when it "
                                    "is done",
                                    file, read_file(file)));
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    step("sign the lock");
    const std::string who = fmt::format("process {}, {}", ::getpid(), how_.who);
    if (::ftruncate(d.fd, 0) != 0 ||
        ::pwrite(d.fd, who.data(), who.size(), 0) != static_cast<ssize_t>(who.size()))
      fail(file, "write");
    return std::exchange(d.fd, -1);
  }

  /// What a run left that was stopped before its entry was in.
  void clean(int number) {
    for (const std::string& name : names_in(folder_)) {
      if (!name.ends_with(".part") && number_in(name, "-project.xml") < number) continue;
      step("take away what a stopped run left");
      if (::unlink(path(name).c_str()) != 0) fail(path(name), "remove");
    }
  }

  void put(const std::string& name, const std::string& bytes) {
    const std::string part = path(name) + ".part";
    step("write a file");
    create_file(part, bytes);
    step("give it its name");
    rename_new(part, path(name));
  }

  const std::string& folder_;
  const Appending& how_;
};

/// An entry with what only the folder knows: does it follow the one before, is its project there?
bool fits(const std::string& folder, const ReadEntry& read, int number, const std::string& before,
          Findings& findings) {
  const std::string file = folder + "/" + entry_file(number);
  const auto say = [&](const std::string& at, const char* code, const std::string& what) {
    findings.error({at, 1, 1}, code, what,
                   "put the register back as it was, from a copy of the folder");
    return false;
  };
  if (read.entry.number != number)
    return say(file, "register-order",
               fmt::format("the entry says that it is number {}", read.entry.number));
  if (read.before != before)
    return say(file, "register-order",
               number == 1 ? "the entry says that there is one before it"
                           : fmt::format("the entry does not follow {} as that is now",
                                         entry_file(number - 1)));
  if (!read.entry.issue) return true;
  const std::string project = folder + "/" + read.entry.issue->project_file;
  if (!fs::exists(project))
    return say(project, "register-project", "the project as it was issued is missing");
  if (sha256(read_file(project, most_bytes)) != read.entry.issue->project_checksum)
    return say(project, "register-project",
               fmt::format("the project was changed after it was issued as revision {}",
                           read.entry.issue->revision));
  return true;
}

}  // namespace

std::string register_folder(const std::string& project) {
  return fs::path(project).replace_extension(".register").string();
}

std::optional<Register> read_register(const std::string& folder, Findings& findings) {
  Register out;
  int last = 0;
  for (const std::string& name : names_in(folder)) last = std::max(last, number_in(name, ".xml"));
  std::string before;
  for (int n = 1; n <= last; ++n) {
    const std::string file = folder + "/" + entry_file(n);
    if (!fs::exists(file)) {
      findings.error({file, 0, 0}, "register-gap",
                     fmt::format("the entry is missing, though there is {}", entry_file(last)),
                     "put it back, from a copy of the folder");
      return std::nullopt;
    }
    const std::string text = read_file(file, most_bytes);
    auto read = read_entry(text, file, findings);
    if (!read || !fits(folder, *read, n, before, findings)) return std::nullopt;
    before = sha256(text);
    out.entries.push_back(std::move(read->entry));
  }
  return out;
}

std::string issued_project(const std::string& folder, const Issue& issue) {
  return read_file(folder + "/" + issue.project_file, most_bytes);
}

bool append(const std::string& folder, const Register& seen, Entry entry,
            const std::string& project, const Appending& how) {
  return Append(folder, how).run(seen, entry, project);
}

}  // namespace deckquire::history
