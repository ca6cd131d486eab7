// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"

#include <string_view>
#include <vector>

namespace swarfbook {

/// Marks book.db as a book of this program: "swbk" as a big-endian number, in the database's header
/// (PRAGMA application_id).
inline constexpr std::int64_t bookApplicationId = 0x7377626b;

/// How to find out what schema a step makes.
enum class SchemaMade {
    byRunning, ///< by running it after the steps before
    whole,     ///< its CREATE statements make every table and index anew
    more       ///< it only adds its CREATE statements to the schema before
};

/// The SQL that brings a book from the version before (0: nothing) to `version`.
struct SchemaStep {
    int version;
    std::string_view sql;
    SchemaMade made = SchemaMade::byRunning;
};

/// All steps, oldest first; the version of the last one is the present version. A step that was
/// released is never edited: a change is a new step, with its own source schema_v<n>.cpp and a book
/// of that version stored in tests/record/old-books.
const std::vector<SchemaStep>& schemaSteps();

extern const std::string_view schemaVersion1;
extern const std::string_view schemaVersion2;
extern const std::string_view schemaVersion3;
extern const std::string_view schemaVersion4;
extern const std::string_view schemaVersion5;
extern const std::string_view schemaVersion6;
extern const std::string_view schemaVersion7;
extern const std::string_view schemaVersion8;
extern const std::string_view schemaVersion9;
extern const std::string_view schemaVersion10;
extern const std::string_view schemaVersion11;
extern const std::string_view schemaVersion12;

/// Finds out what kind of file this is before anything is written to it.
/// @return its version; 0 for an empty database.
/// Throws ToolError if it is not a database, another program's database, or of a newer version.
int versionOfBook(Database& database, const std::vector<SchemaStep>& steps = schemaSteps());

/// Refuses a database whose tables, indexes, views or triggers differ by a single word from those
/// that the steps up to `version` make: this program did not write it, and it could do anything.
/// Throws ToolError naming the first that is foreign, missing or changed.
/// Checked: tests/record/hostile_book_test.cpp.
void requireOwnSchema(Database& database, int version,
                      const std::vector<SchemaStep>& steps = schemaSteps());

/// Brings the database to the last step's version, in one transaction. Checks its schema first
/// (requireOwnSchema).
/// Checked: tests/record/schema_test.cpp (all stored old books; a step that fails half way).
void bringUpToDate(Database& database, const std::vector<SchemaStep>& steps = schemaSteps());

} // namespace swarfbook
