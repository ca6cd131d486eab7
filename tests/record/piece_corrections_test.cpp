// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "particles/count.h"
#include "record/evidence_of_visit.h"
#include "record/piece_corrections.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A pad of 60 x 40 mm with five pieces of 1 mm of bright metal, 5 mm apart.
Measurement fivePieces() {
    Measurement finding = findingOf(photoBytes(1), Place::pad);
    for (const double x : {0.0, 60.0})
        for (const double y : {0.0, 40.0})
            finding.card->grid.push_back({{x, y}, {}});
    DebrisFinding& debris = *finding.debris;
    debris.onWhiteCard = true;
    debris.resolutionLimit = Millimetres(0.2);
    debris.particles.clear();
    for (int id = 1; id <= 5; ++id) {
        Particle piece;
        piece.id = id;
        piece.centre = {5.0 * id, 20.0};
        piece.maxFeret = {Millimetres(1.2), Millimetres(0.03)};
        piece.minFeret = piece.maxFeret;
        piece.type = ParticleType::brightMetal;
        piece.typeProbability = 0.7;
        piece.said.photo = TypeSaid{piece.type, piece.typeProbability};
        piece.outline = {{5.0 * id - 0.5, 19.5}, {5.0 * id + 0.5, 19.5}, {5.0 * id, 20.5}};
        debris.particles.push_back(piece);
    }
    CountOptions options;
    options.onWhiteCard = true;
    options.measuredArea = debris.measuredArea;
    options.detectionLimit = debris.detectionLimit;
    options.resolutionLimit = debris.resolutionLimit;
    debris.counts = countByClass(debris.particles, {Millimetres(60.0), Millimetres(40.0)}, options);
    return finding;
}

struct OnePhoto {
    Book book = Book::inMemory();
    std::int64_t visit =
        book.addVisit(visitOn(book.addVehicle(labelled("DEMO-01")).id, "2025-03-14", 1000.0)).id;
    std::int64_t photo =
        book.addPhoto(newPhoto(visit, Place::pad), photoBytes(1), fivePieces()).photo.id;

    [[nodiscard]] DebrisFinding debris() const { return *book.photo(photo).measurement.debris; }
    [[nodiscard]] int counted() const {
        int all = 0;
        for (const ClassCount& row : debris().counts)
            all += row.count;
        return all;
    }
    void say(PointOnCard at, const std::string& what) {
        book.correctPiece(photo, {at, what, {"M.", "looked by eye"}, ""});
    }
};

} // namespace

TEST_CASE("a piece corrected to another type is that type for certain, in counts and evidence") {
    OnePhoto one;
    one.say({10.0, 20.0}, "lining");
    const StoredPhoto stored = one.book.photo(one.photo);
    const Particle& piece = stored.measurement.debris->particles.at(1);
    CHECK(piece.type == ParticleType::lining);
    CHECK(piece.chanceOfType() == 1.0);
    CHECK(piece.said.hand == ParticleType::lining);
    REQUIRE(piece.said.photo); // what the photo said is kept
    CHECK(piece.said.photo->type == ParticleType::brightMetal);
    CHECK(piece.said.photo->probability == 0.7);
    CHECK(one.counted() == 5);
    int lining = 0;
    for (const ClassCount& row : one.debris().counts)
        lining += row.byType.at(static_cast<std::size_t>(ParticleType::lining));
    CHECK(lining == 1);
    const VisitEvidence now = evidenceOfVisit(one.book, one.visit).now;
    CHECK(now.samples.at(0).finding->particles.at(1).type == ParticleType::lining);
    REQUIRE(stored.corrected.size() == 1);
    CHECK(stored.corrected[0].piece == 2);
    CHECK(stored.corrected[0].measuredAs == "bright metal");
    CHECK(stored.corrected[0].correction.reason.by == "M.");
    // The measurement itself stays as it was made.
    CHECK(one.book.findings(one.photo).at(0).measurement.debris->particles.at(1).type ==
          ParticleType::brightMetal);
}

TEST_CASE("what is no debris, or left over, counts nowhere until that is taken back") {
    OnePhoto one;
    for (const std::string what : {"not debris", "left over"}) {
        one.say({15.0, 20.0}, what);
        CHECK(one.counted() == 4);
        CHECK(one.debris().particles.size() == 4);
        CHECK(one.book.photo(one.photo).corrected.at(0).piece == 3);
        one.say({15.0, 20.0}, "");
        CHECK(one.counted() == 5);
        CHECK(one.book.photo(one.photo).corrected.empty());
    }
}

TEST_CASE("a later word replaces the earlier one, and several pieces are kept apart") {
    OnePhoto one;
    one.say({5.0, 20.0}, "lining");
    one.say({20.2, 20.1}, "plastic"); // near its centre is enough
    one.say({5.0, 20.0}, "yellow metal");
    const DebrisFinding debris = one.debris();
    CHECK(debris.particles.at(0).type == ParticleType::yellowMetal);
    CHECK(debris.particles.at(3).type == ParticleType::plastic);
    CHECK(one.book.photo(one.photo).corrected.size() == 2);
}

TEST_CASE("a correction finds its piece again by its place when the photo is measured anew") {
    OnePhoto one;
    one.say({10.0, 20.0}, "lining");
    Measurement again = fivePieces();
    std::vector<Particle>& pieces = again.debris->particles;
    std::swap(pieces.at(0), pieces.at(1)); // other numbers, and a little beside
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        pieces[i].id = static_cast<int>(i) + 1;
        pieces[i].centre.x += 0.08;
    }
    one.book.addFinding(one.photo, again, "{}", "0.2.0");
    CHECK(one.debris().particles.at(0).type == ParticleType::lining);
    CHECK(one.book.photo(one.photo).corrected.at(0).piece == 1);
    pieces.erase(pieces.begin());
    one.book.addFinding(one.photo, again, "{}", "0.3.0");
    CHECK_FALSE(one.book.photo(one.photo).corrected.at(0).piece);
}

TEST_CASE("what cannot be corrected is refused with what to do") {
    OnePhoto one;
    CHECK_THROWS_WITH(one.say({40.0, 20.0}, "lining"), Contains("no piece at 40.0, 20.0"));
    CHECK_THROWS_WITH(one.say({10.0, 20.0}, "gold"), Contains("Say one of"));
    CHECK_THROWS_WITH(one.say({10.0, 20.0}, ""), Contains("nothing to undo"));
    CHECK_THROWS_WITH(one.book.photo(9), Contains("no photo 9"));
    one.book.withdrawPhoto(one.photo, {"", "blurred"});
    CHECK_THROWS_AS(one.say({10.0, 20.0}, "lining"), UsageError);
}
