// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace swarfbook {
namespace {

/// Kind and name of each thing in a schema, and the statement that made it.
std::map<std::string, std::string> schemaOf(Database& database) {
    Statement rows = database.prepare("SELECT type || ' ' || name, tbl_name || char(10) || "
                                      "coalesce(sql, '') FROM sqlite_schema");
    std::map<std::string, std::string> all;
    while (rows.step())
        // Statistics that SQLite keeps for itself, where somebody asked it to.
        if (!rows.text(0).starts_with("table sqlite_stat"))
            all[rows.text(0)] = rows.text(1);
    return all;
}

std::map<std::string, std::string> schemaAt(int version, const std::vector<SchemaStep>& steps) {
    const auto database = Database::inMemory();
    database->run("PRAGMA foreign_keys = OFF"); // as bringUpToDate takes the steps
    for (const SchemaStep& step : steps)
        if (step.version <= version)
            database->run(std::string(step.sql));
    return schemaOf(*database);
}

[[noreturn]] void throwForeign(const Database& database, const std::string& what,
                               std::string_view how) {
    // What is foreign is not quoted at length, nor are its bytes printed as they are.
    std::string name = what.substr(0, 60);
    std::replace_if(
        name.begin(), name.end(), [](unsigned char c) { return c < 0x20 || c >= 0x7f; }, '?');
    throw ToolError(fmt::format("{} was not written by swarfbook alone: \"{}\" in book.db {}. "
                                "Nothing was changed. Bring the book back from your last backup "
                                "with swarfbook restore.",
                                database.where(), name, how));
}

} // namespace

void requireOwnSchema(Database& database, int version, const std::vector<SchemaStep>& steps) {
    const auto expected = schemaAt(version, steps);
    const auto found = schemaOf(database);
    for (const auto& [what, sql] : found) {
        const auto own = expected.find(what);
        if (own == expected.end())
            throwForeign(database, what, "does not belong there");
        if (own->second != sql)
            throwForeign(database, what, "is not as swarfbook makes it");
    }
    for (const auto& [what, sql] : expected)
        if (!found.contains(what))
            throwForeign(database, what, "is missing");
}

} // namespace swarfbook
