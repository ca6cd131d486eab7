// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shell_text.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstdio>
#include <memory>

using namespace swarfbook;

namespace {

/// One word as the system's own shell reads it.
std::string readByShell(const std::string& word) {
    const std::string command = "printf %s " + word;
    const std::unique_ptr<FILE, int (*)(FILE*)> output(popen(command.c_str(), "r"), &pclose);
    REQUIRE(output);
    std::string text;
    std::array<char, 256> piece{};
    for (std::size_t got = 0; (got = std::fread(piece.data(), 1, piece.size(), output.get())) > 0;)
        text.append(piece.data(), got);
    return text;
}

} // namespace

// Source: the system's shell, which reads the word back.
TEST_CASE("whatever a folder is called, a shell reads its quoted name as one word") {
    for (const std::string name : {"/home/worker/book", "/mnt/shop disk/the book", "it's", "''",
                                   "$(false) `false` \\ \"*\"", "; exit 1", "two\nlines", "-n"}) {
        INFO(name);
        CHECK(readByShell(quotedForShell(name)) == name);
    }
    CHECK(quotedForShell("/mnt/shop disk") == "'/mnt/shop disk'");
}
