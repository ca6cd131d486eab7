// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/near_words.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Levenshtein's distance of "kitten" and "sitting" is 3: the usual worked example.
TEST_CASE("words that were nearly typed are found, others are not") {
    const std::vector<std::string> known{"DEMO-01", "DEMO-03", "VAN", "Kestrel 12"};
    CHECK(nearWords("demo-3", known) == std::vector<std::string>{"DEMO-03", "DEMO-01"});
    CHECK(nearWords("kestrel", known) == std::vector<std::string>{"Kestrel 12"});
    CHECK(nearWords("something else", known).empty());
    CHECK(nearWords("", {}).empty());
    CHECK(nearWords("kittens", {"sitting"}).empty()); // 3 of 7 letters are too many
    CHECK(didYouMean("demo-3", known) == "Did you mean DEMO-03, DEMO-01?");
    CHECK(didYouMean("something else", known).empty());
}
