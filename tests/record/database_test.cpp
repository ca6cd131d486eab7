// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/book.h"
#include "record/database.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Matchers::Contains;

namespace {

std::int64_t rows(Database& database) {
    return database.number("SELECT count(*) FROM t");
}

void insert(Database& database, std::int64_t value) {
    database.prepare("INSERT INTO t VALUES (?)").with(value).run();
}

} // namespace

TEST_CASE("a transaction that is not committed leaves nothing") {
    const auto database = Database::inMemory();
    database->run("CREATE TABLE t (x INTEGER) STRICT");
    {
        const BookTransaction transaction(*database);
        insert(*database, 1);
    }
    CHECK(rows(*database) == 0);
    {
        BookTransaction transaction(*database);
        insert(*database, 2);
        transaction.commit();
    }
    CHECK(rows(*database) == 1);
}

TEST_CASE("an inner transaction shares the fate of the outer one") {
    const auto database = Database::inMemory();
    database->run("CREATE TABLE t (x INTEGER) STRICT");
    {
        const BookTransaction outer(*database);
        BookTransaction inner(*database);
        insert(*database, 1);
        inner.commit();
    }
    CHECK(rows(*database) == 0);
    BookTransaction outer(*database);
    {
        const BookTransaction inner(*database);
        insert(*database, 2);
    }
    insert(*database, 3);
    outer.commit();
    CHECK(rows(*database) == 1);
    CHECK(database->number("SELECT x FROM t") == 3);
}

TEST_CASE("references are obeyed and types are strict") {
    const auto database = Database::inMemory();
    database->run("CREATE TABLE p (id INTEGER PRIMARY KEY) STRICT;"
                  "CREATE TABLE c (p INTEGER NOT NULL REFERENCES p (id)) STRICT");
    CHECK_THROWS_WITH(database->run("INSERT INTO c VALUES (1)"), Contains("FOREIGN KEY"));
    CHECK_THROWS_WITH(database->run("INSERT INTO p VALUES ('one')"), Contains("datatype"));
}

TEST_CASE("text, numbers and unknown values come back as they were bound") {
    const auto database = Database::inMemory();
    database->run("CREATE TABLE v (a TEXT, b REAL, c REAL, d INTEGER, e TEXT) STRICT");
    const std::string text = std::string("'quoted' \xC3\xBC; DROP TABLE v; --") + '\0' + "end";
    database->prepare("INSERT INTO v VALUES (?, ?, ?, ?, ?)")
        .with(text, std::optional(0.1), std::optional<double>(), std::int64_t{1} << 60U,
              std::string_view())
        .run();
    Statement row = database->prepare("SELECT a, b, c, d, e, e IS NULL FROM v");
    REQUIRE(row.step());
    CHECK(row.text(0) == text);
    CHECK(row.real(1) == 0.1);
    CHECK_FALSE(row.real(2).has_value());
    CHECK(row.integer(3) == std::int64_t{1} << 60U);
    CHECK(row.text(4).empty());
    CHECK(row.integer(5) == 0);
    CHECK_FALSE(row.step());
    CHECK_THROWS_AS(database->prepare("INSERT INTO v (a) VALUES (?)").run(), std::logic_error);
}

TEST_CASE("a full disk undoes the whole transaction and says so") {
    const test::TemporaryFolder folder;
    Database database(folder.path() / "book.db", "the book in a test");
    database.run("CREATE TABLE t (x INTEGER) STRICT; CREATE TABLE big (x TEXT) STRICT");
    database.run("PRAGMA max_page_count = 20"); // SQLite's own stand-in for a full disk
    const auto fill = [&] {
        BookTransaction transaction(database);
        insert(database, 1);
        database.prepare("INSERT INTO big VALUES (?)").with(std::string(200000, 'x')).run();
        transaction.commit();
    };
    CHECK_THROWS_AS(fill(), ToolError);
    CHECK_THROWS_WITH(fill(), Contains("full") && Contains("Make room"));
    CHECK(rows(database) == 0);
    database.run("PRAGMA max_page_count = 2000");
    fill();
    CHECK(rows(database) == 1);
}

TEST_CASE("a file that is not a database is left as it is") {
    const test::TemporaryFolder folder;
    const auto file = folder.path() / "book.db";
    const std::string content(5000, 'n');
    std::ofstream(file) << content;
    CHECK_THROWS_WITH(Database(file, "the book in a test"), Contains("not a database"));
    CHECK(test::contentOf(file) == content);
}
