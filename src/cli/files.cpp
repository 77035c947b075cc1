#include "cli/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace stringwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t largest_input = 16u << 20;

Failure failed(const std::string& id, const std::string& path, const std::string& what, int error) {
  return {id, path + ": " + what + (error != 0 ? ": " + std::string(std::strerror(error)) : "")};
}

std::string temporary_name(const std::string& path) {
  return path + ".part-" + std::to_string(::getpid());
}

/// Bytes to a new file, flushed to the disk; the file is removed again where that fails.
Result<bool> write_new(const std::string& path, const std::string& bytes) {
  const int fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
  if (fd < 0) return failed("cli.cannot-write", path, "cannot be written", errno);
  std::size_t done = 0;
  int error = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(fd, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) {
      error = errno;
      break;
    }
    done += static_cast<std::size_t>(n);
  }
  if (error == 0 && ::fsync(fd) != 0) error = errno;
  if (::close(fd) != 0 && error == 0) error = errno;
  if (error == 0) return true;
  ::unlink(path.c_str());
  return failed("cli.cannot-write", path, "cannot be written", error);
}

}  // namespace

Result<std::string> read_file(const std::string& path) {
  std::error_code error;
  const auto status = fs::status(path, error);
  if (!fs::exists(status)) return failed("cli.no-file", path, "no such file", 0);
  if (fs::is_directory(status))
    return failed("cli.no-file", path, "is a folder, not a job file", 0);
  if (fs::is_regular_file(status) && fs::file_size(path, error) > largest_input)
    return failed("cli.too-large", path, "is larger than 16 MiB; a job file never is", 0);
  std::ifstream in(path, std::ios::binary);
  if (!in) return failed("cli.no-file", path, "cannot be read", errno);
  std::ostringstream all;
  all << in.rdbuf();
  if (in.bad()) return failed("cli.no-file", path, "cannot be read", errno);
  return all.str();
}

Result<bool> write_file(const std::string& path, const std::string& bytes, bool replace) {
  std::error_code error;
  if (!replace && fs::exists(path, error))
    return failed("cli.exists", path, "exists already and is left as it is; name another file", 0);
  const std::string temporary = temporary_name(path);
  if (auto r = write_new(temporary, bytes); !r) return r;
  if (::rename(temporary.c_str(), path.c_str()) != 0) {
    const int why = errno;
    ::unlink(temporary.c_str());
    return failed("cli.cannot-write", path, "cannot be written", why);
  }
  return true;
}

Result<bool> write_files(const std::string& folder,
                         const std::vector<std::pair<std::string, std::string>>& files) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return failed("cli.cannot-write", folder, "cannot be made: " + error.message(), 0);
  std::vector<std::pair<std::string, std::string>> written;  // temporary, final
  const auto give_up = [&](Failure why) {
    for (const auto& [temporary, path] : written) ::unlink(temporary.c_str());
    return why;
  };
  for (const auto& [name, bytes] : files) {
    const std::string path = (fs::path(folder) / name).string();
    const std::string temporary = temporary_name(path);
    if (auto r = write_new(temporary, bytes); !r) return give_up(r.failure());
    written.emplace_back(temporary, path);
  }
  for (const auto& [temporary, path] : written)
    if (::rename(temporary.c_str(), path.c_str()) != 0)
      return give_up(failed("cli.cannot-write", path, "cannot be written", errno));
  return true;
}

}  // namespace stringwright::cli
