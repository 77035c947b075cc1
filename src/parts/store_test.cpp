#include "parts/store.hpp"

#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

namespace stringwright::parts {
namespace {

namespace fs = std::filesystem;

class PartsStore : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / ("stringwright-store-" + std::to_string(::getpid()) + "-" +
                                     testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  std::string path() const { return (folder_ / "parts.db").string(); }

  fs::path folder_;
};

Row row(const std::string& id, const std::string& text = "x") {
  return {"part", id, "breaker", "a breaker", "[part." + id + "]\ntitle = \"" + text + "\"\n"};
}

TEST_F(PartsStore, KeepsWhatIsPutIn) {
  EXPECT_TRUE(Store::read(path())->empty()) << "no file yet: no rows, and none is made";
  EXPECT_FALSE(fs::exists(path()));
  auto store = Store::open(path());
  ASSERT_TRUE(store) << store.failure().message;
  const auto first = store->put({row("b"), row("a")});
  ASSERT_TRUE(first);
  EXPECT_EQ(first->added, 2);
  const auto second = store->put({row("a"), row("b", "new"), row("c")});
  EXPECT_EQ(second->added, 1);
  EXPECT_EQ(second->replaced, 1);
  EXPECT_EQ(second->unchanged, 1);
  EXPECT_EQ(*Store::read(path()), (std::vector<Row>{row("a"), row("b", "new"), row("c")}));
  EXPECT_TRUE(*store->remove("part", "a"));
  EXPECT_FALSE(*store->remove("part", "a"));
  EXPECT_EQ(store->rows()->size(), 2u);
}

TEST_F(PartsStore, PutsAllOrNothing) {
  auto store = Store::open(path());
  ASSERT_TRUE(store->put({row("a")}));
  Row wrong = row("z");
  wrong.section = "chair";  // the file itself refuses it
  const auto refused = store->put({row("b"), row("a", "changed"), wrong});
  ASSERT_FALSE(refused);
  EXPECT_EQ(*store->rows(), (std::vector<Row>{row("a")}));
  EXPECT_TRUE(store->put({row("b")})) << "usable after a refusal";
}

TEST_F(PartsStore, TwoProgramsThatWriteAtOnceLoseNothing) {
  constexpr int writers = 4, each = 25;
  std::atomic<int> failures = 0;
  std::vector<std::thread> threads;
  for (int w = 0; w < writers; ++w)
    threads.emplace_back([&, w] {
      auto store = Store::open(path());  // all of them make the file at once
      if (!store) {
        ++failures;
        return;
      }
      for (int i = 0; i < each; ++i) {
        const std::string id = "w" + std::to_string(w) + "-" + std::to_string(i);
        if (!store->put({row(id), row("shared", id)})) ++failures;
        const auto seen = Store::read(path());
        if (!seen || seen->empty()) ++failures;
      }
    });
  for (auto& t : threads) t.join();
  EXPECT_EQ(failures, 0);
  EXPECT_EQ(Store::read(path())->size(), static_cast<std::size_t>(writers * each + 1));
}

TEST_F(PartsStore, AnOlderFileIsBroughtUpAndANewerRefused) {
  {
    SQLite::Database db(path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    db.exec(
        "CREATE TABLE record(section TEXT NOT NULL CHECK(section IN ('module', 'part')), id TEXT "
        "NOT NULL, kind TEXT NOT NULL, title TEXT NOT NULL, text TEXT NOT NULL, PRIMARY "
        "KEY(section, id)) STRICT, WITHOUT ROWID;"
        "INSERT INTO record VALUES('part', 'old', 'breaker', 'kept', '[part.old]');"
        "PRAGMA user_version = 1;");
  }
  EXPECT_EQ(Store::read(path())->size(), 1u) << "reading does not need the newest shape";
  {
    auto store = Store::open(path());
    ASSERT_TRUE(store) << store.failure().message;
    EXPECT_EQ(store->rows()->at(0).title, "kept");
  }
  {
    SQLite::Database db(path(), SQLite::OPEN_READWRITE);
    EXPECT_EQ(db.execAndGet("PRAGMA user_version").getInt(), 2);
    EXPECT_EQ(db.execAndGet("PRAGMA journal_mode").getString(), "wal");
    db.exec("PRAGMA user_version = 99");
  }
  EXPECT_EQ(Store::open(path()).failure().id, "parts.too-new");
  EXPECT_EQ(Store::read(path()).failure().id, "parts.too-new");
}

TEST_F(PartsStore, WhatIsNoLibraryIsRefusedAndLeftAlone) {
  const std::string bytes(5000, 'x');
  std::ofstream(path()) << bytes;
  EXPECT_EQ(Store::open(path()).failure().id, "parts.not-a-library");
  EXPECT_EQ(Store::read(path()).failure().id, "parts.not-a-library");
  std::ifstream in(path());
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), bytes);
  EXPECT_EQ(Store::open((folder_ / "no" / "such" / "folder.db").string()).failure().id,
            "parts.cannot-use");
}

TEST(PartsRows, AreCutAtTheirHeaders) {
  const auto rows = split_rows(
      "# words\n[part.a]\nkind = \"fuse\"\ntitle = \"A\"\n\n[module.\"b c\"]\nv_oc = \"1 V\"\n");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].id, "a");
  EXPECT_EQ(rows[0].kind, "fuse");
  EXPECT_EQ(rows[0].title, "A");
  EXPECT_EQ(rows[1].section, "module");
  EXPECT_EQ(rows[1].id, "b c");
  EXPECT_EQ(rows[1].kind, "module");
}

TEST(PartsRows, OwnRecordsWinOverTheDefaults) {
  const auto all = over({row("a"), row("b")}, {row("b", "own"), row("c")});
  EXPECT_EQ(all, (std::vector<Row>{row("a"), row("b", "own"), row("c")}));
  EXPECT_GT(default_rows().size(), 500u);
}

}  // namespace
}  // namespace stringwright::parts
