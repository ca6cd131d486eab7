// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/leftovers.h"
#include "record/photo_store.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <chrono>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const std::string arrivingSha = sha256Hex(photoBytes(9));

void makeOld(const fs::path& file) {
    fs::last_write_time(file, fs::file_time_type::clock::now() - std::chrono::hours(2));
}

/// What an add leaves that is killed between the photo and its entry, and between two of a photo's
/// bytes; and what a killed typing in of a chart and a killed backup leave.
void leaveAsKilled(const fs::path& book) {
    PhotoStore(book).keep(arrivingSha, "jpg", photoBytes(9));
    writeText(book / "photos/incoming" / (sha256Hex(photoBytes(8)) + ".jpg"), "half");
    writeText(book / "units/.demo-6.json.swarfbook-1234567", "{");
    makeOld(book / "units/.demo-6.json.swarfbook-1234567");
    writeText(book / unfinishedMark, "");
}

} // namespace

TEST_CASE(
    "what killed commands left is cleared by the next writing command and by no reading one") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    const auto before = filesOf(folder.path());
    leaveAsKilled(folder.path());
    REQUIRE(filesOf(folder.path()).size() == before.size() + 5);
    Book book = Book::open(folder.path());
    (void)book.vehicles();
    CHECK(filesOf(folder.path()).size() == before.size() + 5);
    book.addVehicle(labelled("DEMO-02"));
    CHECK(filesOf(folder.path()) == before);
}

TEST_CASE("nothing of a command at work is cleared") {
    const TemporaryFolder folder;
    Book first = fillWholeBook(folder.path());
    const BookTransaction writing = first.begin();
    first.addPhoto(newPhoto(1), photoBytes(9), findingOf(photoBytes(9)));
    writeText(folder.path() / "units/.demo-6.json.swarfbook-1234567", "{"); // a moment old
    Book second = Book::open(folder.path());
    CHECK_THROWS(second.addVehicle(labelled("DEMO-02"))); // the first one holds the book
    CHECK(second.check().sound() == false);               // its photo has no entry yet
    CHECK(fs::exists(PhotoStore(folder.path()).fileOf(arrivingSha, "jpg")));
    CHECK(fs::exists(folder.path() / "units/.demo-6.json.swarfbook-1234567"));
}

TEST_CASE("a photo of a transaction that comes to nothing goes, one that was there stays") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path());
    const auto before = filesOf(folder.path());
    {
        const BookTransaction transaction = book.begin();
        book.addPhoto(newPhoto(1), photoBytes(9), findingOf(photoBytes(9)));
        book.keepCleanReference("blank.jpg", photoBytes(10));
        book.keepCleanReference("known.jpg", photoBytes(1));
        book.addWorkPhoto({1, WorkMoment::after, "work.jpg"}, photoBytes(13));
        book.addWorkPhoto({1, WorkMoment::after, "known.jpg"}, photoBytes(3));
        CHECK(fs::exists(PhotoStore(folder.path()).fileOf(arrivingSha, "jpg")));
    }
    CHECK(filesOf(folder.path()) == before);
    BookTransaction transaction = book.begin();
    book.addPhoto(newPhoto(1), photoBytes(9), findingOf(photoBytes(9)));
    transaction.commit();
    CHECK(filesOf(folder.path()).size() == before.size() + 1); // and no mark of its coming
    CHECK(book.originalBytes(arrivingSha) == photoBytes(9));
}

TEST_CASE("the check finds leftovers and strange files; mending clears what is the program's own") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path());
    const auto before = filesOf(folder.path());
    leaveAsKilled(folder.path());
    const std::string orphan = sha256Hex(photoBytes(11));
    writeText(PhotoStore(folder.path()).fileOf(orphan, "jpg"), "a photo without an entry");
    writeText(folder.path() / "photos/holiday.txt", "mine");
    std::string told;
    for (const BookFault& fault : book.check().faults)
        told += fault.what + " " + fault.advice + "\n";
    CHECK_THAT(told, Contains("photos/incoming/") &&
                         Contains("units/.demo-6.json.swarfbook-1234567") && Contains(orphan) &&
                         Contains("--mend") && Contains("holiday.txt"));
    std::string mended;
    for (const std::string& sentence : book.mend())
        mended += sentence + "\n";
    CHECK_THAT(mended, Contains("was removed") && Contains("was moved to set-aside/"));
    auto after = filesOf(folder.path());
    CHECK(after["photos/holiday.txt"] == "mine");
    CHECK(after["set-aside/" + orphan + ".jpg"] == "a photo without an entry");
    CHECK(contentOf(folder.path() / "set-aside" / (arrivingSha + ".jpg")).size() == 20000);
    CHECK(after.size() == before.size() + 3);
    fs::remove(folder.path() / "photos/holiday.txt");
    CHECK(book.check().sound());
    CHECK(book.mend().empty());
}

TEST_CASE("a photo set aside never takes the place of another one") {
    const TemporaryFolder folder;
    Book book = fillWholeBook(folder.path());
    const std::string orphan = sha256Hex(photoBytes(11)) + ".jpg";
    for (const std::string content : {"first", "second"}) {
        writeText(folder.path() / "photos" / orphan.substr(0, 2) / orphan, content);
        book.mend();
    }
    CHECK(contentOf(folder.path() / "set-aside" / orphan) == "first");
    CHECK(contentOf(folder.path() / "set-aside" / (orphan + "-2")) == "second");
}

TEST_CASE("a link in the place of a folder of photos leads no command out of the book") {
    for (const char* place : {"photos", "photos/incoming"}) {
        CAPTURE(place);
        const TemporaryFolder folder, elsewhere;
        Book book = Book::open(folder.path());
        const Vehicle vehicle = book.addVehicle(labelled("DEMO-01"));
        const Visit visit = book.addVisit(visitOn(vehicle.id, "2025-03-14"));
        writeText(elsewhere.path() / "mine.txt", "mine");
        fs::create_directories((folder.path() / place).parent_path());
        fs::create_directory_symlink(elsewhere.path(), folder.path() / place);
        CHECK_THROWS_WITH(
            book.addPhoto(newPhoto(visit.id), photoBytes(1), findingOf(photoBytes(1))),
            Contains("symbolic link"));
        CHECK_NOTHROW(book.addVehicle(labelled("DEMO-02")));
        CHECK_FALSE(book.check().sound());
        CHECK_THROWS_AS(book.mend(), ToolError);
        CHECK(namesIn(elsewhere.path()) == std::vector<std::string>{"mine.txt"});
    }
}

TEST_CASE("a link in the place of a photo, or of its folder, is not read as the photo") {
    const TemporaryFolder folder, elsewhere;
    Book book = fillWholeBook(folder.path());
    const std::string sha256 = sha256Hex(photoBytes(1));
    const fs::path file = book.originalPhoto(sha256);
    fs::rename(file, elsewhere.path() / file.filename());
    fs::create_symlink(elsewhere.path() / file.filename(), file);
    CHECK_THROWS_AS(book.originalPhoto(sha256), PhotoLost);
    CHECK_THROWS_AS(book.originalBytes(sha256), PhotoLost);
    fs::remove_all(file.parent_path());
    fs::create_directory_symlink(elsewhere.path(), file.parent_path());
    CHECK_THROWS_AS(book.originalBytes(sha256), PhotoLost);
}
