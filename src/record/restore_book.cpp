// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/restore_book.h"

#include "base/errors.h"
#include "record/copy_book.h"
#include "record/judged_case.h"
#include "record/schema.h"

#include <fmt/format.h>

#include <cstdint>
#include <limits>
#include <map>
#include <system_error>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

/// The database, and what SQLite keeps beside it after a program was killed.
constexpr const char* databaseFiles[] = {"book.db", "book.db-wal", "book.db-journal"};

Folder openBackup(const fs::path& backup) {
    std::error_code error;
    if (!fs::is_directory(backup, error))
        throw UsageError(fmt::format("There is no backup in {}. Name the folder that swarfbook "
                                     "backup made.",
                                     backup.string()));
    Folder folder = Folder::open(backup);
    if (folder.kindOf("book.db") != EntryKind::file)
        throw UsageError(
            fmt::format("{} holds no book.db, so it is not a backup of a book. Name the "
                        "folder that swarfbook backup made.",
                        backup.string()));
    return folder;
}

/// The folder where the book is to appear.
fs::path checkedNewFolder(const fs::path& given, const fs::path& backup) {
    std::error_code error;
    fs::path target = fs::weakly_canonical(fs::absolute(given), error);
    if (error || target.empty())
        target = fs::absolute(given).lexically_normal();
    if (!target.has_filename())
        target = target.parent_path();
    const bool there = fs::exists(fs::symlink_status(target, error));
    if (there && !(fs::is_directory(target, error) && fs::is_empty(target, error)))
        throw UsageError(fmt::format("{} is not empty, and bringing a backup back overwrites "
                                     "nothing. Name a new folder with --book.",
                                     target.string()));
    for (fs::path above = target; above != above.parent_path(); above = above.parent_path())
        if (fs::equivalent(above, backup, error))
            throw UsageError(fmt::format("{} is inside the backup. Name a folder elsewhere with "
                                         "--book.",
                                         target.string()));
    return target;
}

using Digests = std::map<std::string, std::string>;

Digests copyDatabaseFiles(const Folder& from, const Folder& to) {
    Digests copied;
    for (const char* name : databaseFiles)
        if (from.kindOf(name))
            copied[name] =
                from.copyInto(to, name, 0600, std::numeric_limits<std::uint64_t>::max()).sha256;
    return copied;
}

Digests digestsNow(const Folder& folder) {
    Digests now;
    for (const char* name : databaseFiles)
        if (folder.kindOf(name))
            now[name] = folder.digestOf(name).sha256;
    return now;
}

void copyDatabase(const Folder& from, const Folder& to) {
    if (copyDatabaseFiles(from, to) != digestsNow(from))
        throw ToolError(fmt::format("The backup in {} is in use by another program. Nothing was "
                                    "brought back. Wait until that program is done, then give the "
                                    "command again.",
                                    from.path().string()));
}

/// Refuses the entries if they cannot be trusted as a whole; otherwise says what is wrong.
void verifyCopy(const Folder& copy, Database& database, CopiedFiles& files) {
    for (const BookFault& fault : verifyBook(copy, database, files.missing).faults) {
        if (fault.ofDatabase)
            throw ToolError(fmt::format("The backup is damaged, and nothing was brought back: {} "
                                        "Take an earlier backup.",
                                        fault.what));
        files.troubles.push_back(fault.what + " " + fault.advice);
    }
}

} // namespace

Book::Copied restoreBook(const fs::path& backup, const fs::path& book) {
    const Folder from = openBackup(backup);
    const fs::path target = checkedNewFolder(book, backup);
    UnfinishedFolder copy(target, {"The book", "--book"});
    CopiedFiles files;
    copy.fill([&] {
        copyDatabase(from, copy.folder());
        Database database(
            copy.folder().path() / "book.db",
            fmt::format("the copy in {} of the backup {}", target.string(), backup.string()));
        if (versionOfBook(database) == 0)
            throw UsageError(fmt::format("book.db in {} is empty, so it is not a backup of a book.",
                                         backup.string()));
        bringUpToDate(database);
        database.run("PRAGMA journal_mode = DELETE");
        dropDamagedJudgedCases(database);
        files = copyFiles(from, copy.folder(), database);
        verifyCopy(copy.folder(), database, files);
    });
    copy.finish(UnfinishedFolder::InPlace::emptyFolder);
    return {files.photos, files.charts, files.troubles};
}

} // namespace swarfbook
