// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The program under a limit of its address space.
ProgramResult within(const Shop& shop, int mebibytes, std::vector<std::string> words) {
    RunOptions options;
    options.program = "/bin/sh";
    options.folder = shop.folder.path();
    options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
    words.insert(words.begin(),
                 {"-c", "ulimit -v " + std::to_string(mebibytes * 1024) + "; exec \"$0\" \"$@\"",
                  SWARFBOOK_PROGRAM});
    return runProgram(words, options);
}

bool isSanitized() {
#ifdef SWARFBOOK_SANITIZED
    return true;
#else
    return false;
#endif
}

} // namespace

TEST_CASE("with too little memory each verb does its work or says so in one sentence, exit 3") {
    if (isSanitized()) {
        WARN("passed over: the address sanitizer takes more room than any limit leaves");
        return;
    }
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03", "--unit", "Demo 5"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--since-clean", "30000"})
                .exit == 0);
    REQUIRE(shop.run({"observe", "--visit", "1", "gear", "3", "slip"}).exit == 0);
    const std::string photo =
        (fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images" / "history-1.jpg").string();
    const std::vector<std::vector<std::string>> all{
        {"measure", photo},
        {"add", "--visit", "1", photo, "--place", "pad"},
        {"report", "--visit", "1", "--out", "r.pdf"},
        {"report", "--visit", "1", "--text"},
        {"vehicle", "list"}};
    int tooLittle = 0;
    for (const int mebibytes : {150, 200, 250, 300})
        for (const auto& words : all) {
            const ProgramResult outcome = within(shop, mebibytes, words);
            if (outcome.exit == 127)
                continue; // the program could not even be loaded
            INFO(words[0] << " in " << mebibytes << " MiB: " << outcome.err);
            CHECK((outcome.exit == 0 || outcome.exit == 3));
            if (outcome.exit != 3)
                continue;
            ++tooLittle;
            CHECK_THAT(outcome.err, Contains("not enough memory"));
            CHECK_THAT(outcome.err, !Contains("OpenCV") && !Contains("std::"));
        }
    CHECK(tooLittle > 0);
}
