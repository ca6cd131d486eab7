// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/schema.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace swarfbook;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::vector<SchemaStep> presentStepsAnd(std::string_view sql) {
    std::vector<SchemaStep> steps = schemaSteps();
    steps.push_back({steps.back().version + 1, sql});
    return steps;
}

fs::path oldBook(int version) {
    return fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books" /
           fmt::format("version-{}.db", version);
}

/// A copy of a stored book, since opening one may change it.
void copyOldBook(int version, const fs::path& folder) {
    fs::copy_file(oldBook(version), folder / "book.db");
    fs::permissions(folder / "book.db", fs::perms::owner_read | fs::perms::owner_write);
}

} // namespace

TEST_CASE("the steps go up by one from version 1") {
    int expected = 1;
    for (const SchemaStep& step : schemaSteps())
        CHECK(step.version == expected++);
}

TEST_CASE("a new book is marked, strict, obeys references and keeps a write-ahead log") {
    const test::TemporaryFolder folder;
    { const Book book = Book::open(folder.path()); }
    Database database(folder.path() / "book.db", "the book in a test");
    CHECK(database.number("PRAGMA application_id") == 0x7377626b);
    CHECK(database.number("PRAGMA user_version") == schemaSteps().back().version);
    CHECK(database.number("PRAGMA foreign_keys") == 1);
    CHECK(database.number("PRAGMA synchronous") == 2); // FULL in SQLite's documentation
    Statement mode = database.prepare("PRAGMA journal_mode");
    REQUIRE(mode.step());
    CHECK(mode.text(0) == "wal");
    CHECK(database.number("SELECT count(*) FROM pragma_table_list WHERE schema = 'main' "
                          "AND name NOT LIKE 'sqlite_%' AND strict = 0") == 0);
    CHECK(database.number("SELECT count(*) FROM pragma_table_list WHERE strict = 1") >= 6);
}

TEST_CASE("the schema by the last steps' statements is the one that all steps make") {
    REQUIRE(schemaSteps().back().made != SchemaMade::byRunning);
    std::vector<SchemaStep> oneByOne = schemaSteps();
    for (SchemaStep& step : oneByOne)
        step.made = SchemaMade::byRunning;
    const auto database = Database::inMemory();
    bringUpToDate(*database);
    CHECK_NOTHROW(requireOwnSchema(*database, schemaSteps().back().version));
    CHECK_NOTHROW(requireOwnSchema(*database, schemaSteps().back().version, oneByOne));
    database->run("DROP INDEX photo_of_visit");
    CHECK_THROWS_AS(requireOwnSchema(*database, schemaSteps().back().version), ToolError);
    CHECK_THROWS_AS(requireOwnSchema(*database, schemaSteps().back().version, oneByOne), ToolError);
}

// A book of every version that was ever released lies beside this test, written by the program of
// that time: one vehicle DEMO-01 with a visit on 2025-03-14 at 120000 km, one photo of place pan
// (photoBytes(7)) with two particles, one observation and card C0001.
TEST_CASE("every old book opens and is brought to the present version") {
    for (const SchemaStep& step : schemaSteps()) {
        INFO("book version " << step.version);
        REQUIRE(fs::exists(oldBook(step.version)));
        const test::TemporaryFolder folder;
        copyOldBook(step.version, folder.path());
        const Book book = Book::open(folder.path(), IfNoBook::refuse);
        const Vehicle vehicle = book.vehicleByLabel("DEMO-01");
        const std::vector<Visit> visits = book.visits(vehicle.id);
        REQUIRE(visits.size() == 1);
        CHECK(visits[0].date == "2025-03-14");
        CHECK(visits[0].odometerKm == 120000.0);
        const std::vector<StoredPhoto> photos = book.photos(visits[0].id);
        REQUIRE(photos.size() == 1);
        CHECK(photos[0].sha256 == sha256Hex(test::photoBytes(7)));
        REQUIRE(photos[0].measurement.debris);
        CHECK(photos[0].measurement.debris->particles.size() == 2);
        for (const Particle& piece : photos[0].measurement.debris->particles)
            CHECK(piece.type == ParticleType::unidentified); // as format 1 has it
        CHECK(book.observations(visits[0].id).size() == 1);
        CHECK(book.card("C0001")->measuredBarMm == 79.6);
        if (step.version >= 12) { // written with a reading, withdrawn and brought back
            REQUIRE(book.checks().size() == 1);
            CHECK(book.checks()[0].at->x == Approx(52.147).margin(0.001));
        }
        Database database(folder.path() / "book.db", "the book in a test");
        CHECK(database.number("PRAGMA user_version") == schemaSteps().back().version);
    }
}

