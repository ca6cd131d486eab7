// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace swarfbook::test;
using Catch::Contains;

namespace {

void checkNotTaken(const Shop& shop, int exit, const std::string& sentence,
                   const std::vector<std::string>& words) {
    const ProgramResult outcome = shop.run(words);
    INFO(outcome.out << outcome.err);
    CHECK(outcome.exit == exit);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, Contains(sentence));
}

} // namespace

TEST_CASE("a second light falls on one scene, not on a magnet nor with a sweep") {
    const Shop shop;
    checkNotTaken(shop, 2, "another place",
                  {"measure", demoPhoto(), "--place", "magnet", "--second-light", demoPhoto()});
    checkNotTaken(shop, 2, "give one photo",
                  {"measure", demoPhoto(), demoPhoto(), "--second-light", demoPhoto()});
    checkNotTaken(
        shop, 2, "not both",
        {"measure", demoPhoto(), "--second-light", demoPhoto(), "--after-magnet", demoPhoto()});
    checkNotTaken(shop, 1, "There is no file typo.jpg",
                  {"measure", demoPhoto(), "--second-light", "typo.jpg"});
}

TEST_CASE("one photo given twice is measured by itself and the other refused with advice") {
    const Shop shop;
    const ProgramResult outcome = shop.run({"measure", demoPhoto(), "--second-light", demoPhoto()});
    CHECK(outcome.exit == 1);
    CHECK_THAT(outcome.err, Contains("very photo") && Contains("move the lamp"));
    CHECK_THAT(outcome.out, Contains("size limit") && Contains("second light: the second photo was "
                                                               "not used"));
}
