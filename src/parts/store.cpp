#include "parts/store.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <thread>

#include <sys/stat.h>

// The one place that knows SQLite.
namespace stringwright::parts {
namespace {

constexpr int wait_ms = 10'000;

/// Steps from one shape of the file to the next; never changed once released, only added to.
constexpr std::array<const char*, 2> steps{
    // 1: records as text
    "CREATE TABLE record("
    "  section TEXT NOT NULL CHECK(section IN ('module', 'part')),"
    "  id TEXT NOT NULL CHECK(id <> ''),"
    "  kind TEXT NOT NULL,"
    "  title TEXT NOT NULL,"
    "  text TEXT NOT NULL,"
    "  PRIMARY KEY(section, id)) STRICT, WITHOUT ROWID;",
    // 2: lists by kind
    "CREATE INDEX record_by_kind ON record(kind, id);"};
constexpr int newest = static_cast<int>(steps.size());

Failure failed(const std::string& path, const SQLite::Exception& e) {
  const int code = e.getErrorCode();
  if (code == SQLITE_NOTADB || code == SQLITE_CORRUPT)
    return {"parts.not-a-library", path + ": is not a parts library, or is damaged (" + e.what() +
                                       "); move it away to start with an empty one"};
  if (code == SQLITE_BUSY || code == SQLITE_LOCKED)
    return {"parts.busy", path + ": another program has held the parts library for " +
                              std::to_string(wait_ms / 1000) + " s; nothing was changed"};
  return {"parts.cannot-use", path + ": the parts library cannot be used: " + e.what()};
}

int version_of(SQLite::Database& db) { return db.execAndGet("PRAGMA user_version").getInt(); }

Failure too_new(const std::string& path, int version) {
  return {"parts.too-new", path + ": was written by a newer version of this program (shape " +
                               std::to_string(version) + ", this one knows up to " +
                               std::to_string(newest) + "); nothing was changed"};
}

std::vector<Row> all(SQLite::Database& db) {
  std::vector<Row> rows;
  SQLite::Statement q(db, "SELECT section, id, kind, title, text FROM record ORDER BY section, id");
  while (q.executeStep())
    rows.push_back({q.getColumn(0).getString(), q.getColumn(1).getString(),
                    q.getColumn(2).getString(), q.getColumn(3).getString(),
                    q.getColumn(4).getString()});
  return rows;
}

/// Turning the log on is not waited for by SQLite itself when two programs make the file at once.
void write_ahead(SQLite::Database& db) {
  constexpr int tries = 200;
  for (int i = 0;; ++i) {
    try {
      db.exec("PRAGMA journal_mode=WAL");
      return;
    } catch (const SQLite::Exception& e) {
      if (e.getErrorCode() != SQLITE_BUSY || i >= tries) throw;
      std::this_thread::sleep_for(std::chrono::milliseconds(wait_ms / tries));
    }
  }
}

void migrate(SQLite::Database& db) {
  if (version_of(db) == newest) return;
  SQLite::Transaction change(db, SQLite::TransactionBehavior::IMMEDIATE);
  // Another program may have done it while this one waited.
  for (int v = version_of(db); v < newest; ++v) {
    db.exec(steps[static_cast<std::size_t>(v)]);
    db.exec("PRAGMA user_version = " + std::to_string(v + 1));
  }
  change.commit();
}

}  // namespace

struct Store::Open {
  std::string path;
  mutable SQLite::Database db;
};

Store::Store(std::unique_ptr<Open> open) : open_(std::move(open)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store> Store::open(const std::string& path) {
  try {
    auto open = std::make_unique<Open>(
        Open{path, SQLite::Database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, wait_ms)});
    if (const int version = version_of(open->db); version > newest) return too_new(path, version);
    write_ahead(open->db);
    open->db.exec("PRAGMA synchronous=FULL");
    migrate(open->db);
    return Store(std::move(open));
  } catch (const SQLite::Exception& e) {
    return failed(path, e);
  }
}

Result<std::vector<Row>> Store::read(const std::string& path) {
  struct stat found{};
  if (::stat(path.c_str(), &found) != 0) {
    if (errno == ENOENT || errno == ENOTDIR) return std::vector<Row>{};
    return Failure{"parts.cannot-use",
                   path + ": the parts library cannot be used: " + std::strerror(errno)};
  }
  try {
    SQLite::Database db(path, SQLite::OPEN_READONLY, wait_ms);
    const int version = version_of(db);
    if (version > newest) return too_new(path, version);
    if (version == 0) return std::vector<Row>{};  // made, and not yet filled
    return all(db);
  } catch (const SQLite::Exception& e) {
    return failed(path, e);
  }
}

Result<Changes> Store::put(const std::vector<Row>& rows) {
  try {
    SQLite::Transaction change(open_->db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement old(open_->db, "SELECT text FROM record WHERE section = ? AND id = ?");
    SQLite::Statement put(open_->db,
                          "INSERT OR REPLACE INTO record(section, id, kind, title, text) "
                          "VALUES(?, ?, ?, ?, ?)");
    Changes done;
    for (const auto& row : rows) {
      old.reset();
      old.bind(1, row.section);
      old.bind(2, row.id);
      const bool there = old.executeStep();
      if (there && old.getColumn(0).getString() == row.text) {
        ++done.unchanged;
        continue;
      }
      ++(there ? done.replaced : done.added);
      put.reset();
      put.bind(1, row.section);
      put.bind(2, row.id);
      put.bind(3, row.kind);
      put.bind(4, row.title);
      put.bind(5, row.text);
      put.exec();
    }
    old.reset();
    change.commit();
    return done;
  } catch (const SQLite::Exception& e) {
    return failed(open_->path, e);
  }
}

Result<bool> Store::remove(const std::string& section, const std::string& id) {
  try {
    SQLite::Transaction change(open_->db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement drop(open_->db, "DELETE FROM record WHERE section = ? AND id = ?");
    drop.bind(1, section);
    drop.bind(2, id);
    const int gone = drop.exec();
    change.commit();
    return gone > 0;
  } catch (const SQLite::Exception& e) {
    return failed(open_->path, e);
  }
}

Result<std::vector<Row>> Store::rows() const {
  try {
    return all(open_->db);
  } catch (const SQLite::Exception& e) {
    return failed(open_->path, e);
  }
}

}  // namespace stringwright::parts
