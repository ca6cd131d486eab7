// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/check_of.h"
#include "report/check_study.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace swarfbook;
using Catch::Matchers::Contains;
using swarfbook::test::checkOf;

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
    CHECK(study.study->reproducibility == 0.0); // 0.01 / 1.41421 less the share of chance
    const auto sentences = studySentences(study);
    REQUIRE(sentences.size() == 4);
    CHECK_THAT(sentences[0], Contains("3 of 5"));
    CHECK_THAT(sentences[1], Contains("Repeatability"));
    CHECK_THAT(sentences[2], Contains("Reproducibility"));
}

TEST_CASE("a missing study says what is missing for it") {
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

TEST_CASE("a check is reported in a sentence") {
    StoredCheck check = checkOf(1, 2.008, "A");
    check.checkedAt = "2026-03-01T10:00:00Z";
    CHECK(checkSentence(check) ==
          "Checked on 2026-03-01 with a shank of 2.00mm, card C0001, camera "
          "3f2a91c0: read 2.008 \u00b1 0.025 mm, which agrees.");
    check.readingMm = 2.1;
    CHECK_THAT(checkSentence(check), Contains("off by +0.100 mm and does not agree"));
}
