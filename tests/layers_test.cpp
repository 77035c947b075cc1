// The layer checker finds what it is there for, on small trees written for the purpose.

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::Not;

struct Answer {
  int code;
  std::string text;
};

class Layers : public testing::Test {
 protected:
  Layers() {
    const auto* name = testing::UnitTest::GetInstance()->current_test_info()->name();
    root_ = fs::temp_directory_path() /
            ("layers_test_" + std::string{name} + "_" + std::to_string(getpid()));
    write("layers.toml", "[rooms]\nbase = []\nunits = [\"base\"]\npv = [\"units\"]\n");
  }
  ~Layers() override { fs::remove_all(root_); }

  void write(const std::string& file, const std::string& text) const {
    fs::create_directories((root_ / file).parent_path());
    std::ofstream{root_ / file} << text;
  }

  Answer check() const {
    const auto command = std::string{CHECK_LAYERS_BIN} + " " + root_.string() + " 2>&1";
    Answer answer{-1, {}};
    auto* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return answer;
    std::array<char, 4096> buffer{};
    while (std::fgets(buffer.data(), static_cast<int>(buffer.size()), pipe) != nullptr) {
      answer.text += buffer.data();
    }
    answer.code = WEXITSTATUS(pclose(pipe));
    return answer;
  }

  std::string place(const std::string& rest) const { return (root_ / rest).string(); }

 private:
  fs::path root_;
};

TEST_F(Layers, upstream_includes_pass) {
  write("units/read.hpp",
        "#include <string>\n#include \"base/text.hpp\"\n#include \"units/q.hpp\"\n");
  write("pv/curve.cpp", "#include \"units/read.hpp\"\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 0) << answer.text;
  EXPECT_THAT(answer.text, HasSubstr("2 files"));
}

TEST_F(Layers, downstream_include_is_reported_with_its_line) {
  write("base/text.cpp", "#include <string>\n\n#include \"units/read.hpp\"\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text,
              HasSubstr(place("base/text.cpp:3: error: 'base' may not include 'units'")));
}

TEST_F(Layers, arrows_are_not_inherited) {
  write("pv/curve.cpp", "#include \"base/text.hpp\"\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text, HasSubstr("'pv' may not include 'base'"));
}

TEST_F(Layers, tests_may_use_everything) {
  write("base/text_test.cpp", "#include \"pv/curve.hpp\"\n");
  EXPECT_EQ(check().code, 0);
}

TEST_F(Layers, unlisted_room_is_reported) {
  write("attic/old.cpp", "");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text, HasSubstr("room 'attic' is not in layers.toml"));
}

TEST_F(Layers, include_without_a_room_is_reported) {
  write("units/read.cpp", "#include \"read.hpp\"\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text, HasSubstr(place("units/read.cpp:1: error: \"read.hpp\" is in no room")));
}

TEST_F(Layers, circle_of_files_is_reported) {
  write("pv/a.hpp", "#include \"pv/b.hpp\"\n");
  write("pv/b.hpp", "#include \"pv/a.hpp\"\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text, HasSubstr("circle: pv/a.hpp -> pv/b.hpp -> pv/a.hpp"));
}

TEST_F(Layers, circle_of_arrows_is_reported) {
  write("layers.toml", "[rooms]\nbase = [\"pv\"]\npv = [\"base\"]\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.text, HasSubstr(place("layers.toml:2: error: 'base' names 'pv'")));
  EXPECT_THAT(answer.text, Not(HasSubstr("'pv' names")));
}

TEST_F(Layers, unreadable_list_is_an_input_error) {
  write("layers.toml", "[rooms\n");
  const auto answer = check();
  EXPECT_EQ(answer.code, 2);
  EXPECT_THAT(answer.text, HasSubstr("layers.toml:1: error:"));
}

}  // namespace
