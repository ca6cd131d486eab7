// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book_reading.h"

#include "record/schema.h"

namespace swarfbook {
namespace {

/// Opens it and reads its header, because only the first read shows whether the log can be reached.
std::unique_ptr<Database> openedAndRead(const std::filesystem::path& file, const std::string& where,
                                        Access access) {
    auto database = std::make_unique<Database>(file, where, access);
    (void)versionOfBook(*database);
    return database;
}

} // namespace

std::unique_ptr<Database> databaseToRead(const std::filesystem::path& folder,
                                         const std::string& where) {
    const std::filesystem::path file = folder / "book.db";
    try {
        return openedAndRead(file, where, Access::read);
    } catch (const DatabaseUnreachable&) {
        return openedAndRead(file, where, Access::readWithoutAid);
    }
}

std::unique_ptr<Database> atPresentVersion(std::unique_ptr<Database> database) {
    if (versionOfBook(*database) == schemaSteps().back().version)
        return database;
    auto copy = std::make_unique<Database>(":memory:", database->where());
    database->copyTo(*copy);
    bringUpToDate(*copy);
    copy->forbidWriting();
    return copy;
}

} // namespace swarfbook
