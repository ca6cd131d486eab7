// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace swarfbook {

/// How long a writer waits for another one by default.
inline constexpr int busyTimeoutMs = 3000;

/// How long to wait for another program that writes, and what to call if it takes long.
struct Patience {
    std::chrono::milliseconds longest{busyTimeoutMs};
    std::chrono::milliseconds untilSaid{busyTimeoutMs};
    /// Called once in each wait, after `untilSaid`, with a sentence; may be empty.
    std::function<void(const std::string&)> say{};
};

/// How a database's file is opened.
enum class Access {
    write,         ///< made where there is none
    writeIfThere,  ///< refused where there is none
    read,          ///< with the locks and the write-ahead log that readers share
    readWithoutAid ///< with neither: on a disk or in a folder that cannot be written
};

/// One prepared SQL statement. Columns count from 0, parameters are bound in their order.
class Statement {
  public:
    Statement(sqlite3* database, std::string_view sql, std::string where);
    Statement(Statement&& other) noexcept;
    Statement& operator=(Statement&&) = delete;
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    ~Statement();

    /// Binds the next parameters, one for one.
    template <class... Values> Statement& with(const Values&... values) {
        (bindNext(values), ...);
        return *this;
    }
    /// Goes to the next row. @return whether there is one. Throws ToolError.
    bool step();
    /// Steps to the end, for statements without rows.
    void run();

    [[nodiscard]] std::int64_t integer(int column) const;
    /// "" for NULL. Bytes that are not UTF-8, which only a damaged book has, become U+FFFD.
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::optional<double> real(int column) const;
    [[nodiscard]] std::optional<std::int64_t> maybeInteger(int column) const;

  private:
    void bindNext(std::int64_t value);
    void bindNext(bool value);
    void bindNext(std::string_view value);
    void bindNext(const std::optional<double>& value);
    void bindNext(const std::optional<std::int64_t>& value);
    void checked(int code) const;

    sqlite3* database_;
    sqlite3_stmt* statement_ = nullptr;
    std::string where_;
    int bound_ = 0;
};

/// One open SQLite database: foreign keys obeyed, every commit synchronised to the disk.
/// Everything throws ToolError with a sentence that says what the user can do.
/// Checked: tests/record/database_test.cpp.
class Database {
  public:
    /// Opens or makes the file; it is not written to yet. `where` names it in messages. A database
    /// opened for reading cannot be written; it shows the committed content of its write-ahead log.
    Database(const std::filesystem::path& file, std::string where, Access access = Access::write);
    static std::unique_ptr<Database> inMemory();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    ~Database();

    [[nodiscard]] Statement prepare(std::string_view sql);
    /// Runs one or several statements that give no rows.
    void run(const std::string& sql);
    /// The first column of the first row; throws ToolError if there is no row.
    [[nodiscard]] std::int64_t number(std::string_view sql);
    [[nodiscard]] std::int64_t lastInsertedId() const;
    /// Lets readers continue beside a writer (write-ahead log). Writes to the file.
    void useWriteAheadLog();
    /// Copies the whole database, as it is at one moment, into another one.
    void copyTo(Database& target);
    [[nodiscard]] const std::string& where() const { return where_; }
    void waitWith(Patience patience) { patience_ = std::move(patience); }
    [[nodiscard]] const Patience& patience() const { return patience_; }
    /// Forbids writing from now on, because changes in memory alone would be lost.
    void forbidWriting();
    [[nodiscard]] bool inTransaction() const;
    /// For files that the running transaction put on the disk beside the database: calls `settle`
    /// once, with true after the commit, with false before a rollback. It must not throw.
    void whenDecided(std::function<void(bool committed)> settle);

  private:
    friend class BookTransaction;
    void open(const std::filesystem::path& file, Access access);
    void checked(int code) const;
    /// SQLite asks it whether to try once more; 0 gives up.
    static int waitAgain(void* self, int triesBefore);

    sqlite3* database_ = nullptr;
    std::string where_;
    Patience patience_;
    std::chrono::steady_clock::time_point waitingSince_;
    bool waitSaid_ = false;
    int depth_ = 0; ///< of nested transactions
    std::vector<std::function<void(bool)>> undecided_;
};

/// Disables features by which a file from elsewhere could do harm: its own triggers and views,
/// entries larger than any in a book, and writing to the schema.
/// Source: SQLite's "Defense Against The Dark Arts", untrusted database files.
void distrustContent(sqlite3* database);

/// Throws the ToolError that says to a user of `where` what an SQLite result code means.
[[noreturn]] void throwDatabaseError(sqlite3* database, int code, const std::string& where);

/// The file or its folder cannot be opened, read or written; reading it as it is may still work.
class DatabaseUnreachable : public ToolError {
  public:
    using ToolError::ToolError;
};

} // namespace swarfbook
