#include "base/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include <fmt/format.h>

namespace deckquire {
namespace {

[[noreturn]] void fail(const std::string& path, const char* doing) {
  throw FileError(fmt::format("{}: cannot {}: {}", path, doing, std::strerror(errno)));
}

/// Closes on the way out.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }
  int close() {
    const int r = ::close(fd_);
    fd_ = -1;
    return r;
  }

 private:
  int fd_;
};

void write_all(const Descriptor& file, const std::string& path, const std::string& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(file.get(), bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) fail(path, "write");
    done += static_cast<std::size_t>(n);
  }
}

void write_and_close(Descriptor& file, const std::string& path, const std::string& bytes) {
  write_all(file, path, bytes);
  if (::fsync(file.get()) != 0) fail(path, "write");
  if (file.close() != 0) fail(path, "write");
}

}  // namespace

std::string read_file(const std::string& path, std::size_t limit) {
  Descriptor fd(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (fd.get() < 0) fail(path, "open");
  struct stat info {};
  if (::fstat(fd.get(), &info) != 0) fail(path, "read");
  if (S_ISDIR(info.st_mode)) throw FileError(fmt::format("{}: is a folder, not a file", path));
  std::string bytes;
  char block[1 << 16];
  for (;;) {
    const ssize_t n = ::read(fd.get(), block, sizeof block);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail(path, "read");
    if (n == 0) return bytes;
    bytes.append(block, static_cast<std::size_t>(n));
    if (bytes.size() > limit)
      throw FileError(fmt::format("{}: larger than {} MiB; not read", path, limit >> 20));
  }
}

void create_file(const std::string& path, const std::string& bytes) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (file.get() < 0) fail(path, "create");
  write_and_close(file, path, bytes);
}

void write_file(const std::string& path, const std::string& bytes) {
  const std::string part = path + ".part";
  Descriptor fd(::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
  if (fd.get() < 0) fail(part, "create");
  try {
    write_and_close(fd, path, bytes);
    if (::rename(part.c_str(), path.c_str()) != 0) fail(path, "replace");
  } catch (...) {
    ::unlink(part.c_str());
    throw;
  }
}

}  // namespace deckquire
