// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/schema.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// Changes a book as an attacker would: with a connection that has none of the program's locks.
void attack(const fs::path& folder, const std::string& sql) {
    sqlite3* database = nullptr;
    REQUIRE(sqlite3_open((folder / "book.db").c_str(), &database) == SQLITE_OK);
    char* error = nullptr;
    sqlite3_exec(database,
                 ("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;" + sql).c_str(),
                 nullptr, nullptr, &error);
    const std::string wrong = error == nullptr ? "" : error;
    sqlite3_free(error);
    sqlite3_close(database);
    REQUIRE(wrong.empty());
}

} // namespace

TEST_CASE("a book with a table, view, trigger or index of somebody else's is refused") {
    for (const char* sql :
         {"CREATE TRIGGER t AFTER INSERT ON vehicle BEGIN DELETE FROM photo; END",
          "CREATE VIEW v AS SELECT * FROM vehicle", "CREATE TABLE extra (x)",
          "CREATE INDEX i ON vehicle (note)", "DROP INDEX photo_of_visit",
          "DROP TABLE blank; CREATE VIEW blank AS SELECT 'x' AS sha256, '../x' AS extension",
          "DROP INDEX work_photo_of_observation",
          "DROP TABLE blank; CREATE TABLE blank (sha256 TEXT PRIMARY KEY, extension TEXT, "
          "byte_count INTEGER, file_name TEXT, added_at TEXT)",
          "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
          "'CHECK (id > 0)', '') WHERE name = 'visit'"}) {
        CAPTURE(sql);
        const TemporaryFolder folder;
        { const Book book = fillWholeBook(folder.path()); }
        attack(folder.path(), sql);
        CHECK_THROWS_AS(Book::open(folder.path()), ToolError);
        CHECK_THROWS_WITH(Book::open(folder.path()), Contains("not written by swarfbook alone") &&
                                                         Contains("swarfbook restore"));
    }
}

TEST_CASE("a name of a foreign table is not printed with its control characters") {
    const TemporaryFolder folder;
    { const Book book = Book::open(folder.path()); }
    attack(folder.path(), "CREATE TABLE \"\x1b[2J" + std::string(500, 'x') + "\" (x)");
    try {
        const Book book = Book::open(folder.path());
        FAIL("opened");
    } catch (const ToolError& error) {
        CHECK(std::string(error.what()).find('\x1b') == std::string::npos);
        CHECK(std::string(error.what()).size() < 500);
    }
}

TEST_CASE("an old version's schema is compared too, before any of it is run") {
    const TemporaryFolder folder;
    fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books/version-4.db",
                  folder.path() / "book.db");
    fs::permissions(folder.path() / "book.db", fs::perms(0600));
    attack(folder.path(), "CREATE TRIGGER t AFTER INSERT ON vehicle BEGIN DELETE FROM photo; END");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("trigger t"));
}

TEST_CASE("an impossible version is reported") {
    const TemporaryFolder folder;
    { const Book book = Book::open(folder.path()); }
    attack(folder.path(), "PRAGMA user_version = -5");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("damaged") && Contains("-5"));
}

TEST_CASE("values that break a table's rules are reported as damage, never used") {
    struct Attack {
        const char* sql;
        std::function<void(const Book&)> use;
    };
    const auto visits = [](const Book& book) { (void)book.visits(1); };
    const auto photos = [](const Book& book) { (void)book.photos(1); };
    const auto flushes = [](const Book& book) { (void)book.flushes(1); };
    const auto cards = [](const Book& book) { (void)book.cards(); };
    const auto checks = [](const Book& book) { (void)book.checks(); };
    const auto work = [](const Book& book) { (void)book.workPhotos(1); };
    const std::vector<Attack> attacks{
        {"UPDATE visit SET date = 'now'", visits},
        {"UPDATE visit SET date = '9999-99-99'", visits},
        {"UPDATE visit SET odometer_km = 9e999", visits},
        {"UPDATE visit SET odometer_km = -1", visits},
        {"UPDATE visit SET since_clean_km = 1e300", visits},
        {"UPDATE visit SET last_clean = '../..'", visits},
        {"UPDATE photo SET place = 'nowhere'", photos},
        {"UPDATE photo SET sha256 = '../../../../etc/passwd' WHERE id = 1", photos},
        {"UPDATE photo SET added_at = ''", photos},
        {"UPDATE work_photo SET moment = 'later'", work},
        {"UPDATE work_photo SET sha256 = '../../../../etc/passwd' WHERE id = 1", work},
        {"UPDATE work_photo SET added_at = 'x'", work},
        {"UPDATE flush SET tray_sha256 = '../../../../etc/passwd'", flushes},
        {"UPDATE flush SET part = printf('%101s', 'x')", flushes},
        {"UPDATE flush SET started_at = 'x'", flushes},
        {"UPDATE flush_pass SET step = 'soak'", flushes},
        {"UPDATE flush_pass SET recorded_at = ''", flushes},
        {"UPDATE card SET layout = '../close'", cards},
        {"UPDATE card SET measured_bar_mm = 9e999", cards},
        {"UPDATE card SET serial = '' WHERE serial = 'C0001'", cards},
        {"UPDATE thing_check SET reading_mm = 9e999", checks},
        {"UPDATE thing_check SET known_mm = -9e999", checks},
        {"UPDATE thing_check SET photo_sha256 = '/'", checks},
        {"UPDATE thing_check SET layout = 'x'", checks},
        {"UPDATE check_place SET x_mm = 9e999", checks},
        {"UPDATE check_place SET y_mm = -1001", checks},
    };
    for (const Attack& one : attacks) {
        CAPTURE(one.sql);
        const TemporaryFolder folder;
        { const Book book = fillWholeBook(folder.path()); }
        attack(folder.path(), one.sql);
        const Book book = Book::open(folder.path());
        CHECK_THROWS_AS(one.use(book), ToolError);
        CHECK_THROWS_WITH(one.use(book), Contains("is damaged"));
    }
}

