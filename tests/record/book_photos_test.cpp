// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/database.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

struct BookWithVisits {
    TemporaryFolder folder;
    Book book = Book::open(folder.path());
    std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    std::int64_t first = book.addVisit(visitOn(vehicle, "2024-03-14", 1000.0)).id;
    std::int64_t second = book.addVisit(visitOn(vehicle, "2025-03-14", 2000.0)).id;
    std::vector<std::byte> bytes = photoBytes(1);

    PhotoAdded add() { return book.addPhoto(newPhoto(first), bytes, findingOf(bytes)); }
    [[nodiscard]] std::size_t files() const {
        std::size_t count = 0;
        for (const auto& entry : fs::recursive_directory_iterator(folder.path() / "photos"))
            count += entry.is_regular_file() ? 1 : 0;
        return count;
    }
};

} // namespace

TEST_CASE("a photo comes back with its finding, options and the program that measured it") {
    BookWithVisits b;
    CHECK_FALSE(b.add().alreadyThere);
    const auto photos = b.book.photos(b.first);
    REQUIRE(photos.size() == 1);
    const StoredPhoto& photo = photos[0];
    CHECK(photo.place == Place::pan);
    CHECK(photo.fileName == "pan.jpg");
    CHECK(photo.sampling == "floor wiped");
    CHECK(photo.options == R"({"place":"pan"})");
    CHECK(photo.programVersion == "0.1.0");
    CHECK(photo.measuredAt.size() == 20);
    const Measurement& finding = photo.measurement;
    CHECK(finding.photo.taken == "2025-03-14T10:12:00");
    REQUIRE(finding.debris);
    REQUIRE(finding.debris->particles.size() == 2);
    CHECK(finding.debris->particles[1].maxFeret.value.value() == Approx(0.45));
    CHECK(b.book.photos(b.second).empty());
}

// The mapping must come back so exactly that outlines are drawn on the same pixel: the doubles
// themselves.
TEST_CASE("the mapping from card to photo comes back exactly") {
    BookWithVisits b;
    const PlaneMapping before = findingOf(b.bytes).card->mapping;
    const StoredPhoto stored = b.add().photo;
    REQUIRE(stored.measurement.card);
    const PlaneMapping& mapping = stored.measurement.card->mapping;
    CHECK(cv::norm(mapping.h, before.h, cv::NORM_INF) == 0.0);
    CHECK(mapping.focal == before.focal);
    CHECK(mapping.centre == before.centre);
    CHECK(mapping.k1 == before.k1);
    CHECK(mapping.k2 == before.k2);
}

TEST_CASE("the original stays byte for byte what it was") {
    BookWithVisits b;
    const StoredPhoto photo = b.add().photo;
    CHECK(photo.sha256 == sha256Hex(b.bytes));
    CHECK(b.book.originalBytes(photo.sha256) == b.bytes);
    CHECK(contentOf(b.book.originalPhoto(photo.sha256)).size() == b.bytes.size());
    b.book.addFinding(photo.id, findingOf(b.bytes), "{}", "0.2.0");
    CHECK(b.book.originalBytes(photo.sha256) == b.bytes);
    CHECK((fs::status(b.book.originalPhoto(photo.sha256)).permissions() & fs::perms(0222)) ==
          fs::perms::none);
}

TEST_CASE("the same photo a second time is noticed and changes nothing") {
    BookWithVisits b;
    const StoredPhoto photo = b.add().photo;
    const PhotoAdded again = b.add();
    CHECK(again.alreadyThere);
    CHECK(again.photo.id == photo.id);
    CHECK(b.book.photos(b.first).size() == 1);
    CHECK(b.book.findings(photo.id).size() == 1);
    CHECK(b.files() == 1);
    CHECK_THROWS_WITH(b.book.addPhoto(newPhoto(b.second), b.bytes, findingOf(b.bytes)),
                      Contains("already in this book, at visit 1"));
    CHECK_THROWS_WITH(
        b.book.addPhoto(newPhoto(b.first, Place::filter), b.bytes, findingOf(b.bytes)),
        Contains("as place pan"));
    CHECK(b.book.photos(b.second).empty());
}

TEST_CASE("a lost or spoiled original is reported, and comes back when its photo is added again") {
    BookWithVisits b;
    const StoredPhoto photo = b.add().photo;
    const fs::path file = b.book.originalPhoto(photo.sha256);
    fs::remove(file);
    CHECK_THROWS_WITH(b.book.originalPhoto(photo.sha256), Contains("missing"));
    std::ofstream(file) << "something else";
    CHECK_THROWS_WITH(b.book.originalBytes(photo.sha256), Contains("has changed since it was put"));
    CHECK(b.add().alreadyThere);
    CHECK(b.book.originalBytes(photo.sha256) == b.bytes);
}

