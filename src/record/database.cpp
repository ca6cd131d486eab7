// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/database.h"

#include "base/errors.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cctype>
#include <chrono>
#include <thread>
#include <utility>

namespace swarfbook {
namespace {

// Our own experience: the findings of the fullest photos have some 5 MB; no photo has ten times
// that.
constexpr int largestEntryBytes = 64 << 20;

bool holdsAnything(const std::filesystem::path& file) {
    std::error_code none;
    const auto size = std::filesystem::file_size(file, none);
    return !none && size > 0;
}

/// The file as a URI with the promise that nobody changes it. Source: RFC 3986, percent-encoding.
std::string immutableUri(const std::filesystem::path& file) {
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(file).string()) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) != 0 || c == '/' || c == '-' || c == '.' || c == '_')
            uri += c;
        else
            uri += fmt::format("%{:02X}", byte);
    }
    return uri + "?immutable=1";
}

/// Whether an error of copying is the target's: the source is only read.
bool isOfWriting(int code) {
    switch (code) {
    case SQLITE_FULL:
    case SQLITE_IOERR_WRITE:
    case SQLITE_IOERR_FSYNC:
    case SQLITE_IOERR_DIR_FSYNC:
    case SQLITE_IOERR_TRUNCATE:
        return true;
    default:
        return (code & 0xff) == SQLITE_READONLY;
    }
}

} // namespace

Database::Database(const std::filesystem::path& file, std::string where, Access access)
    : where_(std::move(where)) {
    try {
        open(file, access);
    } catch (...) {
        sqlite3_close_v2(database_);
        throw;
    }
}

void Database::open(const std::filesystem::path& file, Access access) {
    int flags = SQLITE_OPEN_EXRESCODE;
    std::string name = file.string();
    const char* system = nullptr;
    if (access == Access::write)
        flags |= SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    else if (access == Access::read || access == Access::writeIfThere)
        flags |= SQLITE_OPEN_READWRITE; // the log needs this even from a reader; query_only forbids
                                        // anything else
    else
        flags |= SQLITE_OPEN_READONLY;
    // Without locks SQLite keeps the index of a log in its own memory, and if the log is empty it
    // takes the file as it is. Source: sqlite.org, "Write-Ahead Logging", section 7, and "URI
    // filenames", immutable.
    const bool logged = access == Access::readWithoutAid && holdsAnything(file.string() + "-wal");
    if (logged) {
        system = "unix-none";
    } else if (access == Access::readWithoutAid) {
        flags |= SQLITE_OPEN_URI;
        name = immutableUri(file);
    }
    checked(sqlite3_open_v2(name.c_str(), &database_, flags, system));
    const bool toWrite = access == Access::write || access == Access::writeIfThere;
    // SQLite silently opens a file for reading if it may not be written.
    if (toWrite && sqlite3_db_readonly(database_, "main") == 1)
        throwDatabaseError(database_, SQLITE_READONLY, where_);
    checked(sqlite3_busy_handler(database_, waitAgain, this));
    distrustContent(database_);
    // Data beyond the cache stay in memory: a temporary folder may be full or open to others.
    run("PRAGMA temp_store = MEMORY");
    if (toWrite) {
        run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL;");
        return;
    }
    forbidWriting();
    if (logged)
        run("PRAGMA locking_mode = EXCLUSIVE");
}

void Database::forbidWriting() {
    run("PRAGMA query_only = ON");
}

int Database::waitAgain(void* self, int triesBefore) {
    auto& database = *static_cast<Database*>(self);
    const auto now = std::chrono::steady_clock::now();
    if (triesBefore == 0) {
        database.waitingSince_ = now;
        database.waitSaid_ = false;
    }
    const Patience& patience = database.patience_;
    const auto waited = now - database.waitingSince_;
    if (waited >= patience.longest)
        return 0;
    if (!database.waitSaid_ && waited >= patience.untilSaid && patience.say) {
        database.waitSaid_ = true;
        const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(patience.longest);
        patience.say(fmt::format("{} is in use by another program; this command waits for it, up "
                                 "to {} seconds in all.",
                                 database.where_, seconds.count()));
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(triesBefore < 10 ? 5 : 25));
    return 1;
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
    const auto giveUp = std::chrono::steady_clock::now() + patience_.longest;
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
        throwDatabaseError(nullptr, stepped, isOfWriting(stepped) ? target.where_ : where_);
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
