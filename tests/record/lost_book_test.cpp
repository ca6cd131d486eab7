// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

void requireRefused(const fs::path& book) {
    const auto before = namesIn(book);
    for (const IfNoBook ifNone : {IfNoBook::startOne, IfNoBook::refuse}) {
        CHECK_THROWS_AS(Book::open(book, ifNone), ToolError);
        CHECK_THROWS_WITH(Book::open(book, ifNone),
                          Contains("has lost its entries") && Contains("swarfbook restore"));
    }
    CHECK(namesIn(book) == before);
}

} // namespace

TEST_CASE("a book that lost its book.db is told, and no new one takes its place") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    fs::remove(folder.path() / "book.db");
    CHECK_THROWS_WITH(Book::open(folder.path()),
                      Contains("missing") && Contains("4 photo files") && Contains("2 charts"));
    requireRefused(folder.path());
    fs::remove_all(folder.path() / "photos");
    fs::remove_all(folder.path() / "set-aside");
    requireRefused(folder.path()); // charts alone are a book too
}

TEST_CASE("a book whose book.db was emptied is told, and no new one takes its place") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    fs::resize_file(folder.path() / "book.db", 0);
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("empty"));
    requireRefused(folder.path());
    CHECK(fs::file_size(folder.path() / "book.db") == 0);
}

TEST_CASE("a database without any table beside photos is a lost book too") {
    const TemporaryFolder folder;
    { const Book book = fillWholeBook(folder.path()); }
    fs::remove(folder.path() / "book.db");
    Database(folder.path() / "book.db", "empty").run("PRAGMA journal_mode = WAL");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("has lost its entries"));
}

TEST_CASE("a write-ahead log that still holds entries is not thrown away for a new book") {
    const TemporaryFolder folder;
    writeText(folder.path() / "book.db-wal", "entries");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("write-ahead log"));
    CHECK(contentOf(folder.path() / "book.db-wal") == "entries");
}

TEST_CASE("empty folders of photos and charts are no lost book") {
    const TemporaryFolder folder;
    fs::create_directories(folder.path() / "photos/incoming");
    fs::create_directories(folder.path() / "units");
    CHECK_NOTHROW(Book::open(folder.path()));
}

TEST_CASE("a link, a pipe or a folder in the place of book.db is not opened") {
    const TemporaryFolder folder, other;
    { const Book book = Book::open(other.path()); }
    fs::create_symlink(other.path() / "book.db", folder.path() / "book.db");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("symbolic link"));
    fs::remove(folder.path() / "book.db");
    REQUIRE(::mkfifo((folder.path() / "book.db").c_str(), 0600) == 0);
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("ordinary file"));
}

TEST_CASE("a link in the place of the folder of charts is told before a chart is written there") {
    const TemporaryFolder folder, other;
    { const Book book = Book::open(folder.path()); }
    fs::create_directory_symlink(other.path(), folder.path() / "units");
    CHECK_THROWS_WITH(Book::open(folder.path()), Contains("units is a symbolic link"));
}
