// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book_transaction.h"

#include "base/errors.h"
#include "record/database.h"
#include "record/leftovers.h"

#include <fmt/format.h>

namespace swarfbook {

BookTransaction::BookTransaction(Database& database, const std::filesystem::path& bookFolder)
    : database_(database), depth_(database.depth_), undecidedBefore_(database.undecided_.size()) {
    // IMMEDIATE takes the right to write at once, so everything read in it stays true until the
    // commit.
    database_.run(depth_ == 0 ? "BEGIN IMMEDIATE" : fmt::format("SAVEPOINT inner{}", depth_));
    ++database_.depth_;
    if (depth_ == 0 && !bookFolder.empty())
        clearAfterKill(bookFolder, database_);
}

void BookTransaction::settle(bool committed) {
    auto& all = database_.undecided_;
    for (std::size_t i = undecidedBefore_; i < all.size(); ++i)
        all[i](committed);
    all.resize(undecidedBefore_);
}

BookTransaction::~BookTransaction() {
    if (!open_)
        return;
    --database_.depth_;
    settle(false);
    try {
        // After a full disk SQLite may have rolled everything back by itself.
        if (database_.inTransaction())
            database_.run(depth_ == 0
                              ? "ROLLBACK"
                              : fmt::format("ROLLBACK TO inner{0}; RELEASE inner{0}", depth_));
    } catch (const ToolError&) {
        // The error that led here is the one to report; closing the database rolls back as well.
        return;
    }
}

void BookTransaction::commit() {
    if (!database_.inTransaction())
        throw ToolError(fmt::format("{} had to undo this command. Nothing of it was kept. Check "
                                    "the disk, then give the command again.",
                                    database_.where()));
    database_.run(depth_ == 0 ? "COMMIT" : fmt::format("RELEASE inner{}", depth_));
    open_ = false;
    --database_.depth_;
    if (depth_ == 0)
        settle(true);
}

} // namespace swarfbook
