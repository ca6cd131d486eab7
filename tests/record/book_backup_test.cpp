// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/database.h"
#include "record/killed_book.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

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
    fs::create_directories(folder.path() / "copy.unfinished/photos"); // of a killed backup
    const auto copied = book.backUp(folder.path() / "copy");
    CHECK(copied.photos == 1);
    REQUIRE(copied.troubles.size() == 1);
    CHECK_THAT(copied.troubles[0], Contains("missing"));
    CHECK(Book::open(folder.path() / "copy").photos(1).size() == 2);
}
