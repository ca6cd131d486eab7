// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"

#include <catch2/catch.hpp>

#include <string>

using namespace swarfbook;

// Source: FIPS 180-4 examples, as published by NIST ("abc" and the empty message); from memory.
TEST_CASE("SHA-256 gives the standard's example digests") {
    const std::string abc = "abc";
    CHECK(sha256Hex(std::as_bytes(std::span(abc))) ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256Hex({}) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("a digest of pieces is that of the whole") {
    const std::string text = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
    Sha256 digest;
    digest.add(std::as_bytes(std::span(text).first(10)));
    digest.add({});
    digest.add(std::as_bytes(std::span(text).subspan(10)));
    // Source: FIPS 180-4 example of two blocks, as published by NIST; from memory.
    CHECK(digest.hex() == "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}
