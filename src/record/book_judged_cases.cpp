// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/sha256.h"
#include "record/book.h"
#include "record/database.h"
#include "record/judged_case.h"
#include "record/schema.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <map>
#include <span>

namespace swarfbook {
namespace {

/// A row of the table.
struct Row {
    JudgedCase judged;
    std::string rules, sum;
};

constexpr std::string_view selectRow =
    "SELECT visit_id, rules, outcome, pattern, held, as_suggested, sum FROM judged_case ";

Row rowFrom(const Statement& from) {
    return {{from.integer(0), from.text(2), from.text(3), from.text(4), from.integer(5) != 0},
            from.text(1),
            from.text(6)};
}

/// A checksum over the whole row: a flipped bit in one of its words is noticed.
std::string sumOf(const JudgedCase& judged, const std::string& rules) {
    const std::string all =
        fmt::format("{}\n{}\n{}\n{}\n{}\n{}", judged.visitId, rules, judged.outcome, judged.pattern,
                    judged.held, judged.asSuggested ? 1 : 0);
    return sha256Hex(std::as_bytes(std::span(all)));
}

bool isWhole(const Row& row) {
    return row.sum == sumOf(row.judged, row.rules);
}

/// The cases judged by these rules, by visit. Nothing if the table itself is damaged: all of it can
/// be judged anew, so the damage must not block the book.
std::map<std::int64_t, JudgedCase> keptBy(const std::string& rules, Database& database) {
    std::map<std::int64_t, JudgedCase> kept;
    try {
        Statement rows = database.prepare(std::string(selectRow).append("WHERE rules = ?"));
        rows.with(rules);
        while (rows.step())
            if (const Row row = rowFrom(rows); isWhole(row))
                kept.emplace(row.judged.visitId, row.judged);
    } catch (const ToolError&) {
        kept.clear();
    }
    return kept;
}

/// A number that changes with everything entered, corrected or measured: each adds a row with a new
/// number to a table that never gives a number twice.
std::string stateOf(Database& database) {
    Statement rows = database.prepare("SELECT name, seq FROM sqlite_sequence ORDER BY name");
    std::string state;
    while (rows.step())
        state += fmt::format("{} {}\n", rows.text(0), rows.integer(1));
    return state;
}

void store(Database& database, const JudgedCases& asked, const std::vector<JudgedCase>& judged) {
    BookTransaction transaction(database);
    if (stateOf(database) != asked.bookState)
        return;
    database.prepare("DELETE FROM judged_case WHERE rules <> ?").with(asked.rules).run();
    for (const JudgedCase& one : judged)
        database
            .prepare("INSERT OR REPLACE INTO judged_case (visit_id, rules, outcome, pattern, "
                     "held, as_suggested, sum) VALUES (?, ?, ?, ?, ?, ?, ?)")
            .with(one.visitId, asked.rules, one.outcome, one.pattern, one.held, one.asSuggested,
                  sumOf(one, asked.rules))
            .run();
    transaction.commit();
}

} // namespace

void forgetJudgedCase(Database& database, std::int64_t visitId) {
    database.prepare("DELETE FROM judged_case WHERE visit_id = ?").with(visitId).run();
}

std::vector<std::int64_t> damagedJudgedCases(Database& database) {
    Statement rows = database.prepare(std::string(selectRow).append("ORDER BY visit_id"));
    std::vector<std::int64_t> damaged;
    while (rows.step())
        if (const Row row = rowFrom(rows); !isWhole(row))
            damaged.push_back(row.judged.visitId);
    return damaged;
}

std::vector<std::int64_t> dropDamagedJudgedCases(Database& database) {
    std::vector<std::int64_t> damaged = damagedJudgedCases(database);
    for (const std::int64_t visit : damaged)
        forgetJudgedCase(database, visit);
    return damaged;
}

JudgedCases Book::judgedCases(const std::string& kind, const std::string& rules) const {
    JudgedCases found{rules, stateOf(*database_), {}, {}};
    const std::map<std::int64_t, JudgedCase> kept = keptBy(rules, *database_);
    Statement visits = database_->prepare(fmt::format(
        "SELECT DISTINCT visit_id FROM observation AS one WHERE kind = ? AND NOT EXISTS "
        "(SELECT 1 FROM observation WHERE corrects = one.id) AND visit_id NOT IN {} "
        "ORDER BY visit_id",
        withdrawnVisitNumbers));
    visits.with(kind);
    while (visits.step())
        if (const auto one = kept.find(visits.integer(0)); one != kept.end())
            found.kept.push_back(one->second);
        else
            found.missing.push_back(visits.integer(0));
    return found;
}

void Book::keepJudgedCases(const JudgedCases& asked, const std::vector<JudgedCase>& judged) const {
    if (folder_.empty())
        return store(*database_, asked, judged);
    try {
        // The book itself may be open for reading only. This does not wait for another writer.
        Database database(folder_ / "book.db", database_->where(), Access::writeIfThere);
        database.waitWith({std::chrono::milliseconds(0), std::chrono::milliseconds(0), {}});
        const int present = schemaSteps().back().version;
        if (versionOfBook(database) != present)
            return;
        requireOwnSchema(database, present);
        store(database, asked, judged);
    } catch (const ToolError&) {
        return; // the next reader judges again
    }
}

} // namespace swarfbook
