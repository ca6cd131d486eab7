// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

#include "base/errors.h"
#include "record/book.h"

#include <fmt/format.h>

namespace swarfbook {

const std::vector<SchemaStep>& schemaSteps() {
    static const std::vector<SchemaStep> steps{{1, schemaVersion1},
                                               {2, schemaVersion2},
                                               {3, schemaVersion3},
                                               {4, schemaVersion4},
                                               {5, schemaVersion5, SchemaMade::whole},
                                               {6, schemaVersion6, SchemaMade::more},
                                               {7, schemaVersion7, SchemaMade::more},
                                               {8, schemaVersion8, SchemaMade::more},
                                               {9, schemaVersion9, SchemaMade::more},
                                               {10, schemaVersion10, SchemaMade::more},
                                               {11, schemaVersion11, SchemaMade::more},
                                               {12, schemaVersion12, SchemaMade::more}};
    return steps;
}

int versionOfBook(Database& database, const std::vector<SchemaStep>& steps) {
    // One statement sees one moment; between several statements another program may start the book.
    Statement heads = database.prepare(
        "SELECT application_id, user_version, (SELECT count(*) FROM sqlite_schema) "
        "FROM pragma_application_id, pragma_user_version");
    heads.step();
    const std::int64_t application = heads.integer(0);
    const auto version = static_cast<int>(heads.integer(1));
    const bool empty = heads.integer(2) == 0;
    if (empty && application == 0 && version == 0)
        return 0;
    if (application != bookApplicationId)
        throw ToolError(fmt::format("book.db of {} is a database of another program, not a book. "
                                    "It was left as it is. Name the book's folder with --book.",
                                    database.where()));
    if (version > steps.back().version)
        throw ToolError(fmt::format(
            "{} was written by a newer swarfbook (book version {}; this program knows versions up "
            "to {}). It was left as it is. Install the newer swarfbook to use it.",
            database.where(), version, steps.back().version));
    if (version < 1)
        throw ToolError(fmt::format("{} is damaged: it says that its version is {}. It was left as "
                                    "it is. Bring the book back from your last backup with "
                                    "swarfbook restore.",
                                    database.where(), version));
    return version;
}

namespace {

void takeStep(Database& database, const SchemaStep& step) {
    try {
        database.run(std::string(step.sql));
    } catch (const ToolError& error) {
        throw ToolError(fmt::format("{} could not be brought to book version {} and was left as "
                                    "it is. {} Bring the book back from your last backup with "
                                    "swarfbook restore.",
                                    database.where(), step.version, error.what()));
    }
}

} // namespace

void bringUpToDate(Database& database, const std::vector<SchemaStep>& steps) {
    const int found = versionOfBook(database, steps);
    if (found > 0)
        requireOwnSchema(database, found, steps);
    if (found == steps.back().version)
        return;
    // A step may rebuild tables that others refer to, so references are checked at its end.
    database.run("PRAGMA foreign_keys = OFF");
    {
        BookTransaction transaction(database);
        // Read again, as another program may have done it while this one waited.
        const int before = versionOfBook(database, steps);
        for (const SchemaStep& step : steps)
            if (step.version > before)
                takeStep(database, step);
        if (database.prepare("PRAGMA foreign_key_check").step())
            throw ToolError(fmt::format("{} could not be brought to book version {}: entries in it "
                                        "refer to missing ones. It was left as it is.",
                                        database.where(), steps.back().version));
        database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}",
                                 bookApplicationId, steps.back().version));
        transaction.commit();
    }
    database.run("PRAGMA foreign_keys = ON");
}

} // namespace swarfbook
