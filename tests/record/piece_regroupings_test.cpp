// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "particles/count.h"
#include "record/evidence_of_visit.h"
#include "record/piece_corrections.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

Particle square(int id, double left) {
    Particle piece;
    piece.id = id;
    piece.outline = {{left, 20.0}, {left + 1.0, 20.0}, {left + 1.0, 21.0}, {left, 21.0}};
    piece.centre = {left + 0.5, 20.5};
    piece.maxFeret = {Millimetres(std::sqrt(2.0)), Millimetres(0.03)};
    piece.minFeret = {Millimetres(1.0), Millimetres(0.03)};
    piece.area = {SquareMillimetres(1.0), SquareMillimetres(0.05)};
    piece.type = ParticleType::brightMetal;
    piece.said.photo = TypeSaid{piece.type, 0.7};
    return piece;
}

/// A white card with squares of 1 mm: 1 and 2 half a millimetre apart, 3 by itself.
Measurement threeSquares() {
    Measurement finding = inWindow(findingOf(photoBytes(1), Place::pad));
    finding.debris->onWhiteCard = true;
    finding.debris->resolutionLimit = Millimetres(0.2);
    finding.debris->particles = {square(1, 10.0), square(2, 11.5), square(3, 30.0)};
    countAnew(*finding.debris, {Millimetres(60.0), Millimetres(40.0)});
    return finding;
}

struct JoinedPhoto {
    Book book = Book::inMemory();
    std::int64_t visit =
        book.addVisit(visitOn(book.addVehicle(labelled("DEMO-01")).id, "2025-03-14", 1000.0)).id;
    std::int64_t photo =
        book.addPhoto(newPhoto(visit, Place::pad), photoBytes(1), threeSquares()).photo.id;
    const PointOnCard first{10.5, 20.5}, second{12.0, 20.5}, third{30.5, 20.5};

    [[nodiscard]] StoredPhoto now() const { return book.photo(photo); }
    [[nodiscard]] std::size_t pieces() const { return now().measurement.debris->particles.size(); }
    [[nodiscard]] int counted() const {
        int all = 0;
        const StoredPhoto stored = now();
        for (const ClassCount& row : stored.measurement.debris->counts)
            all += row.count;
        return all;
    }
    void regroup(const std::vector<PointOnCard>& at) {
        book.regroupPieces(photo, {at, {"M.", "one chip under a thread"}, ""});
    }
};

} // namespace

// The hull of both squares is 2.5 mm x 1 mm: its diagonal is sqrt(7.25) mm (plane geometry).
TEST_CASE("pieces that are one count once, are as long as both, and come apart again by undo") {
    JoinedPhoto one;
    one.regroup({one.first, one.second});
    CHECK(one.pieces() == 2);
    CHECK(one.counted() == 2);
    const StoredPhoto joined = one.now();
    const Particle& piece = joined.measurement.debris->particles.front(); // largest first
    CHECK(piece.id == 1);
    CHECK(piece.maxFeret.value.value() == Approx(std::sqrt(7.25)));
    REQUIRE(joined.regrouped.size() == 1);
    CHECK(joined.regrouped[0].measured == std::vector<int>{1, 2});
    CHECK(regroupingOf(joined, 1) == joined.regrouped.data());
    CHECK(regroupingOf(joined, 3) == nullptr);
    CHECK(regroupedSentence(joined.regrouped[0]) == "Pieces 1 and 2 are one piece, 1 (by M.).");
    CHECK(evidenceOfVisit(one.book, one.visit).now.samples.at(0).finding->particles.size() == 2);
    // what is said of its type goes with it
    one.book.correctPiece(one.photo, {piece.centre, "lining", {}, ""});
    CHECK(one.now().measurement.debris->particles.front().type == ParticleType::lining);
    one.book.undoRegrouping(one.photo, piece.centre, {});
    CHECK(one.pieces() == 3);
    CHECK(one.counted() == 3);
    CHECK(one.now().corrected.empty());
    CHECK(one.now().regrouped.empty());
    // the measurement itself stays as it was made
    CHECK(one.book.findings(one.photo).at(0).measurement.debris->particles.size() == 3);
    one.regroup({one.second, one.first}); // and once more
    CHECK(one.pieces() == 2);
}

TEST_CASE("a piece that was joined joins with all its parts, and one undo takes them apart") {
    JoinedPhoto one;
    Measurement near = threeSquares();
    near.debris->particles[2] = square(3, 13.0);
    one.book.addFinding(one.photo, near, "{}", "0.2.0");
    one.regroup({one.first, one.second});
    one.regroup({one.now().measurement.debris->particles.front().centre, {13.5, 20.5}});
    const StoredPhoto all = one.now();
    REQUIRE(all.regrouped.size() == 1);
    CHECK(all.regrouped[0].measured.size() == 3);
    CHECK(one.pieces() == 1);
    one.book.undoRegrouping(one.photo, all.measurement.debris->particles.front().centre, {});
    CHECK(one.pieces() == 3);
}

