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
    another.knownText = "3.00mm";
    another.knownMm = 3.0;
    book.addCheck(another);
    const auto all = book.checks();
    REQUIRE(all.size() == 2);
    CHECK(all[0].knownText == "2.00mm");
    CHECK(all[1].knownText == "3.00mm");
}

TEST_CASE("names that make no sense are refused") {
    Book book = Book::inMemory();
    StoredCheck odd = checkOf(1, 2.0, "two\nlines");
    CHECK_THROWS_AS(book.addCheck(odd), UsageError);
    CHECK(book.checks().empty());
}