TEST_CASE("a photo that changed while it was measured is refused") {
    BookWithVisits b;
    CHECK_THROWS_WITH(b.book.addPhoto(newPhoto(b.first), photoBytes(2), findingOf(b.bytes)),
                      Contains("changed while it was being measured"));
    CHECK_THROWS_AS(b.book.addPhoto(newPhoto(99), b.bytes, findingOf(b.bytes)), UsageError);
    CHECK(b.book.photos(b.first).empty());
}

TEST_CASE("the newest finding counts and the old ones stay") {
    BookWithVisits b;
    const StoredPhoto photo = b.add().photo;
    Measurement later = findingOf(b.bytes);
    later.debris->particles.pop_back();
    b.book.addFinding(photo.id, later, R"({"place":"pan","again":true})", "0.2.0");
    const StoredPhoto now = b.book.photos(b.first).at(0);
    CHECK(now.measurement.debris->particles.size() == 1);
    CHECK(now.programVersion == "0.2.0");
    CHECK(now.options == R"({"place":"pan","again":true})");
    const auto findings = b.book.findings(photo.id);
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].programVersion == "0.2.0");
    CHECK(findings[1].programVersion == "0.1.0");
    CHECK(findings[1].measurement.debris->particles.size() == 2);
    CHECK_THROWS_AS(b.book.addFinding(99, later, "{}", "0.2.0"), ToolError);
}

TEST_CASE("a photo in the wrong visit or place is moved, and its earlier place is kept") {
    BookWithVisits b;
    const StoredPhoto photo = b.add().photo;
    b.book.movePhoto(photo.sha256, b.second, Place::filter);
    CHECK(b.book.photos(b.first).empty());
    REQUIRE(b.book.photos(b.second).size() == 1);
    CHECK(b.book.photos(b.second)[0].place == Place::filter);
    const auto corrections = b.book.correctionsOfPhoto(photo.id);
    REQUIRE(corrections.size() == 1);
    CHECK(corrections[0].before == R"({"visit":1,"place":"pan"})");
    CHECK_THROWS_AS(b.book.movePhoto(photo.sha256, 99, Place::pan), UsageError);
    CHECK_THROWS_AS(b.book.movePhoto(std::string(64, '0'), b.first, Place::pan), UsageError);
}

TEST_CASE("a refused photo can be kept with its reason") {
    BookWithVisits b;
    Measurement refused;
    refused.photo.file = "pan.jpg";
    refused.photo.sha256 = sha256Hex(b.bytes);
    refused.refusal = Refusal{RefusalReason::blurred, "Too blurred.", "Hold still."};
    b.book.addPhoto(newPhoto(b.first), b.bytes, refused);
    const StoredPhoto stored = b.book.photos(b.first).at(0);
    REQUIRE(stored.measurement.refusal);
    CHECK(stored.measurement.refusal->reason == RefusalReason::blurred);
    CHECK_FALSE(stored.measurement.debris.has_value());
}

TEST_CASE("photos of one command are kept together or not at all") {
    BookWithVisits b;
    {
        const BookTransaction transaction = b.book.begin();
        b.add();
        b.book.addPhoto(newPhoto(b.first), photoBytes(2), findingOf(photoBytes(2)));
        CHECK(b.book.photos(b.first).size() == 2);
    }
    CHECK(b.book.photos(b.first).empty());
    CHECK_FALSE(b.add().alreadyThere); // the file without an entry is used and does no harm
    CHECK(b.book.originalBytes(sha256Hex(b.bytes)) == b.bytes);
}

TEST_CASE("a file name of any bytes is kept in readable form") {
    BookWithVisits b;
    NewPhoto photo = newPhoto(b.first);
    photo.fileName = "p\xFF\x1b[2J.jpg";
    Measurement finding = findingOf(b.bytes);
    finding.photo.file = photo.fileName;
    CHECK(b.book.addPhoto(photo, b.bytes, finding).photo.fileName == "p\\xff\\u001b[2J.jpg");
}

TEST_CASE("a finding that is not a measurement document is reported, not shown as empty") {
    BookWithVisits b;
    b.add();
    Database database(b.folder.path() / "book.db", "the book in a test");
    database.run("UPDATE finding SET measurement = '{}'");
    std::string told;
    b.book.talkTo([&](const std::string& sentence) { told += sentence; });
    const auto photos = b.book.photos(b.first);
    REQUIRE(photos.size() == 1);
    CHECK_FALSE(photos[0].measurement.debris);
    CHECK(photos[0].measurement.refusal->reason == RefusalReason::findingDamaged);
    CHECK_THAT(told, Contains("is damaged and was left out"));
    CHECK_THROWS_AS(database.run("UPDATE finding SET measurement = 'no JSON'"), ToolError);
}
