// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/database.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cerrno>
#include <new>
#include <system_error>

namespace swarfbook {
namespace {

std::string diskFull(const std::string& where) {
    return fmt::format("The disk that holds {} is full. Nothing of this command was kept. Make "
                       "room on that disk, then give the command again.",
                       where);
}

std::string inOutError(sqlite3* database, const std::string& where) {
    const int systemError = database != nullptr ? sqlite3_system_errno(database) : 0;
    if (systemError == ENOSPC || systemError == EDQUOT)
        return diskFull(where);
    const std::string why =
        systemError == 0 ? "the disk gave no reason" : std::generic_category().message(systemError);
    return fmt::format("The disk did not read or write {} ({}). Nothing of this command was kept. "
                       "Check the disk and its connection, then give the command again.",
                       where, why);
}

std::string sentenceFor(sqlite3* database, int code, const std::string& where) {
    const char* message = database != nullptr ? sqlite3_errmsg(database) : sqlite3_errstr(code);
    switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
        return fmt::format("{} is in use by another program and did not become free in time. "
                           "Nothing was changed. Wait until that program is done or close it, "
                           "then give the command again.",
                           where);
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return fmt::format("{} is read-only: it can be read, shown and copied, but nothing can be "
                           "put into it. Allow writing to its folder and files, or copy the folder "
                           "to where you may write and name it with --book.",
                           where);
    case SQLITE_CANTOPEN:
        return fmt::format("{} cannot be opened. Check that you may read and write its folder and "
                           "files, or name another folder with --book.",
                           where);
    case SQLITE_NOTADB:
        return fmt::format("book.db of {} is not a database. It was left as it is. Name the "
                           "book's folder with --book, or move that file away.",
                           where);
    case SQLITE_CORRUPT:
        return fmt::format("{} is damaged ({}). Leave its files as they are and go on with your "
                           "last backup, named with --book.",
                           where, message);
    case SQLITE_FULL:
        return diskFull(where);
    case SQLITE_IOERR:
        return inOutError(database, where);
    case SQLITE_TOOBIG:
        return fmt::format("This is more than one entry of {} can hold. Shorten it.", where);
    default:
        return fmt::format("{} refused this: {}. Nothing of this command was kept.", where,
                           message);
    }
}

} // namespace

void throwDatabaseError(sqlite3* database, int code, const std::string& where) {
    if ((code & 0xff) == SQLITE_NOMEM)
        throw std::bad_alloc();
    const int kind = code & 0xff;
    if (kind == SQLITE_CANTOPEN || kind == SQLITE_READONLY || kind == SQLITE_PERM ||
        kind == SQLITE_IOERR || kind == SQLITE_FULL)
        throw DatabaseUnreachable(sentenceFor(database, code, where));
    throw ToolError(sentenceFor(database, code, where));
}

} // namespace swarfbook