TEST_CASE("a piece that is two counts twice, with sizes that say how little is known") {
    JoinedPhoto one;
    one.regroup({one.third});
    CHECK(one.pieces() == 4);
    CHECK(one.counted() == 4);
    const StoredPhoto divided = one.now();
    CHECK(divided.regrouped.at(0).now == std::vector<int>{3, 4});
    CHECK(regroupedSentence(divided.regrouped[0]) == "Piece 3 is two pieces, 3 and 4 (by M.).");
    for (const Particle& piece : divided.measurement.debris->particles)
        if (piece.id > 2) // a square has no waist, so any part of it may hide under the other
            CHECK(piece.maxFeret.standardUncertainty.value() > 0.5);
    CHECK_THROWS_WITH(one.regroup({one.third, one.first}), Contains("divided by hand"));
    for (const Particle& piece : divided.measurement.debris->particles)
        if (piece.id == 4)
            one.book.undoRegrouping(one.photo, piece.centre, {});
    CHECK(one.pieces() == 3);
}

// A square of 1 mm cut twice is three pieces of 1 mm² in all (plane geometry).
TEST_CASE("a part of what was divided can be divided again, and undo goes the way back") {
    JoinedPhoto one;
    const auto centreOf = [&](int number) {
        const StoredPhoto photo = one.now();
        for (const Particle& piece : photo.measurement.debris->particles)
            if (piece.id == number)
                return piece.centre;
        throw std::logic_error("no such piece");
    };
    one.regroup({one.third});
    one.regroup({centreOf(4)});
    one.regroup({centreOf(3)});
    CHECK(one.pieces() == 6);
    CHECK(one.counted() == 6);
    const StoredPhoto four = one.now();
    REQUIRE(four.regrouped.size() == 3);
    CHECK(regroupedSentence(four.regrouped[1]) == "Piece 4 is two pieces, 4 and 5 (by M.).");
    CHECK(regroupedSentence(four.regrouped[2]) == "Piece 3 is two pieces, 3 and 6 (by M.).");
    CHECK(regroupingOf(four, 4) == &four.regrouped[1]);
    double area = 0.0;
    for (const Particle& piece : four.measurement.debris->particles)
        area += piece.id > 2 ? piece.area.value.value() : 0.0;
    CHECK(area == Approx(1.0));
    one.book.undoRegrouping(one.photo, centreOf(6), {}); // the last division alone
    CHECK(one.pieces() == 5);
    // the first division, with the one that rests on it and what was said of a part
    one.book.correctPiece(one.photo, {centreOf(5), "lining", {}, ""});
    one.book.undoRegrouping(one.photo, centreOf(3), {});
    CHECK(one.pieces() == 3);
    CHECK(one.now().regrouped.empty());
    CHECK(one.now().corrected.empty());
}

TEST_CASE("what is joined is found again by its places when the photo is measured anew") {
    JoinedPhoto one;
    one.regroup({one.first, one.second});
    Measurement again = threeSquares();
    std::vector<Particle>& pieces = again.debris->particles;
    std::swap(pieces[0], pieces[2]);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        pieces[i].id = static_cast<int>(i) + 11;
        pieces[i].centre.x += 0.08;
    }
    one.book.addFinding(one.photo, again, "{}", "0.2.0");
    CHECK(one.now().regrouped.at(0).measured == std::vector<int>{13, 12});
    CHECK(one.pieces() == 2);
    pieces.pop_back();
    one.book.addFinding(one.photo, again, "{}", "0.3.0");
    CHECK(one.now().regrouped.at(0).now.empty());
    CHECK_THAT(regroupedSentence(one.now().regrouped[0]), Contains("no longer found"));
    CHECK(one.pieces() == 2);
}

TEST_CASE("what cannot be one or two pieces is refused and changes nothing") {
    JoinedPhoto one;
    CHECK_THROWS_WITH(one.regroup({one.first, one.third}), Contains("farther than"));
    CHECK_THROWS_WITH(one.regroup({one.first, {50.0, 5.0}}), Contains("no piece at 50.0, 5.0"));
    CHECK_THROWS_WITH(one.regroup({one.first, one.first}), Contains("two or more"));
    CHECK_THROWS_AS(one.regroup({}), UsageError);
    CHECK_THROWS_WITH(one.book.undoRegrouping(one.photo, one.first, {}),
                      Contains("nothing to undo"));
    CHECK_THROWS_AS(one.book.regroupPieces(99, {{one.first}, {}, ""}), UsageError);
    CHECK(one.pieces() == 3);
    one.regroup({one.first, one.second});
    CHECK_THROWS_WITH(one.regroup({one.now().measurement.debris->particles.front().centre}),
                      Contains("joined by hand"));
}
