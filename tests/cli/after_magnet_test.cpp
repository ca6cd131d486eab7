// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace swarfbook::test;
using Catch::Contains;

namespace {

void checkRefused(const Shop& shop, int exit, const std::string& sentence,
                  const std::vector<std::string>& words) {
    const ProgramResult outcome = shop.run(words);
    INFO(outcome.out << outcome.err);
    CHECK(outcome.exit == exit);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(sentence));
}

} // namespace

TEST_CASE("a magnet is drawn over one place that is no magnet, and its photo must be one") {
    const Shop shop;
    checkRefused(shop, 2, "another place",
                 {"measure", demoPhoto(), "--place", "magnet", "--after-magnet", demoPhoto()});
    checkRefused(shop, 2, "give one photo",
                 {"measure", demoPhoto(), demoPhoto(), "--after-magnet", demoPhoto()});
    checkRefused(shop, 2, "--after-magnet needs the name of a file",
                 {"measure", demoPhoto(), "--after-magnet", ""});
    checkRefused(shop, 1, "There is no file typo.jpg",
                 {"measure", demoPhoto(), "--after-magnet", "typo.jpg"});
    checkRefused(shop, 1, "nothing was measured",
                 {"measure", demoPhoto(), "--after-magnet", "typo.jpg"});
}

TEST_CASE("one photo given twice is measured, and nothing is said to be magnetic") {
    const Shop shop;
    const ProgramResult outcome = shop.run({"measure", demoPhoto(), "--after-magnet", demoPhoto()});
    CHECK(outcome.exit == 1);
    CHECK_THAT(outcome.err, Contains("very photo"));
    CHECK_THAT(outcome.out, Contains("size limit") && Contains("the second photo was not used") &&
                                !Contains("gone"));
}
