// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/small_disk.h"
#include "record/database.h"
#include "record/evidence_of_visit.h"
#include "record/photo_store.h"
#include "record/trial_book.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A book on disk with two photos in one visit.
struct TwoPhotos {
    TemporaryFolder folder;
    Book book = Book::open(folder.path());
    std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    std::int64_t visit = book.addVisit(visitOn(vehicle, "2025-03-14", 1000.0)).id;
    StoredPhoto one = add(1), two = add(2);
    std::vector<std::string> told;

    TwoPhotos() {
        book.talkTo([this](const std::string& sentence) { told.push_back(sentence); });
    }
    StoredPhoto add(int number) {
        return book.addPhoto(newPhoto(visit), photoBytes(number), findingOf(photoBytes(number)))
            .photo;
    }
    /// Writes values into the database that the program never would.
    void damage(const std::string& sql) const {
        Database database(folder.path() / "book.db", "a test");
        database.run("PRAGMA ignore_check_constraints = ON; " + sql);
    }
    /// Photos on the disk, without those being added.
    [[nodiscard]] std::size_t files() const {
        std::size_t count = 0;
        for (const auto& entry : fs::recursive_directory_iterator(folder.path() / "photos"))
            count += entry.is_regular_file() && !entry.path().string().ends_with(arrivingEnding);
        return count;
    }
};

} // namespace

TEST_CASE("a finding that cannot be read is left out and reported, and everything else is there") {
    for (const std::string set :
         {"measurement = '{'", "measurement = '{}'", "measurement = '[1, 2]'", "measurement = ''",
          "mapping = '{'", "mapping = NULL", "mapping = '{}'"}) {
        INFO(set);
        TwoPhotos b;
        b.damage("UPDATE finding SET " + set + " WHERE photo_id = 1");
        for (int again = 0; again < 2; ++again) {
            const auto photos = b.book.photos(b.visit);
            REQUIRE(photos.size() == 2);
            REQUIRE(photos[0].measurement.refusal);
            CHECK(photos[0].measurement.refusal->reason == RefusalReason::findingDamaged);
            CHECK_FALSE(photos[0].measurement.debris);
            CHECK(photos[1].measurement.debris);
        }
        REQUIRE(b.told.size() == 1);
        CHECK_THAT(b.told[0], Contains("pan.jpg (visit 1, place pan)") &&
                                  Contains("swarfbook visit measure 1"));
        CHECK(b.book.findings(1).size() == 1);
        const VisitEvidence evidence = evidenceOfOneVisit(b.book, b.book.visit(b.visit));
        CHECK(evidence.samples.size() == 2);
        b.book.addFinding(1, findingOf(photoBytes(1)), "{}", "0.2.0");
        CHECK(b.book.photos(b.visit)[0].measurement.debris);
    }
}

TEST_CASE("photos of a command that failed are removed, those of one that succeeded stay") {
    TwoPhotos b;
    REQUIRE(b.files() == 2);
    {
        const BookTransaction transaction = b.book.begin();
        b.add(3);
        b.book.keepCleanReference("blank.jpg", photoBytes(4));
        CHECK(b.files() == 4);
    }
    CHECK(b.files() == 2);
    {
        BookTransaction transaction = b.book.begin();
        b.add(3);
        {
            const BookTransaction inner = b.book.begin();
            b.add(4);
        }
        transaction.commit();
    }
    CHECK(b.files() == 3);
    CHECK(b.book.originalBytes(b.book.photos(b.visit).back().sha256) == photoBytes(3));
}

TEST_CASE("a lost original that a failed command brought back stays") {
    TwoPhotos b;
    fs::remove(b.book.originalPhoto(b.one.sha256));
    {
        const BookTransaction transaction = b.book.begin();
        CHECK(b.book.addPhoto(newPhoto(b.visit), photoBytes(1), findingOf(photoBytes(1)))
                  .alreadyThere);
    }
    CHECK(b.book.originalBytes(b.one.sha256) == photoBytes(1));
}

TEST_CASE("a full disk is named, nothing of the failed command is left, and it works with room") {
    const SmallDisk disk(700);
    if (!disk.isThere()) {
        WARN("no small disk can be mounted here: passed over");
        return;
    }
    Book book = Book::open(disk.path() / "book");
    const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    const std::int64_t visit = book.addVisit(visitOn(vehicle, "2025-03-14", 1000.0)).id;
    const auto addTwo = [&](std::size_t size) {
        BookTransaction transaction = book.begin();
        for (const int number : {1, 2}) {
            const auto bytes = photoBytes(number, size);
            book.addPhoto(newPhoto(visit), bytes, findingOf(bytes));
        }
        transaction.commit();
    };
    CHECK_THROWS_WITH(addTwo(300'000),
                      Contains("The disk that holds the book") && Contains("is full"));
    CHECK(filesOf(disk.path() / "book/photos").empty());
    CHECK(book.photos(visit).empty());
    CHECK(book.check().sound());
    addTwo(20'000);
    CHECK(filesOf(disk.path() / "book/photos").size() == 2);
    CHECK(book.check().sound());
}

TEST_CASE("a writer waits as long as it should, and says so once") {
    TwoPhotos b;
    Database other(b.folder.path() / "book.db", "another program");
    auto writing = std::make_unique<BookTransaction>(other);
    b.book.waitUpTo(std::chrono::seconds(60));
    std::thread later([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(busyTimeoutMs + 700));
        writing.reset();
    });
    CHECK_NOTHROW(b.book.addVehicle(labelled("DEMO-02")));
    later.join();
    REQUIRE(b.told.size() == 1);
    CHECK_THAT(b.told[0], Contains("in use by another program") && Contains("60 seconds"));
    writing = std::make_unique<BookTransaction>(other);
    b.book.waitUpTo(std::chrono::milliseconds(200));
    CHECK_THROWS_WITH(b.book.addVehicle(labelled("DEMO-03")), Contains("in use"));
}
