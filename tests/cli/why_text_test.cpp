// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/why_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Matchers::Contains;

TEST_CASE("observations that were not tried the other way are named, whether or not others turn "
          "the suggestion") {
    Suggestion suggestion;
    CHECK_THAT(cli::turnsText(suggestion), !Contains("newest"));
    suggestion.notTried = "Only the newest 100 observations were tried.";
    const std::string none = cli::turnsText(suggestion);
    CHECK_THAT(none, Contains("No other single test would change this") &&
                         Contains("\nOnly the newest 100 observations were tried.\n\n"));
    suggestion.turns.push_back(
        {"level: low", Recommendation::outsideTheUnit, "Outside the unit", "", true, 5.0, 0});
    CHECK_THAT(cli::turnsText(suggestion),
               Contains("level: low") &&
                   Contains("\nOnly the newest 100 observations were tried.\n\n"));
}
