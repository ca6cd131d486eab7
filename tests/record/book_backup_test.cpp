// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "cli/small_disk.h"
#include "record/database.h"
#include "record/killed_book.h"
#include "record/leftovers.h"
#include "record/photo_store.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <sys/file.h>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

Book bookWithTwoPhotos(const fs::path& folder) {
    Book book = Book::open(folder);
    const Vehicle vehicle = book.addVehicle(labelled("DEMO-01"));
    const Visit visit = book.addVisit(visitOn(vehicle.id, "2025-03-14", 1000.0));
    for (const int number : {1, 2})
        book.addPhoto(newPhoto(visit.id), photoBytes(number), findingOf(photoBytes(number)));
    return book;
}

} // namespace

TEST_CASE("a backup is a whole book of its own") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    const auto copied = book.backUp(folder.path() / "copy" / "");
    CHECK(copied.photos == 2);
    CHECK(copied.troubles.empty());
    requireSound(folder.path() / "copy");
    const Book copy = Book::open(folder.path() / "copy", IfNoBook::refuse);
    CHECK(copy.photos(1).size() == 2);
    CHECK(copy.originalBytes(sha256Hex(photoBytes(2))) == photoBytes(2));
    CHECK_FALSE(fs::exists(folder.path() / "copy.unfinished"));
}

TEST_CASE("a backup made while another program writes holds whole entries only") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    Database other(folder.path() / "book/book.db", "another program");
    const BookTransaction writing(other);
    other.run("UPDATE vehicle SET label = 'HALF'");
    book.backUp(folder.path() / "copy");
    CHECK_NOTHROW(Book::open(folder.path() / "copy").vehicleByLabel("DEMO-01"));
}

TEST_CASE("a backup overwrites nothing and tells of originals that are lost") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    fs::create_directories(folder.path() / "there");
    CHECK_THROWS_WITH(book.backUp(folder.path() / "there"), Contains("overwrites nothing"));
    std::ofstream(folder.path() / "file") << "x";
    CHECK_THROWS_AS(book.backUp(folder.path() / "file/copy"), ToolError);
    fs::remove(book.originalPhoto(sha256Hex(photoBytes(1))));
    const auto copied = book.backUp(folder.path() / "copy");
    CHECK(copied.photos == 1);
    REQUIRE(copied.troubles.size() == 1);
    CHECK_THAT(copied.troubles[0], Contains("missing") && Contains("pan.jpg"));
    CHECK(Book::open(folder.path() / "copy").photos(1).size() == 2);
}

TEST_CASE("a backup has the charts and all else of a book, private whatever the umask") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path() / "book");
    const mode_t before = ::umask(0);
    const auto copied = book.backUp(folder.path() / "deep/er/copy");
    ::umask(before);
    CHECK(copied.photos == 4);
    CHECK(copied.charts == 1);
    CHECK(copied.troubles.empty());
    CHECK(filesOf(folder.path() / "deep/er/copy") == filesOf(folder.path() / "book"));
    CHECK(tablesOf(folder.path() / "deep/er/copy") == tablesOf(folder.path() / "book"));
    CHECK(openToOthers(folder.path() / "deep") == "");
    CHECK(namesIn(folder.path() / "deep/er") == std::vector<std::string>{"copy"});
    CHECK(namesIn(folder.path() / "deep/er/copy") ==
          std::vector<std::string>{"book.db", "photos", "set-aside", "units"});
}

TEST_CASE(
    "a full disk under a backup is named by the folder asked for, and nothing is left on it") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    const auto large = photoBytes(3, 600'000);
    book.addPhoto(newPhoto(1), large, findingOf(large));
    // Once the entries do not fit, once the photos.
    for (const int kibibytes : {60, 600}) {
        const SmallDisk disk(kibibytes);
        if (!disk.isThere()) {
            WARN("no small disk can be mounted here: passed over");
            return;
        }
        const fs::path copy = disk.path() / "copy";
        CHECK_THROWS_WITH(book.backUp(copy), Contains(copy.string()) && Contains("ake room on") &&
                                                 !Contains((folder.path() / "book").string()) &&
                                                 !Contains("unfinished"));
        CHECK(fs::is_empty(disk.path()));
    }
}

