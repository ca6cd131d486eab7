// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/rate_limit.h"

#include <catch2/catch.hpp>

using namespace swarfbook::web;
using namespace std::chrono_literals;

// A bucket of 3 that fills by 2 a second (the arithmetic of RFC 2697, section 3).
TEST_CASE("as many as the store holds at once, then as many as it fills by") {
    RateLimit limit(3, 2);
    const RateLimit::Moment start{};
    for (int i = 0; i < 3; ++i)
        CHECK(limit.allows("a", start));
    CHECK_FALSE(limit.allows("a", start));
    CHECK(limit.allows("b", start)); // another one's store is its own
    CHECK_FALSE(limit.allows("a", start + 499ms));
    CHECK(limit.allows("a", start + 500ms));
    CHECK_FALSE(limit.allows("a", start + 501ms));
    for (int i = 0; i < 3; ++i)
        CHECK(limit.allows("a", start + 1h)); // it never holds more than 3
    CHECK_FALSE(limit.allows("a", start + 1h));
}

TEST_CASE("those that have been quiet are forgotten, those that were busy are not") {
    RateLimit limit(1, 1);
    const RateLimit::Moment start{};
    for (int i = 0; i < 2000; ++i)
        CHECK(limit.allows(std::to_string(i), start + i * 1s));
    CHECK(limit.allows("busy", start + 3000s));
    CHECK_FALSE(limit.allows("busy", start + 3000s));
}

// Common practice, no source: phones behind one router share its address.
TEST_CASE("a paired device that asks without end has to wait, another of its address does not") {
    RateLimit limit(2, 1);
    const RateLimit::Moment start{};
    const std::string address = "192.0.2.7"; // of documentation alone (RFC 5737)
    for (int i = 0; i < 2; ++i)
        CHECK(limit.allows(countedFor("1", address), start));
    CHECK_FALSE(limit.allows(countedFor("1", address), start));
    CHECK_FALSE(limit.allows(countedFor("1", "192.0.2.8"), start)); // wherever it asks from
    CHECK(limit.allows(countedFor("2", address), start));
    CHECK(limit.allows(countedFor("", address), start)); // one that is not paired
    CHECK(limit.allows(countedFor("", "192.0.2.8"), start));
}
