// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/check_of.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using swarfbook::test::checkOf;

TEST_CASE("a check is kept with card and phone and comes back as it was") {
    Book book = Book::inMemory();
    CHECK(book.checks().empty());
    const StoredCheck kept = book.addCheck(checkOf(1, 2.008, "R. Demo"));
    CHECK(kept.id == 1);
    CHECK(kept.checkedAt.size() == 20);
    const auto all = book.checks();
    REQUIRE(all.size() == 1);
    CHECK(all[0].photoSha256 == kept.photoSha256);
    CHECK(all[0].knownText == "2.00mm");
    CHECK(all[0].knownMm == 2.0);
    CHECK(all[0].knownUMm == 0.003);
    CHECK(all[0].thing == "shank");
    CHECK(all[0].readingMm == 2.008);
    CHECK(all[0].readingUMm == 0.012);
    CHECK(all[0].seenBy == "R. Demo");
    CHECK(all[0].phone == "camera 3f2a91c0");
    CHECK(all[0].serial == "C0001");
    CHECK(all[0].printScaleChecked);
    CHECK(all[0].checkedAt == kept.checkedAt);
    REQUIRE(all[0].at);
    CHECK(all[0].at->x == 40.0);
    CHECK(all[0].at->y == 30.0);
    // Twice the root of the squares' sum, by hand.
    CHECK(all[0].expandedMm() == Approx(2.0 * std::sqrt(0.012 * 0.012 + 0.003 * 0.003)));
    CHECK(all[0].agrees());
}

TEST_CASE("a photo read again counts once, with its newest reading") {
    Book book = Book::inMemory();
    book.addCheck(checkOf(1, 2.2, ""));
    book.addCheck(checkOf(2, 2.01, ""));
    book.addCheck(checkOf(1, 2.02, ""));
    const auto all = book.checks();
    REQUIRE(all.size() == 2);
    CHECK(all[1].readingMm == 2.02);
}

TEST_CASE("a known size that was typed wrongly is put right by reading the photo again") {
    Book book = Book::inMemory();
    StoredCheck wrong = checkOf(1, 2.008, "");
    wrong.knownText = "2.50mm";
    wrong.knownMm = 2.5;
    book.addCheck(wrong);
    book.addCheck(checkOf(1, 2.008, ""));
    StoredCheck another = checkOf(1, 3.01, ""); // a second thing in the same photo
    another.at = PointOnCard{20.0, 30.0};
    another.knownText = "3.00mm";
    another.knownMm = 3.0;
    book.addCheck(another);
    const auto all = book.checks();
    REQUIRE(all.size() == 2);
    CHECK(all[0].knownText == "2.00mm");
    CHECK(all[1].knownText == "3.00mm");
}

TEST_CASE("two things of one size in a photo are two readings, by their places") {
    Book book = Book::inMemory();
    book.addCheck(checkOf(1, 2.008, ""));
    StoredCheck beside = checkOf(1, 2.009, "");
    beside.at = PointOnCard{40.0, 34.0}; // two of 2 mm that touch lie 2 mm apart at least
    book.addCheck(beside);
    StoredCheck touching = checkOf(1, 2.007, "");
    touching.at = PointOnCard{40.0, 32.0};
    book.addCheck(touching);
    CHECK(book.checks().size() == 3);
    StoredCheck again = beside; // read with another check bar, which moves it a little
    again.readingMm = 2.03;
    again.at = PointOnCard{40.2, 34.1};
    book.addCheck(again);
    const auto all = book.checks();
    REQUIRE(all.size() == 3);
    CHECK(all[2].readingMm == 2.03);
}

TEST_CASE("a thin thing read again where the card's scale moved it counts once") {
    Book book = Book::inMemory();
    StoredCheck wire = checkOf(1, 0.5, "");
    wire.knownMm = 0.5;
    book.addCheck(wire);
    wire.knownMm = 0.55;
    wire.readingMm = 0.52;
    wire.at = PointOnCard{40.6, 30.5}; // 1.5 % of 40 mm along and of 30 mm up
    book.addCheck(wire);
    CHECK(book.checks().size() == 1);
}

TEST_CASE("readings without a place are of one thing by their size, a ball and a bar never") {
    Book book = Book::inMemory();
    const auto withoutPlace = [](StoredCheck check) {
        check.at.reset();
        return check;
    };
    book.addCheck(withoutPlace(checkOf(1, 2.008, "")));
    StoredCheck ball = withoutPlace(checkOf(1, 2.01, ""));
    ball.thing = "ball";
    book.addCheck(ball);
    CHECK(book.checks().size() == 2);
    book.addCheck(checkOf(1, 2.02, "")); // of the known size again, with its place
    const auto all = book.checks();
    REQUIRE(all.size() == 2);
    CHECK(all[0].thing == "ball");
    CHECK(all[1].readingMm == 2.02);
}

TEST_CASE("a withdrawn reading counts nowhere; what it had replaced counts until it is back") {
    Book book = Book::inMemory();
    book.addCheck(checkOf(1, 2.3, ""));
    const std::int64_t newer = book.addCheck(checkOf(1, 2.01, "")).id;
    book.addCheck(checkOf(2, 2.02, ""));
    const auto readings = [&] {
        std::vector<double> all;
        for (const StoredCheck& one : book.checks())
            all.push_back(one.readingMm);
        return all;
    };
    REQUIRE(readings() == std::vector<double>{2.01, 2.02});
    book.withdrawCheck(newer, {"M.", "another thing was read"});
    CHECK(readings() == std::vector<double>{2.3, 2.02});
    REQUIRE(book.withdrawnChecks().size() == 1);
    CHECK(book.withdrawnChecks()[0].number == newer);
    CHECK(book.withdrawnChecks()[0].reason.by == "M.");
    CHECK(book.withdrawnChecks()[0].reason.why == "another thing was read");
    book.withdrawCheck(1, {"", "that too"});
    CHECK(readings() == std::vector<double>{2.02});
    book.bringBackCheck(newer, {"M.", ""});
    CHECK(readings() == std::vector<double>{2.01, 2.02});
    CHECK(book.withdrawnChecks().size() == 1);
}

TEST_CASE("names that make no sense are refused") {
    Book book = Book::inMemory();
    StoredCheck odd = checkOf(1, 2.0, "two\nlines");
    CHECK_THROWS_AS(book.addCheck(odd), UsageError);
    CHECK(book.checks().empty());
}