TEST_CASE("a backup touches no folder that it did not make") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    // Names that a backup might like: one foreign, one with the form but no mark.
    writeText(folder.path() / "copy.unfinished/letter.txt", "mine");
    writeText(folder.path() / "copy.unfinished-AbCd12/letter.txt", "mine");
    fs::create_directory_symlink(folder.path() / "copy.unfinished",
                                 folder.path() / "copy.unfinished-AbCd13");
    book.backUp(folder.path() / "copy");
    CHECK(contentOf(folder.path() / "copy.unfinished/letter.txt") == "mine");
    CHECK(contentOf(folder.path() / "copy.unfinished-AbCd12/letter.txt") == "mine");
    CHECK(fs::is_symlink(folder.path() / "copy.unfinished-AbCd13"));
    fs::create_symlink(folder.path() / "nowhere", folder.path() / "link");
    CHECK_THROWS_AS(book.backUp(folder.path() / "link"), UsageError);
    CHECK_THROWS_WITH(book.backUp(folder.path() / "book/copy"), Contains("inside the book"));
    CHECK_FALSE(fs::exists(folder.path() / "book/copy"));
}

TEST_CASE("what a killed backup left is cleared by the next one, unless it is still at work") {
    const TemporaryFolder folder;
    Book book = bookWithTwoPhotos(folder.path() / "book");
    const fs::path killed = folder.path() / "old.unfinished-AbCd12",
                   atWork = folder.path() / "old.unfinished-AbCd13";
    for (const fs::path& one : {killed, atWork}) {
        writeText(one / unfinishedMark, "");
        writeText(one / "photos/ab/half.jpg", "half");
    }
    const Folder held = Folder::open(atWork);
    REQUIRE(::flock(held.number(), LOCK_EX | LOCK_NB) == 0);
    book.backUp(folder.path() / "copy");
    CHECK_FALSE(fs::exists(killed));
    CHECK(fs::exists(atWork / "photos/ab/half.jpg"));
}

TEST_CASE("of two backups to one folder at the same moment exactly one succeeds, and it is whole") {
    for (int round = 0; round < 10; ++round) {
        const TemporaryFolder folder;
        { const Book book = bookWithTwoPhotos(folder.path() / "book"); }
        int succeeded = 0, refused = 0;
        std::vector<std::string> why(2);
        const auto backUp = [&](std::string& wrong) {
            try {
                Book::open(folder.path() / "book").backUp(folder.path() / "copy");
            } catch (const UsageError& error) {
                wrong = error.what();
            }
        };
        std::thread other([&] { backUp(why[0]); });
        backUp(why[1]);
        other.join();
        for (const std::string& one : why)
            ++(one.empty() ? succeeded : refused);
        CHECK(succeeded == 1);
        CHECK_THAT(why[0] + why[1], Contains("appeared while") || Contains("is there already"));
        Book copy = Book::open(folder.path() / "copy", IfNoBook::refuse);
        CHECK(copy.check().sound());
        CHECK(namesIn(folder.path()) == std::vector<std::string>{"book", "copy"});
    }
}

TEST_CASE("one photo that cannot be read does not stop a backup, and damage in it is told") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path() / "book");
    const auto one = book.originalPhoto(sha256Hex(photoBytes(1)));
    fs::remove(one);
    fs::create_directories(one); // reading it fails, even for the superuser
    const auto two = book.originalPhoto(sha256Hex(photoBytes(2)));
    fs::permissions(two, fs::perms(0600));
    writeText(two, "spoiled");
    {
        Database database(folder.path() / "book/book.db", "the book in a test");
        database.run("UPDATE finding SET measurement = '{}' WHERE id = 1");
    }
    fs::create_symlink("/etc/passwd", folder.path() / "book/units/passwd.json");
    const auto copied = book.backUp(folder.path() / "copy");
    CHECK(copied.photos == 2);
    std::string told;
    for (const std::string& trouble : copied.troubles)
        told += trouble + "\n";
    CHECK(copied.troubles.size() == 4);
    CHECK_THAT(told, Contains(one.filename().string()) &&
                         Contains("has changed since it was put") && Contains("Finding 1") &&
                         Contains("passwd.json"));
    CHECK_FALSE(fs::exists(folder.path() / "copy/units/passwd.json"));
    CHECK(tablesOf(folder.path() / "copy") == tablesOf(folder.path() / "book"));
}

TEST_CASE(
    "a book whose clean reference or photo of work names a file outside it writes nothing there") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path() / "book");
    {
        Database database(folder.path() / "book/book.db", "the book in a test");
        database.run("PRAGMA ignore_check_constraints = ON;"
                     "UPDATE blank SET extension = 'jpg/../../../../outside';"
                     "UPDATE work_photo SET extension = 'jpg/../../../../outside'");
    }
    const auto copied = book.backUp(folder.path() / "deep/copy");
    CHECK_FALSE(copied.troubles.empty());
    CHECK_THROWS_AS(book.originalBytes(sha256Hex(photoBytes(3))), ToolError);
    CHECK_THROWS_AS(book.originalBytes(sha256Hex(photoBytes(12))), ToolError);
    CHECK(namesIn(folder.path()) == std::vector<std::string>{"book", "deep"});
    CHECK(namesIn(folder.path() / "deep") == std::vector<std::string>{"copy"});
}
