// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/database.h"

#include <fmt/format.h>

#include <exception>
#include <utility>

namespace swarfbook {

BookTransaction::BookTransaction(Database& database)
    : database_(database), depth_(database.depth_) {
    // IMMEDIATE takes the right to write at once: what is read in it stays true until the commit.
    database_.run(depth_ == 0 ? "BEGIN IMMEDIATE" : fmt::format("SAVEPOINT inner{}", depth_));
    ++database_.depth_;
}

BookTransaction::~BookTransaction() {
    if (!open_)
        return;
    --database_.depth_;
    database_.partUndone_ = true;
    try {
        // After a full disk SQLite may have rolled everything back by itself.
        if (database_.inTransaction())
            database_.run(depth_ == 0
                              ? "ROLLBACK"
                              : fmt::format("ROLLBACK TO inner{0}; RELEASE inner{0}", depth_));
        if (depth_ == 0)
            afterOutermost();
    } catch (const std::exception&) {
        // The error that led here is the one to tell; closing the database rolls back as well.
        return;
    }
}

void BookTransaction::afterOutermost() noexcept {
    const auto actions = std::exchange(database_.whenUndone_, {});
    if (!std::exchange(database_.partUndone_, false) || actions.empty())
        return;
    try {
        database_.run("BEGIN IMMEDIATE");
        for (const auto& action : actions)
            action();
    } catch (const std::exception&) {
        // What was to be taken away stays, and nothing in the book names it.
        endUndoing();
        return;
    }
    endUndoing();
}

void BookTransaction::endUndoing() noexcept {
    try {
        if (database_.inTransaction())
            database_.run("ROLLBACK");
    } catch (const std::exception&) {
        return; // closing the database rolls back as well
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
        afterOutermost();
}

} // namespace swarfbook
