// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/card_serial.h"

#include <catch2/catch.hpp>

#include <set>

using namespace swarfbook;

TEST_CASE("serials of cards have one form and do not repeat") {
    std::set<std::string> given;
    constexpr int many = 1000;
    for (int i = 0; i < many; ++i) {
        const std::string serial = newCardSerial();
        CHECK(isCodedSerial(serial));
        given.insert(serial);
    }
    // among 1000 of 148 million two agree once in 300 runs; ten never do
    CHECK(given.size() > many - 10);
}

TEST_CASE("other texts are not taken for such a serial") {
    for (const char* other :
         {"", "C0001", "K7QM4X", "K7Q-M4", "K7Q-M4XX", "k7q-m4x", "K7Q-M0X", "K7QM-4X", "K7Q M4X"})
        CHECK_FALSE(isCodedSerial(other));
    CHECK(isCodedSerial("K7Q-M4X"));
}
