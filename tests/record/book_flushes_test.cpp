// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/flush_of_visit.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A visit with three photos of the tray, a flush that two of them belong to, and a second flush.
struct FlushedBook {
    TemporaryFolder folder;
    Book book = Book::open(folder.path());
    std::int64_t visit = 0;
    std::vector<std::int64_t> photos;

    FlushedBook() {
        visit = book.addVisit(visitOn(book.addVehicle(labelled("DEMO-01")).id, "2025-03-14")).id;
        for (const int number : {1, 2, 3})
            photos.push_back(book.addPhoto(newPhoto(visit, Place::tray), photoBytes(number),
                                           findingOf(photoBytes(number), Place::tray))
                                 .photo.id);
        book.startFlush({visit, "  solenoid A "});
        book.startFlush({visit, "valve body"});
        book.addFlushPass(1, photos[0], FlushStep::wash);
        book.addFlushPass(1, photos[1], FlushStep::demagnetise);
    }
    [[nodiscard]] std::vector<std::int64_t> passesOf(std::int64_t flush) const {
        std::vector<std::int64_t> numbers;
        for (const StoredPass& pass : book.flush(flush).passes)
            numbers.push_back(pass.photoId);
        return numbers;
    }
};

} // namespace

TEST_CASE("a flush keeps its part, its passes in order and their steps") {
    const FlushedBook f;
    const std::vector<StoredFlush> all = f.book.flushes(f.visit);
    REQUIRE(all.size() == 2);
    CHECK(all[0].part == "solenoid A");
    CHECK(all[0].traySha256.empty());
    REQUIRE(all[0].passes.size() == 2);
    CHECK(all[0].passes[0].step == FlushStep::wash);
    CHECK(all[0].passes[1].step == FlushStep::demagnetise);
    CHECK(all[1].passes.empty());
}

TEST_CASE("a pass entered again is corrected in its place, and may move to another flush") {
    FlushedBook f;
    f.book.addFlushPass(1, f.photos[0], FlushStep::hot);
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[0], f.photos[1]});
    CHECK(f.book.flush(1).passes[0].step == FlushStep::hot);
    f.book.addFlushPass(2, f.photos[0], FlushStep::wash);
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[1]});
    CHECK(f.passesOf(2) == std::vector<std::int64_t>{f.photos[0]});
}

TEST_CASE(
    "a photo that is withdrawn or moved to another place leaves the flush, and can come back") {
    FlushedBook f;
    f.book.withdrawPhoto(f.photos[0], {"", "blurred"});
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[1]});
    f.book.bringBackPhoto(f.photos[0], {});
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[0], f.photos[1]});
    f.book.movePhoto(sha256Hex(photoBytes(1)), f.visit, Place::pan);
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[1]});
    f.book.withdrawVisit(f.visit, {"", "wrong vehicle"});
    CHECK_THROWS_AS(f.book.flush(1), UsageError);
}

TEST_CASE("a clean tray is kept with its finding, and counted with the passes") {
    FlushedBook f;
    const std::string sha256 = f.book.keepCleanReference("clean.jpg", photoBytes(8));
    f.book.startFlush({f.visit, "pump", sha256, findingOf(photoBytes(8), Place::tray)});
    const StoredFlush kept = f.book.flush(3);
    CHECK(kept.traySha256 == sha256);
    REQUIRE(kept.tray);
    CHECK(kept.tray->debris->particles.size() == 2);
    f.book.addFlushPass(3, f.photos[2], FlushStep::wash);
    const auto counted = flushesOfVisit(f.book, f.visit, f.book.photos(f.visit));
    REQUIRE(counted.size() == 2); // the flush without a pass is left out
    CHECK(counted[1].part == "pump");
    CHECK(counted[1].trayPhotographed);
    // findingOf: pieces of 0.9 and 0.45 mm, complete from 0.21 mm; the tray shows the same two
    CHECK(counted[1].series.passes[0].pieces == 2);
    CHECK_FALSE(counted[1].series.trayNotClean.empty());
    CHECK_FALSE(counted[0].trayPhotographed);
    CHECK(counted[0].series.decay.ratios[1]->ratio == 0.5);
}

