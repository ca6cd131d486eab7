// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/small_disk.h"
#include "record/killed_book.h"
#include "record/restore_book.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A book and its backup, side by side.
class BackedUp {
  public:
    BackedUp() {
        Book whole = fillWholeBook(book());
        const auto copied = whole.backUp(backup());
        REQUIRE(copied.troubles.empty());
    }
    [[nodiscard]] fs::path book() const { return folder_.path() / "book"; }
    [[nodiscard]] fs::path backup() const { return folder_.path() / "backup"; }
    [[nodiscard]] fs::path again() const { return folder_.path() / "again"; }
    [[nodiscard]] fs::path folder() const { return folder_.path(); }

  private:
    TemporaryFolder folder_;
};

} // namespace

TEST_CASE("a restored book equals the one backed up in every table and every file") {
    const BackedUp at;
    const auto back = restoreBook(at.backup(), at.again());
    CHECK(back.troubles.empty());
    CHECK(back.photos == 4);
    CHECK(back.charts == 1);
    const std::string tables = tablesOf(at.book());
    for (const char* table :
         {"vehicle", "visit", "photo", "finding", "correction", "observation", "card",
          "thing_check", "check_place", "check_withdrawal", "vehicle_withdrawal",
          "flush_withdrawal", "blank", "work_photo", "sqlite_sequence"})
        CHECK_THAT(tables, Contains(std::string(table) + ": ")); // otherwise nothing is compared
    CHECK(tablesOf(at.again()) == tables);
    CHECK(filesOf(at.book()).size() == 7);
    CHECK(filesOf(at.again()) == filesOf(at.book()));
    CHECK(filesOf(at.backup()) == filesOf(at.book()));
    CHECK(Book::open(at.again(), IfNoBook::refuse).check().sound());
    CHECK(openToOthers(at.again()).empty());
    CHECK(namesIn(at.folder()) == std::vector<std::string>{"again", "backup", "book"});
}

TEST_CASE("a backup is restored to an empty folder, but not to one that holds a file") {
    const BackedUp at;
    fs::create_directories(at.again());
    CHECK_NOTHROW(restoreBook(at.backup(), at.again()));
    CHECK_THROWS_WITH(restoreBook(at.backup(), at.again()), Contains("overwrites nothing"));
    writeText(at.folder() / "own/letter.txt", "mine");
    CHECK_THROWS_AS(restoreBook(at.backup(), at.folder() / "own"), UsageError);
    CHECK_THROWS_AS(restoreBook(at.backup(), at.folder() / "own/letter.txt"), UsageError);
    CHECK(contentOf(at.folder() / "own/letter.txt") == "mine");
    CHECK_THROWS_WITH(restoreBook(at.backup(), at.backup() / "in"), Contains("inside the backup"));
    CHECK_THROWS_WITH(restoreBook(at.folder() / "own", at.folder() / "x"), Contains("no book.db"));
    CHECK_THROWS_WITH(restoreBook(at.folder() / "none", at.folder() / "x"), Contains("no backup"));
    CHECK_FALSE(fs::exists(at.folder() / "x"));
}

TEST_CASE("a full disk under a restored book is named, and nothing is left on it") {
    const TemporaryFolder folder;
    const auto large = photoBytes(9, 600'000);
    fillWholeBook(folder.path() / "copy").addPhoto(newPhoto(1), large, findingOf(large));
    // Once the entries do not fit, once the photos.
    for (const int kibibytes : {60, 600}) {
        const SmallDisk disk(kibibytes);
        if (!disk.isThere()) {
            WARN("no small disk can be mounted here: passed over");
            return;
        }
        const fs::path book = disk.path() / "again";
        CHECK_THROWS_WITH(restoreBook(folder.path() / "copy", book), Contains(book.string()) &&
                                                                         Contains("ake room on") &&
                                                                         !Contains("unfinished"));
        CHECK(fs::is_empty(disk.path()));
    }
}

TEST_CASE("restoring does not change the backup") {
    const BackedUp at;
    const auto before = filesOf(at.backup());
    const std::string database = contentOf(at.backup() / "book.db");
    const auto names = namesIn(at.backup());
    restoreBook(at.backup(), at.again());
    CHECK(filesOf(at.backup()) == before);
    CHECK(contentOf(at.backup() / "book.db") == database);
    CHECK(namesIn(at.backup()) == names);
}

TEST_CASE("files missing in a backup are reported, and the rest is restored") {
    const BackedUp at;
    const std::string one = sha256Hex(photoBytes(1)), two = sha256Hex(photoBytes(2));
    fs::remove(PhotoStore(at.backup()).fileOf(one, "jpg"));
    fs::remove(PhotoStore(at.backup()).fileOf(two, "jpg"));
    writeText(PhotoStore(at.backup()).fileOf(two, "jpg"), "another picture");
    const auto back = restoreBook(at.backup(), at.again());
    CHECK(back.photos == 2);
    REQUIRE(back.troubles.size() == 2);
    CHECK_THAT(back.troubles[0] + back.troubles[1], Contains("is missing") &&
                                                        Contains("has changed since it was put") &&
                                                        Contains(one) && Contains(two));
    CHECK(tablesOf(at.again()) == tablesOf(at.book()));
}

TEST_CASE("a backup whose entries are damaged is not restored") {
    const BackedUp at;
    {
        Database database(at.backup() / "book.db", "a backup");
        database.run("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;"
                     "UPDATE photo SET visit_id = 77 WHERE id = 1");
    }
    CHECK_THROWS_WITH(restoreBook(at.backup(), at.again()),
                      Contains("damaged") && Contains("earlier backup"));
    CHECK_FALSE(fs::exists(at.again()));
    CHECK(namesIn(at.folder()) == std::vector<std::string>{"backup", "book"});
}

TEST_CASE("a book left by a killed program, with entries still in the log, is restored whole") {
    const BackedUp at;
    Book book = Book::open(at.book());
    book.addVehicle(labelled("IN-THE-LOG"));
    fs::copy(at.book(), at.folder() / "killed", fs::copy_options::recursive);
    REQUIRE(fs::file_size(at.folder() / "killed/book.db-wal") > 0);
    restoreBook(at.folder() / "killed", at.again());
    CHECK_NOTHROW(Book::open(at.again()).vehicleByLabel("IN-THE-LOG"));
    CHECK(fs::exists(at.folder() / "killed/book.db-wal"));
}

TEST_CASE("a backup of an older program is restored as a book of the present version") {
    const TemporaryFolder folder;
    fs::create_directories(folder.path() / "old");
    fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books/version-4-full.db",
                  folder.path() / "old/book.db");
    const auto back = restoreBook(folder.path() / "old", folder.path() / "new");
    CHECK(back.troubles.size() >= 2); // only its database is stored, not its photos
    CHECK(Book::open(folder.path() / "new", IfNoBook::refuse).vehicles().size() == 2);
}
