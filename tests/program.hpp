#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

/// For tests: the built program as a person runs it.
namespace stringwright::program {

struct Ran {
  int code = -1;
  std::string out, err;
};

inline std::string slurp(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

/// A folder of its own, gone with it.
class Folder {
 public:
  Folder() {
    char name[] = "/tmp/stringwright-test-XXXXXX";
    path = ::mkdtemp(name);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  Ran run(const std::string& arguments) const {
    const std::string out = (path / "stdout").string();
    const std::string err = (path / "stderr").string();
    const std::string command = "cd '" + path.string() + "' && '" STRINGWRIGHT_BIN "' " +
                                arguments + " >'" + out + "' 2>'" + err + "' </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
  }

  std::filesystem::path path;
};

}  // namespace stringwright::program