TEST_CASE("flushes that make no sense are refused") {
    FlushedBook f;
    CHECK_THROWS_WITH(f.book.startFlush({f.visit, "  "}), Contains("which part"));
    CHECK_THROWS_AS(f.book.startFlush({f.visit, "a\nb"}), UsageError);
    CHECK_THROWS_AS(f.book.startFlush({99, "solenoid A"}), UsageError);
    CHECK_THROWS_WITH(f.book.addFlushPass(9, f.photos[0], FlushStep::wash), Contains("no flush 9"));
    CHECK_THROWS_AS(f.book.addFlushPass(1, 77, FlushStep::wash), UsageError);
    const std::int64_t ofPan =
        f.book.addPhoto(newPhoto(f.visit), photoBytes(5), findingOf(photoBytes(5))).photo.id;
    CHECK_THROWS_WITH(f.book.addFlushPass(1, ofPan, FlushStep::wash),
                      Contains("not a photo of the tray"));
}

TEST_CASE("a flush begun by mistake is withdrawn when no pass counts in it, and can come back") {
    FlushedBook f;
    CHECK_THROWS_WITH(f.book.withdrawFlush(1, {"", "wrong part"}),
                      Contains("photos 1, 2") && Contains("flush add --flush N") &&
                          Contains("photo withdraw 1 --why"));
    CHECK_THROWS_WITH(f.book.withdrawFlush(2, {}), Contains("Say why the flush"));
    CHECK_THROWS_WITH(f.book.withdrawFlush(9, {"", "x"}), Contains("no flush 9"));
    CHECK_THROWS_WITH(f.book.bringBackFlush(2, {}), Contains("is not withdrawn"));
    f.book.withdrawFlush(2, {"M.", "wrong part"});
    REQUIRE(f.book.flushes(f.visit).size() == 1);
    CHECK(f.book.flushes(f.visit)[0].id == 1);
    CHECK_THROWS_WITH(f.book.flush(2),
                      Contains("by M.: wrong part") && Contains("flush withdraw 2 --undo"));
    CHECK_THROWS_AS(f.book.addFlushPass(2, f.photos[2], FlushStep::wash), UsageError);
    CHECK_THROWS_WITH(f.book.withdrawFlush(2, {"", "x"}), Contains("withdrawn already"));
    REQUIRE(f.book.withdrawnFlushes(f.visit).size() == 1);
    CHECK(f.book.withdrawnFlushes(f.visit)[0].number == 2);
    CHECK(f.book.withdrawnFlushes(f.visit)[0].reason.why == "wrong part");
    f.book.bringBackFlush(2, {"M.", ""});
    CHECK(f.book.flushes(f.visit).size() == 2);
    f.book.addFlushPass(2, f.photos[2], FlushStep::wash);
    CHECK(f.passesOf(2) == std::vector<std::int64_t>{f.photos[2]});
}

TEST_CASE("a withdrawn photo of a withdrawn flush comes back after the flush") {
    FlushedBook f;
    f.book.addFlushPass(2, f.photos[1], FlushStep::wash);
    f.book.withdrawPhoto(f.photos[0], {"", "blurred"});
    f.book.withdrawFlush(1, {"", "wrong part"});
    CHECK_THROWS_WITH(f.book.bringBackPhoto(f.photos[0], {}),
                      Contains("a pass of flush 1") && Contains("flush withdraw 1 --undo"));
    f.book.bringBackFlush(1, {});
    f.book.bringBackPhoto(f.photos[0], {});
    CHECK(f.passesOf(1) == std::vector<std::int64_t>{f.photos[0]});
}