// Written by the program of version 4: two vehicles and a number given once and gone, visits put
// right, a photo with three findings, a corrected observation, a check, two cards and a clean
// reference.
TEST_CASE("a full book of version 4 keeps every row of every table, and the numbers it gave") {
    const test::TemporaryFolder folder;
    const fs::path stored =
        fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books/version-4-full.db";
    fs::copy_file(stored, folder.path() / "book.db");
    fs::permissions(folder.path() / "book.db", fs::perms::owner_read | fs::perms::owner_write);
    const std::string before = test::tablesOf(folder.path());
    CHECK(std::count(before.begin(), before.end(), '\n') == 25);
    Book book = Book::open(folder.path(), IfNoBook::refuse);
    CHECK(test::tablesOf(folder.path()) == before);
    CHECK(book.addVehicle(test::labelled("DEMO-03")).id == 4);
    for (const BookFault& fault : book.check().faults)
        CHECK_FALSE(fault.ofDatabase);
}

TEST_CASE("damaged text in an old book is kept as it is and does not lock the book") {
    const test::TemporaryFolder folder;
    copyOldBook(4, folder.path());
    {
        Database database(folder.path() / "book.db", "the book in a test");
        database.run("PRAGMA ignore_check_constraints = ON;"
                     "UPDATE finding SET measurement = '{\"format\": broken'");
    }
    const Book book = Book::open(folder.path());
    CHECK(book.vehicles().size() == 1);
    Database database(folder.path() / "book.db", "the book in a test");
    CHECK(database.number("SELECT count(*) FROM finding WHERE "
                          "json_extract(measurement, '$') = '{\"format\": broken'") == 1);
}

TEST_CASE("an old book with a value that no program wrote is refused and left as it is") {
    const test::TemporaryFolder folder;
    copyOldBook(4, folder.path());
    {
        Database database(folder.path() / "book.db", "the book in a test");
        database.run("INSERT INTO blank VALUES (printf('%064d', 1), '../../outside', 1, 'a', "
                     "'2025-03-14T10:12:00Z')");
    }
    const std::string before = test::tablesOf(folder.path());
    CHECK_THROWS_WITH(Book::open(folder.path()),
                      Contains("left as it is") && Contains("extension"));
    CHECK(test::tablesOf(folder.path()) == before);
}

TEST_CASE("a step to a newer version keeps all rows, also when it rebuilds a table") {
    const test::TemporaryFolder folder;
    copyOldBook(schemaSteps().back().version, folder.path());
    const auto steps = presentStepsAnd(
        "CREATE TABLE vehicle_new (id INTEGER PRIMARY KEY, label TEXT NOT NULL) STRICT;"
        "INSERT INTO vehicle_new SELECT id, label FROM vehicle;"
        "DROP TABLE vehicle; ALTER TABLE vehicle_new RENAME TO vehicle;");
    Database database(folder.path() / "book.db", "the book in a test");
    bringUpToDate(database, steps);
    CHECK(database.number("PRAGMA user_version") == steps.back().version);
    CHECK(database.number("SELECT count(*) FROM vehicle WHERE label = 'DEMO-01'") == 1);
    CHECK(database.number("SELECT count(*) FROM visit JOIN vehicle ON vehicle.id = vehicle_id") ==
          1);
    CHECK(database.number("PRAGMA foreign_keys") == 1);
    bringUpToDate(database, steps); // a second time changes nothing
}

TEST_CASE("a step that fails half way leaves the book as it was") {
    for (const std::string_view sql :
         {"CREATE TABLE extra (x INTEGER) STRICT; INSERT INTO nowhere VALUES (1);",
          "CREATE TABLE extra (x INTEGER) STRICT; DELETE FROM vehicle;"}) {
        const test::TemporaryFolder folder;
        const int version = schemaSteps().back().version;
        copyOldBook(version, folder.path());
        Database database(folder.path() / "book.db", "the book in a test");
        CHECK_THROWS_AS(bringUpToDate(database, presentStepsAnd(sql)), ToolError);
        CHECK(database.number("PRAGMA user_version") == version);
        CHECK(database.number("SELECT count(*) FROM sqlite_schema WHERE name = 'extra'") == 0);
        CHECK(database.number("SELECT count(*) FROM vehicle") == 1);
    }
}

TEST_CASE("a book of a newer program is refused and left alone") {
    const test::TemporaryFolder folder;
    copyOldBook(schemaSteps().back().version, folder.path());
    {
        Database database(folder.path() / "book.db", "the book in a test");
        database.run("PRAGMA user_version = 99; PRAGMA journal_mode = DELETE");
    }
    const std::string before = test::contentOf(folder.path() / "book.db");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("newer swarfbook") && Contains("99"));
    CHECK_THROWS_AS(Book::open(folder.path()), ToolError);
    CHECK(test::contentOf(folder.path() / "book.db") == before);
}

TEST_CASE("another program's database is refused and left alone") {
    const test::TemporaryFolder folder;
    {
        Database database(folder.path() / "book.db", "another program");
        database.run("CREATE TABLE addresses (name TEXT)");
    }
    const std::string before = test::contentOf(folder.path() / "book.db");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("another program"));
    CHECK(test::contentOf(folder.path() / "book.db") == before);
}
