// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A book with two visits of one vehicle, each with one observation of work.
struct WorkBook {
    TemporaryFolder folder;
    Book book = Book::open(folder.path());
    Visit visit, other;

    WorkBook() {
        const Vehicle vehicle = book.addVehicle(labelled("DEMO-01"));
        visit = book.addVisit(visitOn(vehicle.id, "2025-03-14"));
        other = book.addVisit(visitOn(vehicle.id, "2025-04-14"));
        for (const Visit& of : {visit, other})
            book.addObservation({0, of.id, "after-repair", R"({"work":["filter renewed"]})", ""});
    }

    [[nodiscard]] std::size_t originals() const {
        std::size_t files = 0;
        for (const auto& [name, content] : filesOf(folder.path()))
            files += name.starts_with("photos/") ? 1 : 0;
        return files;
    }
};

} // namespace

TEST_CASE("photos of work come back with their observation, before first, byte for byte") {
    WorkBook at;
    at.book.addWorkPhoto({1, WorkMoment::after, "new.jpg"}, photoBytes(2));
    at.book.addWorkPhoto({1, WorkMoment::before, "old.jpg"}, photoBytes(1));
    at.book.addWorkPhoto({2, WorkMoment::after, "other.jpg"}, photoBytes(3));
    const std::vector<WorkPhoto> photos = at.book.workPhotos(at.visit.id);
    REQUIRE(photos.size() == 2);
    CHECK(photos[0].moment == WorkMoment::before);
    CHECK(photos[0].fileName == "old.jpg");
    CHECK(photos[1].moment == WorkMoment::after);
    for (const WorkPhoto& photo : photos)
        CHECK(photo.observationId == 1);
    CHECK(at.book.originalBytes(photos[0].sha256) == photoBytes(1));
    CHECK(at.book.workPhotos(at.other.id).size() == 1);
    CHECK(at.book.photos(at.visit.id).empty()); // they are not measured
    const auto file = at.book.originalPhoto(photos[0].sha256);
    CHECK((fs::status(file).permissions() & fs::perms(0077)) == fs::perms::none);
}

TEST_CASE("one file is kept once, however many entries name it") {
    WorkBook at;
    at.book.addPhoto(newPhoto(at.visit.id), photoBytes(1), findingOf(photoBytes(1)));
    const auto first = at.book.addWorkPhoto({1, WorkMoment::before, "a.jpg"}, photoBytes(1));
    const auto again = at.book.addWorkPhoto({1, WorkMoment::before, "b.jpg"}, photoBytes(1));
    CHECK(again.id == first.id);
    CHECK(again.fileName == "a.jpg");
    at.book.addWorkPhoto({1, WorkMoment::after, "a.jpg"}, photoBytes(1));
    at.book.addWorkPhoto({2, WorkMoment::before, "a.jpg"}, photoBytes(1));
    CHECK(at.book.workPhotos(at.visit.id).size() == 2);
    CHECK(at.originals() == 1);
    CHECK(at.book.check().photos == 1);
    CHECK(at.book.check().sound());
}

TEST_CASE("a photo of no observation, or of a command that comes to nothing, is not kept") {
    WorkBook at;
    CHECK_THROWS_WITH(at.book.addWorkPhoto({77, WorkMoment::before, "a.jpg"}, photoBytes(1)),
                      Contains("no observation 77"));
    {
        const BookTransaction transaction = at.book.begin();
        at.book.addWorkPhoto({1, WorkMoment::before, "a.jpg"}, photoBytes(1));
    }
    CHECK(at.originals() == 0);
    CHECK(at.book.workPhotos(at.visit.id).empty());
}

TEST_CASE("a lost original of work comes back when its photo is added again") {
    WorkBook at;
    const auto photo = at.book.addWorkPhoto({1, WorkMoment::before, "a.jpg"}, photoBytes(1));
    fs::remove(at.book.originalPhoto(photo.sha256));
    CHECK_THROWS_AS(at.book.originalBytes(photo.sha256), PhotoLost);
    at.book.addWorkPhoto({1, WorkMoment::before, "a.jpg"}, photoBytes(1));
    CHECK(at.book.originalBytes(photo.sha256) == photoBytes(1));
}
