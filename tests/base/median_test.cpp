// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/median.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// The usual definition of the median; worked by hand.
TEST_CASE("a median is the middle value, or the mean of the two in the middle") {
    CHECK(medianOf({7.0}) == 7.0);
    CHECK(medianOf({9.0, 1.0, 4.0}) == 4.0);
    CHECK(medianOf({9.0, 1.0, 4.0, 2.0}) == 3.0);
}

TEST_CASE("an upper median is one of the values") {
    CHECK(upperMedianOf({7.0}) == 7.0);
    CHECK(upperMedianOf({9.0, 1.0, 4.0}) == 4.0);
    CHECK(upperMedianOf({9.0, 1.0, 4.0, 2.0}) == 4.0);
}
