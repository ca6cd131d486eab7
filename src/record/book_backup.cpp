// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/copy_book.h"
#include "record/judged_case.h"
#include "record/leftovers.h"

#include <fmt/format.h>

#include <system_error>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

/// The target, when nothing is there yet.
fs::path checkedTarget(const fs::path& given, const fs::path& book) {
    const fs::path target = fs::absolute(given / "").lexically_normal().parent_path();
    std::error_code error;
    if (fs::exists(fs::symlink_status(target, error)))
        throw UsageError(fmt::format("{} is there already, and a backup overwrites nothing. Name a "
                                     "new folder.",
                                     target.string()));
    const fs::path resolved = fs::weakly_canonical(target, error);
    for (fs::path above = resolved; !error && above != above.parent_path();
         above = above.parent_path())
        if (fs::equivalent(above, book, error) && !error)
            throw UsageError(fmt::format("{} would be inside the book itself. Name a folder "
                                         "outside it, best on another disk.",
                                         target.string()));
        else
            error.clear(); // a missing folder is not the book
    return target;
}

} // namespace

Book::Copied Book::backUp(const fs::path& given) {
    const fs::path target = checkedTarget(given, folder_);
    UnfinishedFolder copy(target, {"The backup", "--out"});
    CopiedFiles files;
    copy.fill([&] {
        Database database(copy.makeDatabaseFile(),
                          fmt::format("the backup in {}", target.string()));
        database_->copyTo(database);
        // A backup on a disk that cannot be written needs no log beside it.
        database.run("PRAGMA journal_mode = DELETE");
        dropDamagedJudgedCases(database);
        files = copyFiles(Folder::open(folder_), copy.folder(), database);
        for (const BookFault& fault : verifyBook(copy.folder(), database, files.missing).faults)
            files.troubles.push_back(fault.what + " " + fault.advice);
    });
    copy.finish(UnfinishedFolder::InPlace::nothing);
    return {files.photos, files.charts, files.troubles};
}

} // namespace swarfbook
