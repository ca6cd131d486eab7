// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace swarfbook {
namespace {

using Schema = std::map<std::string, std::string>;

/// Kind and name of each thing in a schema, and the statement that made it. SQLite makes the
/// indexes without a statement for a table's own rules.
Schema schemaOf(Database& database) {
    Statement rows = database.prepare("SELECT type || ' ' || name, sql FROM sqlite_schema "
                                      "WHERE NOT (type = 'index' AND sql IS NULL)");
    Schema all;
    while (rows.step())
        // Statistics that SQLite keeps if somebody asked for them.
        if (!rows.text(0).starts_with("table sqlite_stat"))
            all[rows.text(0)] = rows.text(1);
    return all;
}

/// The word that begins at `from`, up to a blank or bracket.
std::string_view wordAt(std::string_view text, std::size_t from) {
    return text.substr(from, text.find_first_of(" (", from) - from);
}

/// Adds what a step's CREATE statements make. SQLite keeps each as it is written.
void addMadeBy(std::string_view sql, Schema& all) {
    constexpr std::string_view table = "CREATE TABLE ", index = "CREATE INDEX ",
                               unique = "CREATE UNIQUE INDEX ";
    while (!sql.empty()) {
        sql.remove_prefix(std::min(sql.find_first_not_of("\n "), sql.size()));
        const std::string_view statement = sql.substr(0, sql.find(";\n"));
        if (statement.starts_with(table))
            all[fmt::format("table {}", wordAt(statement, table.size()))] = statement;
        for (const std::string_view start : {index, unique})
            if (statement.starts_with(start))
                all[fmt::format("index {}", wordAt(statement, start.size()))] = statement;
        sql.remove_prefix(std::min(statement.size() + 1, sql.size()));
    }
}

/// The schema by the statements of the last whole step and of later steps; nothing if one of these
/// has to be run.
std::optional<Schema> schemaAsWritten(int version, const std::vector<SchemaStep>& steps) {
    std::optional<Schema> all;
    for (const SchemaStep& step : steps) {
        if (step.version > version)
            break;
        if (step.made == SchemaMade::whole)
            all.emplace()["table sqlite_sequence"] = "CREATE TABLE sqlite_sequence(name,seq)";
        else if (step.made == SchemaMade::byRunning)
            all.reset();
        if (all)
            addMadeBy(step.sql, *all);
    }
    return all;
}

Schema schemaAt(int version, const std::vector<SchemaStep>& steps) {
    if (auto written = schemaAsWritten(version, steps))
        return *std::move(written); // every command asks this, so it has to be quick
    const auto database = Database::inMemory();
    database->run("PRAGMA foreign_keys = OFF"); // as bringUpToDate takes the steps
    for (const SchemaStep& step : steps)
        if (step.version <= version)
            database->run(std::string(step.sql));
    return schemaOf(*database);
}

[[noreturn]] void throwForeign(const Database& database, const std::string& what,
                               std::string_view how) {
    // A foreign text is not quoted at length, and its bytes are not printed unescaped.
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
