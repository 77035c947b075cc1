#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace stringwright::parts {

/// One record of a library as it is kept: the text is what stands in a job file, `[part.ID]` and its
/// keys, so that there is one reader for both.
struct Row {
  std::string section;  ///< "module" or "part"
  std::string id;
  std::string kind;  ///< "module", or the kind of the part
  std::string title;
  std::string text;
  friend bool operator==(const Row&, const Row&) = default;
};

/// What a change did.
struct Changes {
  int added = 0, replaced = 0, unchanged = 0;
};

/// A person's own parts in one SQLite file. Several programs may use it at once: each change is one
/// transaction that holds the write lock from its start, waits up to ten seconds for another one, and
/// is done whole or not at all. Readers never wait (write-ahead log).
///
/// The shape of the file has a number (`user_version`); an older file is brought up when it is opened
/// for writing, a newer one is refused. Nothing here reads the environment: the path is the caller's.
class Store {
 public:
  /// Opens for reading and writing, making the file where there is none.
  static Result<Store> open(const std::string& path);

  /// All rows of a file, by section and id; a file that is not there has none.
  static Result<std::vector<Row>> read(const std::string& path);

  /// Puts all rows in, or none. A row of the same section and id is replaced.
  Result<Changes> put(const std::vector<Row>& rows);

  /// Takes one record out. False: there was none.
  Result<bool> remove(const std::string& section, const std::string& id);

  Result<std::vector<Row>> rows() const;

  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

 private:
  struct Open;
  explicit Store(std::unique_ptr<Open> open);
  std::unique_ptr<Open> open_;
};

/// The records that come with the program, from data/parts, by section and id.
std::vector<Row> default_rows();

/// A parts file cut at its `[module.ID]` and `[part.ID]` headers, without reading the values. For files
/// that are known to be good.
std::vector<Row> split_rows(std::string_view text);

/// `own` over `base`: a record of the same section and id is taken from `own`.
std::vector<Row> over(std::vector<Row> base, const std::vector<Row>& own);

}  // namespace stringwright::parts
