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

/// How it is known what a step makes of the schema.
enum class SchemaMade {
    byRunning, ///< by running it after those before
    whole,     ///< its CREATE statements make every table and index there is, anew
    more       ///< its CREATE statements, and nothing else, join what there was before
};

/// The SQL that takes a book from the version before (0: nothing there) to `version`.
struct SchemaStep {
    int version;
    std::string_view sql;
    SchemaMade made = SchemaMade::byRunning;
};

/// All steps there are, oldest first; the last one's version is the present one. A step that was
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

/// Says what kind of file this is before anything is written to it.
/// @return its version; 0 for an empty database.
/// Throws ToolError: not a database, another program's database, of a newer version.
int versionOfBook(Database& database, const std::vector<SchemaStep>& steps = schemaSteps());

/// Refuses a database whose tables, indexes, views or triggers are not, word for word, those that
/// the steps up to `version` make: no program of this kind wrote it, and what it holds could do
/// anything. Throws ToolError naming the first that is foreign, missing or changed.
/// Checked: tests/record/hostile_book_test.cpp.
void requireOwnSchema(Database& database, int version,
                      const std::vector<SchemaStep>& steps = schemaSteps());

/// Brings the database to the last step's version, in one transaction. Its schema is looked at
/// first (requireOwnSchema).
/// Checked: tests/record/schema_test.cpp (all stored old books; a step that fails half way).
void bringUpToDate(Database& database, const std::vector<SchemaStep>& steps = schemaSteps());

} // namespace swarfbook