TEST_CASE("every rule of the tables refuses a wrong value") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    Database database(folder.path() / "book.db", "the book in a test");
    for (const char* sql : {"UPDATE blank SET extension = '../x'",
                            "UPDATE blank SET sha256 = printf('%064s', '/')",
                            "UPDATE blank SET byte_count = -1",
                            "UPDATE blank SET byte_count = 1e15",
                            "UPDATE blank SET file_name = 'a/b'",
                            "UPDATE blank SET added_at = 'x'",
                            "UPDATE work_photo SET moment = 'later'",
                            "UPDATE work_photo SET extension = '../x'",
                            "UPDATE work_photo SET sha256 = printf('%064s', '/')",
                            "UPDATE work_photo SET byte_count = -1",
                            "UPDATE work_photo SET byte_count = 268435457",
                            "UPDATE work_photo SET file_name = 'a/b'",
                            "UPDATE work_photo SET added_at = 'x'",
                            "UPDATE work_photo SET observation_id = observation_id + 77",
                            "UPDATE work_photo SET id = -id",
                            "UPDATE photo SET byte_count = 268435457",
                            "UPDATE photo SET file_name = '../a'",
                            "UPDATE visit SET odometer_km = 9e999",
                            "UPDATE visit SET date = '1970-01-01'",
                            "UPDATE card SET layout = 'x'",
                            "UPDATE card SET measured_bar_mm = 9e999",
                            "UPDATE observation SET kind = 'a/b'",
                            "UPDATE observation SET corrects = id",
                            "UPDATE finding SET measurement = 'x'",
                            "UPDATE finding SET options = ''",
                            "UPDATE thing_check SET layout = ''",
                            "UPDATE thing_check SET reading_mm = 9e999",
                            "UPDATE check_place SET x_mm = 1001",
                            "UPDATE check_place SET y_mm = 9e999",
                            "UPDATE check_place SET check_id = check_id + 77",
                            "UPDATE check_withdrawal SET check_id = check_id + 77",
                            "UPDATE check_withdrawal SET withdrawn = 2",
                            "UPDATE check_withdrawal SET why = '' WHERE withdrawn = 1",
                            "UPDATE check_withdrawal SET why = printf('%4001s', 'x')",
                            "UPDATE check_withdrawal SET done_at = 'x'",
                            "UPDATE flush_withdrawal SET flush_id = flush_id + 77",
                            "UPDATE flush_withdrawal SET withdrawn = 2",
                            "UPDATE flush_withdrawal SET why = ''",
                            "UPDATE flush_withdrawal SET done_by = printf('%4001s', 'x')",
                            "UPDATE flush_withdrawal SET done_at = 'x'",
                            "UPDATE vehicle_withdrawal SET vehicle_id = vehicle_id + 77",
                            "UPDATE vehicle_withdrawal SET withdrawn = 2",
                            "UPDATE vehicle_withdrawal SET why = ''",
                            "UPDATE vehicle_withdrawal SET done_by = printf('%4001s', 'x')",
                            "UPDATE vehicle_withdrawal SET done_at = 'x'",
                            "UPDATE vehicle SET note = printf('%4001s', 'x')",
                            "UPDATE vehicle SET id = -id",
                            "UPDATE flush SET part = ''",
                            "UPDATE flush SET part = printf('%101s', 'x')",
                            "UPDATE flush SET tray_sha256 = printf('%064d', 7)",
                            "UPDATE flush SET tray_sha256 = NULL",
                            "UPDATE flush SET tray_finding = 'x'",
                            "UPDATE flush SET started_at = 'x'",
                            "UPDATE flush SET visit_id = visit_id + 77",
                            "UPDATE flush_pass SET step = 'soak'",
                            "UPDATE flush_pass SET photo_id = photo_id + 77",
                            "UPDATE flush_pass SET flush_id = flush_id + 77",
                            "UPDATE flush_pass SET recorded_at = ''",
                            "UPDATE judged_case SET rules = upper(rules)",
                            "UPDATE judged_case SET sum = 'x'",
                            "UPDATE judged_case SET outcome = ''",
                            "UPDATE judged_case SET pattern = printf('%201s', 'x')",
                            "UPDATE judged_case SET held = 'perhaps'",
                            "UPDATE judged_case SET as_suggested = 2",
                            "UPDATE judged_case SET visit_id = visit_id + 77"}) {
        CAPTURE(sql);
        CHECK_THROWS_WITH(database.run(sql), Contains("constraint failed"));
    }
}

TEST_CASE("bytes that are not text still come out as text") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    attack(folder.path(), "UPDATE vehicle SET note = CAST(x'41ff42' AS TEXT)");
    CHECK(Book::open(folder.path()).vehicles().at(0).note == "A\xEF\xBF\xBD"
                                                             "B");
}
