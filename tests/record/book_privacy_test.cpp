// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/private_file.h"
#include "cli/run_program.h"
#include "record/book_privacy.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <sys/stat.h>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

std::size_t openFilesIn(const fs::path& folder) {
    std::size_t open = isOpenToOthers(folder) ? 1 : 0;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        open += isOpenToOthers(entry.path()) ? 1 : 0;
    return open;
}

Book bookWithPhoto(const fs::path& folder) {
    Book book = Book::open(folder);
    const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    const std::int64_t visit = book.addVisit(visitOn(vehicle, "2025-03-14", 1000.0)).id;
    book.addPhoto(newPhoto(visit), photoBytes(1), findingOf(photoBytes(1)));
    return book;
}

/// As an earlier program left it.
void openToAll(const fs::path& folder) {
    fs::permissions(folder, fs::perms(0755));
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        fs::permissions(entry.path(), fs::perms(entry.is_directory() ? 0755 : 0644));
}

} // namespace

TEST_CASE("a new book is its owner's alone, log and photos as well, whatever the umask") {
    const TemporaryFolder folder;
    const mode_t before = umask(0);
    const Book book = bookWithPhoto(folder.path() / "shop/book");
    umask(before);
    CHECK(fs::exists(folder.path() / "shop/book/book.db-wal"));
    CHECK(openFilesIn(folder.path() / "shop") == 0);
    CHECK(fs::status(folder.path() / "shop/book/book.db").permissions() == fs::perms(0600));
    CHECK(fs::status(folder.path() / "shop/book/photos").permissions() == fs::perms(0700));
}

TEST_CASE("an old book is closed to others when it is opened, and that is reported once") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "book";
    { const Book book = bookWithPhoto(path); }
    openToAll(path);
    CHECK(openFilesIn(path) > 4);
    CHECK(Book::openForReading(path).wasOpenToOthers());
    CHECK(openFilesIn(path) == 0);
    CHECK_FALSE(Book::openForReading(path).wasOpenToOthers());
    openToAll(path);
    CHECK(Book::open(path).wasOpenToOthers());
    CHECK(openFilesIn(path) == 0);
    CHECK_FALSE(Book::open(path).wasOpenToOthers());
}

TEST_CASE("a folder that holds other things than the book keeps its rights, the book does not") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "book";
    { const Book book = bookWithPhoto(path); }
    std::ofstream(path / "notes.txt") << "notes";
    openToAll(path);
    CHECK(Book::open(path).wasOpenToOthers());
    CHECK(fs::status(path).permissions() == fs::perms(0755));
    CHECK(fs::status(path / "notes.txt").permissions() == fs::perms(0644));
    CHECK(openFilesIn(path / "photos") == 0);
    CHECK_FALSE(isOpenToOthers(path / "book.db"));
    CHECK_FALSE(Book::open(path).wasOpenToOthers());
}
