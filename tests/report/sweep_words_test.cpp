// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/sweep_words.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Contains;

TEST_CASE("a report says in sentences what the magnet took, left and did not tell") {
    AfterMagnet after;
    after.sweep = MagnetSweep();
    after.sweep->judgedFrom = Millimetres(0.314);
    after.sweep->placeByPieces = true;
    after.sweep->pieces = {54, 60, 19, MagneticShare{0.4737, 0.326, 0.631},
                           MagneticShare{0.399, 0.246, 0.588}};
    after.sweep->bright = {49, 7, 10, std::nullopt, std::nullopt};
    const std::vector<std::string> told = sweepSentences(after);
    REQUIRE(told.size() == 3);
    CHECK(told[0] == "After the magnet: of 133 pieces of 0.31 mm or more 54 gone, 60 left, 19 not "
                     "known.");
    CHECK(told[1] == "Magnetic (95 % interval): 47 % (33 to 63 %) by count, 40 % (25 to 59 %) by "
                     "area.");
    CHECK_THAT(told[2], Contains("Bright, not magnetic: the magnet left 7 pieces of bright metal"));
    after.sweep->placeByPieces = false;
    CHECK_THAT(sweepSentences(after).back(), Contains("what is gone rests on that."));
}

TEST_CASE("a photo after the magnet that was not used is told with the reason") {
    AfterMagnet after;
    after.whyNot = "It is blurred. Hold the phone steadier.";
    CHECK(sweepSentences(after) ==
          std::vector<std::string>{"The photo after the magnet was not used, so what is magnetic "
                                   "is not known. It is blurred. Hold the phone steadier."});
}
