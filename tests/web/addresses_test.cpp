// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/addresses.h"

#include <catch2/catch.hpp>

using namespace swarfbook::web;

// The first and last addresses of the blocks of RFC 1918, RFC 3927 and RFC 6598, and those beside.
TEST_CASE("addresses of a workshop's own network are separated from those of the internet") {
    for (const char* inside :
         {"10.0.0.0", "10.255.255.255", "172.16.0.0", "172.31.255.255", "192.168.0.0",
          "192.168.255.255", "169.254.0.0", "100.64.0.0", "100.127.255.255"}) {
        INFO(inside);
        CHECK(isPrivateAddress(inside));
    }
    for (const char* outside :
         {"9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0", "192.167.255.255",
          "192.169.0.0", "100.63.255.255", "100.128.0.0", "169.253.255.255", "", "x", "10.0.0"}) {
        INFO(outside);
        CHECK_FALSE(isPrivateAddress(outside));
    }
}

TEST_CASE("the loopback is no address of a network") {
    for (const std::string& address : networkAddresses())
        CHECK_FALSE(address.starts_with("127."));
}
