// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/small_disk.h"
#include "record/database.h"
#include "record/trial_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const std::vector<std::byte> original = photoBytes(1);

/// A book of one vehicle, one visit and one photo.
void makeBookToRead(const fs::path& folder) {
    Book book = Book::open(folder);
    const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    const std::int64_t visit = book.addVisit(visitOn(vehicle, "2025-03-14", 1000.0)).id;
    book.addPhoto(newPhoto(visit), original, findingOf(original));
}

/// Checks its whole content, and that nothing can be added.
void requireReadable(const fs::path& folder) {
    Book book = Book::openForReading(folder);
    REQUIRE(book.vehicles().size() == 1);
    const auto photos = book.photos(book.visits(book.vehicles()[0].id).at(0).id);
    REQUIRE(photos.size() == 1);
    CHECK(photos[0].measurement.debris->particles.size() == 2);
    CHECK(book.originalBytes(photos[0].sha256) == original);
    CHECK_THROWS_AS(book.addVehicle(labelled("DEMO-02")), ToolError);
}

/// The book after a power cut: the last commits are only in the write-ahead log.
void copyWithLog(const fs::path& from, const fs::path& to) {
    fs::create_directories(to);
    Book live = Book::open(from);
    live.saveCard({"C0001", "close", 79.6, ""});
    fs::copy(from, to, fs::copy_options::recursive);
    fs::remove(to / "book.db-shm");
}

} // namespace

TEST_CASE("a book that is read stays as it is, without a new file") {
    const TemporaryFolder folder;
    makeBookToRead(folder.path());
    const std::string before = contentOf(folder.path() / "book.db");
    const auto names = namesIn(folder.path());
    requireReadable(folder.path());
    CHECK(contentOf(folder.path() / "book.db") == before);
    CHECK(namesIn(folder.path()) == names);
}

TEST_CASE("a reader sees what was committed before it asks, beside a writer") {
    const TemporaryFolder folder;
    makeBookToRead(folder.path());
    Book writer = Book::open(folder.path());
    const Book reader = Book::openForReading(folder.path());
    BookTransaction transaction = writer.begin();
    writer.addVehicle(labelled("DEMO-02"));
    CHECK(reader.vehicles().size() == 1);
    transaction.commit();
    CHECK(reader.vehicles().size() == 2);
}

TEST_CASE("a book in a folder that cannot be written can be read and copied, not written") {
    const TemporaryFolder folder;
    const fs::path book = folder.path() / "a book";
    makeBookToRead(book);
    const ReadOnlyFolder closed(book);
    if (!closed.isThere()) {
        WARN("nothing can be mounted here: passed over");
        return;
    }
    requireReadable(book);
    CHECK_THROWS_WITH(Book::open(book).addVehicle(labelled("DEMO-02")),
                      Contains("read-only") || Contains("cannot be opened"));
    Book::openForReading(book).backUp(folder.path() / "copy");
    requireReadable(folder.path() / "copy");
}

TEST_CASE("entries committed only to the log are seen if the log cannot be written") {
    const TemporaryFolder folder;
    const fs::path live = folder.path() / "live", book = folder.path() / "book";
    makeBookToRead(live);
    {
        Book writer = Book::open(live);
        writer.addVehicle(labelled("DEMO-02"));
        fs::copy(live, book, fs::copy_options::recursive);
    }
    fs::remove(book / "book.db-shm");
    REQUIRE(fs::file_size(book / "book.db-wal") > 0);
    // The end of a log that a power cut tore off does not count.
    std::ofstream(book / "book.db-wal", std::ios::binary | std::ios::app) << std::string(3000, 'x');
    const std::string log = contentOf(book / "book.db-wal");
    const ReadOnlyFolder closed(book);
    if (!closed.isThere()) {
        WARN("nothing can be mounted here: passed over");
        return;
    }
    CHECK(Book::openForReading(book).vehicles().size() == 2);
    CHECK(contentOf(book / "book.db-wal") == log);
}

TEST_CASE("a book on a full disk is read") {
    const SmallDisk disk(1500);
    if (!disk.isThere()) {
        WARN("no small disk can be mounted here: passed over");
        return;
    }
    for (const bool withLog : {false, true}) {
        const fs::path live = disk.path() / "live", book = disk.path() / "book";
        makeBookToRead(live);
        if (withLog)
            copyWithLog(live, book);
        else
            fs::rename(live, book);
        disk.fill();
        requireReadable(book);
        disk.makeRoom();
        fs::remove_all(book);
        fs::remove_all(live);
    }
}

TEST_CASE("an old book is read as it would be at the present version, and stays old") {
    for (int version = 1; version <= 4; ++version) {
        INFO("book version " << version);
        const TemporaryFolder folder;
        const fs::path file = folder.path() / "book.db";
        fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books" /
                          ("version-" + std::to_string(version) + ".db"),
                      file);
        const std::string before = contentOf(file);
        const ReadOnlyFolder closed(folder.path());
        const Book book = Book::openForReading(folder.path());
        CHECK(book.photos(1).size() == 1);
        CHECK(book.observations(1).size() == 1);
        CHECK_NOTHROW(book.checks()); // of version 2 and up
        CHECK(contentOf(file) == before);
    }
}

TEST_CASE("a reader reports a book that is missing, newer or cut off at its start") {
    const TemporaryFolder folder;
    CHECK_THROWS_AS(Book::openForReading(folder.path()), UsageError);
    std::ofstream(folder.path() / "book.db").flush();
    CHECK_THROWS_WITH(Book::openForReading(folder.path()), Contains("no book"));
    makeBookToRead(folder.path());
    {
        Database newer(folder.path() / "book.db", "a newer program");
        newer.run("PRAGMA user_version = 99");
    }
    CHECK_THROWS_WITH(Book::openForReading(folder.path()), Contains("newer swarfbook"));
}
