// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/part_names.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// How people write names at the bench: common practice, no source.
TEST_CASE("a name means its letter where it is that letter or ends in it as a word") {
    for (const char* name : {"A", "a", "shift A", "sol. A", "pressure-A"})
        CHECK(meansLetter(name, "A"));
    for (const char* name : {"AB", "delta", "A shift", "B"})
        CHECK_FALSE(meansLetter(name, "A"));
}

TEST_CASE("an entry for the rest is known by its words") {
    for (const char* name : {"all", "Rest", "others", "the rest"})
        CHECK(standsForOthers(name));
    CHECK_FALSE(standsForOthers("A"));
}
