// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/check_study.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using Catch::Matchers::Contains;

namespace {

StoredCheck checkOf(int photo, double readingMm, const std::string& by) {
    StoredCheck check;
    check.photoSha256 = sha256Hex(test::photoBytes(photo, 100));
    check.knownText = "2.00mm";
    check.knownMm = 2.0;
    check.knownUMm = 0.003;
    check.thing = "shank";
    check.readingMm = readingMm;
    check.readingUMm = 0.012;
    check.seenBy = by;
    check.phone = "camera 3f2a91c0";
    check.layout = "close";
    check.serial = "C0001";
    check.printScaleChecked = true;
    check.programVersion = "test";
    return check;
}

} // namespace

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

TEST_CASE("names that make no sense are refused") {
    Book book = Book::inMemory();
    StoredCheck odd = checkOf(1, 2.0, "two\nlines");
    CHECK_THROWS_AS(book.addCheck(odd), UsageError);
    CHECK(book.checks().empty());
}

// 2.00, 2.02 and 2.01, 2.03: ranges 0.02, divisor for two ranges of two values
// sqrt(1.12838^2 + 0.85250^2 / 2) = 1.27931; means differ by 0.01.
TEST_CASE("two people's readings of one thing give repeatability and reproducibility") {
    std::vector<StoredCheck> checks{checkOf(1, 2.00, "A"), checkOf(2, 2.02, "A"),
                                    checkOf(3, 2.01, "B"), checkOf(4, 2.03, "B"),
                                    checkOf(5, 2.30, "")};
    const CheckStudy study = studyChecks(checks);
    CHECK(study.readings == 5);
    CHECK(study.agreeing == 3);
    REQUIRE(study.study);
    CHECK(study.people == std::vector<std::string>{"A", "B"});
    CHECK(study.study->trials == 2);
    CHECK(study.study->repeatability == Approx(0.02 / 1.27931).epsilon(1e-4));
    CHECK(study.study->reproducibility == 0.0); // 0.01 / 1.41421 less chance
    const auto sentences = studySentences(study);
    REQUIRE(sentences.size() == 4);
    CHECK_THAT(sentences[0], Contains("3 of 5"));
    CHECK_THAT(sentences[1], Contains("Repeatability"));
    CHECK_THAT(sentences[2], Contains("Reproducibility"));
}

TEST_CASE("what is missing for a study is said") {
    const CheckStudy once = studyChecks({checkOf(1, 2.0, "A")});
    CHECK_FALSE(once.study);
    CHECK_THAT(studySentences(once).back(), Contains("--by NAME"));
    const CheckStudy alone = studyChecks({checkOf(1, 2.0, "A"), checkOf(2, 2.01, "A")});
    REQUIRE(alone.study);
    CHECK_THAT(studySentences(alone)[2], Contains("second person"));
    StoredCheck other = checkOf(3, 5.0, "B");
    other.knownMm = 5.0;
    StoredCheck again = checkOf(4, 5.01, "B");
    again.knownMm = 5.0;
    const CheckStudy apart =
        studyChecks({checkOf(1, 2.0, "A"), checkOf(2, 2.01, "A"), other, again});
    CHECK_FALSE(apart.study);
    CHECK_THAT(apart.whyNone, Contains("same thing"));
    CHECK_THROWS_AS(studyChecks({}), std::logic_error);
}

TEST_CASE("a check is told in a sentence") {
    StoredCheck check = checkOf(1, 2.008, "A");
    check.checkedAt = "2026-03-01T10:00:00Z";
    CHECK(checkSentence(check) ==
          "Checked on 2026-03-01 with a shank of 2.00mm, card C0001, camera "
          "3f2a91c0: read 2.008 \u00b1 0.025 mm, which agrees.");
    check.readingMm = 2.1;
    CHECK_THAT(checkSentence(check), Contains("off by +0.100 mm and does not agree"));
}
