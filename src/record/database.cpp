// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/database.h"

#include "base/errors.h"

#include <sqlite3.h>

#include <chrono>
#include <thread>
#include <utility>

namespace swarfbook {
namespace {

// Our own experience: the findings of the fullest photos are some 5 MB; ten times that is no photo.
constexpr int largestEntryBytes = 64 << 20;

} // namespace

Database::Database(const std::filesystem::path& file, std::string where)
    : where_(std::move(where)) {
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_EXRESCODE;
    const int code = sqlite3_open_v2(file.c_str(), &database_, flags, nullptr);
    try {
        checked(code);
        // A file that may not be written is opened for reading without a word.
        if (sqlite3_db_readonly(database_, "main") == 1)
            throwDatabaseError(database_, SQLITE_READONLY, where_);
        checked(sqlite3_busy_timeout(database_, busyTimeoutMs));
        distrustContent(database_);
        run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL;");
    } catch (...) {
        sqlite3_close_v2(database_);
        throw;
    }
}

void distrustContent(sqlite3* database) {
    for (const int forbidden : {SQLITE_DBCONFIG_ENABLE_TRIGGER, SQLITE_DBCONFIG_ENABLE_VIEW,
                                SQLITE_DBCONFIG_ENABLE_FTS3_TOKENIZER})
        sqlite3_db_config(database, forbidden, 0, nullptr);
    sqlite3_db_config(database, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_limit(database, SQLITE_LIMIT_LENGTH, largestEntryBytes);
    sqlite3_limit(database, SQLITE_LIMIT_ATTACHED, 0);
    sqlite3_exec(database, "PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0", nullptr, nullptr,
                 nullptr);
}

std::unique_ptr<Database> Database::inMemory() {
    return std::make_unique<Database>(":memory:", "the book in memory");
}

Database::~Database() {
    sqlite3_close_v2(database_);
}

Statement Database::prepare(std::string_view sql) {
    return {database_, sql, where_};
}

void Database::run(const std::string& sql) {
    checked(sqlite3_exec(database_, sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::number(std::string_view sql) {
    Statement statement = prepare(sql);
    if (!statement.step())
        throw ToolError(where_ + " gave no answer to: " + std::string(sql));
    return statement.integer(0);
}

std::int64_t Database::lastInsertedId() const {
    return sqlite3_last_insert_rowid(database_);
}

void Database::useWriteAheadLog() {
    // Two programs that start one book at the same moment: SQLite does not wait here by itself.
    const auto giveUp = std::chrono::steady_clock::now() + std::chrono::milliseconds(busyTimeoutMs);
    while (true) {
        const int code =
            sqlite3_exec(database_, "PRAGMA journal_mode = WAL", nullptr, nullptr, nullptr);
        if ((code & 0xff) != SQLITE_BUSY || std::chrono::steady_clock::now() > giveUp)
            return checked(code);
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
}

void Database::copyTo(Database& target) {
    sqlite3_backup* backup = sqlite3_backup_init(target.database_, "main", database_, "main");
    if (backup == nullptr)
        target.checked(sqlite3_extended_errcode(target.database_));
    const int stepped = sqlite3_backup_step(backup, -1);
    const int finished = sqlite3_backup_finish(backup);
    if (stepped != SQLITE_DONE)
        throwDatabaseError(nullptr, stepped, where_);
    target.checked(finished);
}

void Database::whenDecided(std::function<void(bool committed)> settle) {
    undecided_.push_back(std::move(settle));
}

bool Database::inTransaction() const {
    return sqlite3_get_autocommit(database_) == 0;
}

void Database::checked(int code) const {
    if (code != SQLITE_OK)
        throwDatabaseError(database_, code, where_);
}

} // namespace swarfbook
