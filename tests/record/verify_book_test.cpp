// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_store.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::string faultsOf(const fs::path& folder) {
    std::string all;
    for (const BookFault& fault : Book::open(folder, IfNoBook::refuse).check().faults) {
        CHECK_FALSE(fault.what.empty());
        CHECK_FALSE(fault.advice.empty());
        all += fault.what + " " + fault.advice + "\n";
    }
    return all;
}

/// Writes values to the database that no command of the program would.
void spoil(const fs::path& folder, const std::string& sql) {
    Database database(folder / "book.db", "the book in a test");
    database.run("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;" + sql);
}

} // namespace

TEST_CASE("a whole book is reported whole, and all of it was read") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path());
    const BookState state = book.check();
    for (const BookFault& fault : state.faults)
        FAIL_CHECK(fault.what);
    CHECK(state.photos == 4);
    CHECK(state.findings == 3);
    CHECK(state.observations == 2);
    CHECK(state.charts == 1);
}

TEST_CASE("a damaged finding of a clean tray is reported, and the flush stays") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    spoil(folder.path(), "UPDATE flush SET tray_finding = '{\"format\": broken'");
    CHECK_THAT(faultsOf(folder.path()),
               Contains("clean tray of flush 1 (solenoid A)") && Contains("flush start --visit 1"));
    const Book book = Book::open(folder.path());
    CHECK_FALSE(book.flush(1).tray);
    CHECK(book.flush(1).passes.size() == 1);
}

TEST_CASE("a withdrawn vehicle whose visit counts is reported with what brings it back") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    spoil(folder.path(), "UPDATE visit SET vehicle_id = 2");
    CHECK_THAT(faultsOf(folder.path()), Contains("Visit 1 is not withdrawn") &&
                                            Contains("vehicle withdraw \"DEMO-90\" --undo"));
    Book::open(folder.path()).bringBackVehicle(2, {});
    CHECK(faultsOf(folder.path()).empty());
}

TEST_CASE("every kind of damage of an original or a chart is reported with what to do") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    const PhotoStore store(folder.path());
    const auto one = store.fileOf(sha256Hex(photoBytes(1)), "jpg");
    SECTION("an original is missing") {
        fs::remove(one);
        CHECK_THAT(faultsOf(folder.path()), Contains("is missing") && Contains("pan.jpg"));
    }
    SECTION("a photo of work is missing") {
        fs::remove(store.fileOf(sha256Hex(photoBytes(12)), "jpg"));
        CHECK_THAT(faultsOf(folder.path()), Contains("is missing") && Contains("filter.jpg"));
    }
    SECTION("an original was changed") {
        fs::permissions(one, fs::perms(0600));
        writeText(one, "another");
        CHECK_THAT(faultsOf(folder.path()), Contains("has changed since it was put"));
    }
    SECTION("an original was replaced by a link") {
        fs::rename(one, folder.path() / "elsewhere.jpg");
        fs::create_symlink(folder.path() / "elsewhere.jpg", one);
        CHECK_THAT(faultsOf(folder.path()), Contains("symbolic link"));
    }
    SECTION("a chart cannot be read") {
        writeText(folder.path() / "units/demo-5.json", "{");
        CHECK_THAT(faultsOf(folder.path()), Contains("demo-5.json") && Contains("unit new"));
    }
    CHECK_FALSE(Book::open(folder.path()).check().sound());
}

TEST_CASE("every kind of damage of an entry is reported with what to do") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    SECTION("a finding cannot be read") {
        spoil(folder.path(), "UPDATE finding SET measurement = '{}' WHERE id = 2");
        CHECK_THAT(faultsOf(folder.path()),
                   Contains("Finding 2") && Contains("swarfbook visit measure 1"));
    }
    SECTION("a finding belongs to another photo") {
        spoil(folder.path(), "UPDATE finding SET photo_id = 2 WHERE id = 1");
        CHECK_THAT(faultsOf(folder.path()), Contains("of another photo"));
    }
    SECTION("a photo has no finding") {
        spoil(folder.path(), "DELETE FROM finding WHERE photo_id = 2");
        CHECK_THAT(faultsOf(folder.path()), Contains("lost its findings"));
    }
    SECTION("an observation cannot be read") {
        spoil(folder.path(), "UPDATE observation SET json = '[]' WHERE id = 2");
        CHECK_THAT(faultsOf(folder.path()), Contains("Observation 2") && Contains("--corrects 2"));
    }
    SECTION("an entry refers to a missing one") {
        spoil(folder.path(), "DELETE FROM visit");
        CHECK_THAT(faultsOf(folder.path()), Contains("refers to an entry"));
    }
    SECTION("an entry breaks the rules of its table") {
        spoil(folder.path(), "UPDATE blank SET extension = '../../outside'");
        CHECK_THAT(faultsOf(folder.path()), Contains("CHECK constraint failed in blank") &&
                                                Contains("names an impossible file"));
    }
    SECTION("a photo of work breaks the rules of its table, or belongs to nothing") {
        spoil(folder.path(), "UPDATE work_photo SET extension = '../../outside' WHERE id = 1;"
                             "UPDATE work_photo SET observation_id = 77 WHERE id = 2");
        CHECK_THAT(faultsOf(folder.path()),
                   Contains("CHECK constraint failed in work_photo") &&
                       Contains("names an impossible file") &&
                       Contains("of the table work_photo refers to an entry"));
    }
    CHECK_FALSE(Book::open(folder.path()).check().sound());
}
