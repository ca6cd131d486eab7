// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

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

TEST_CASE("one photo given twice is measured, and nothing is said to be magnetic", "[photos]") {
    const Shop shop;
    const ProgramResult outcome = shop.run({"measure", demoPhoto(), "--after-magnet", demoPhoto()});
    CHECK(outcome.exit == 1);
    CHECK_THAT(outcome.err, Contains("is the same photo"));
    CHECK_THAT(outcome.out, Contains("size limit") && Contains("the second photo was not used") &&
                                !Contains("gone"));
}

TEST_CASE("a photo after the magnet goes into the book with its photo, and an impossible one is "
          "refused") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14"}).exit == 0);
    const auto add = [&](std::vector<std::string> words) {
        words.insert(words.begin(), {"add", "--visit", "1"});
        return words;
    };
    checkRefused(shop, 2, "another place",
                 add({demoPhoto(), "--place", "magnet", "--after-magnet", demoPhoto()}));
    checkRefused(shop, 2, "give one photo",
                 add({demoPhoto(), demoPhoto(), "--place", "pad", "--after-magnet", demoPhoto()}));
    checkRefused(shop, 1, "nothing was measured",
                 add({demoPhoto(), "--place", "pad", "--after-magnet", "typo.jpg"}));
    const ProgramResult same =
        shop.run(add({demoPhoto(), "--place", "pad", "--after-magnet", demoPhoto()}));
    INFO(same.out << same.err);
    CHECK(same.exit == 1);
    CHECK_THAT(same.out, Contains("the photo after the magnet was not used"));
    CHECK_THAT(same.err, Contains("is the same photo"));
    CHECK(shop.run({"book", "check"}).exit == 0);
}

// Source: two rendered photos of one pan, before and after a magnet was drawn over it: 98 of 200
// pieces are gone, all of steel.
TEST_CASE("a sweep is kept, shown, measured again, and used where the hand says nothing else",
          "[photos]") {
    const std::filesystem::path photos = std::filesystem::path(SWARFBOOK_SHARED_DIR) / "photos";
    if (!std::filesystem::exists(photos / "pan-sweep-after.jpg")) {
        WARN("Passed over: the photos of a sweep are not here (" << photos.string() << ").");
        return;
    }
    const Shop shop;
    const auto must = [&](const std::vector<std::string>& words) {
        const ProgramResult result = shop.run(words);
        INFO(result.out << result.err);
        CHECK(result.exit == 0);
        return result.out;
    };
    must({"vehicle", "add", "DEMO-03"});
    must({"visit", "add", "DEMO-03", "--date", "2025-03-14"});
    const std::string before = (photos / "pan-sweep-before.jpg").string();
    must({"add", "--visit", "1", before, "--place", "pan", "--measured-bar", "150"});
    CHECK_THAT(must({"add", "--visit", "1", before, "--place", "pan", "--measured-bar", "150",
                     "--after-magnet", (photos / "pan-sweep-after.jpg").string()}),
               Contains("measured again,") && Contains("the magnet took"));
    const auto kept = [&] {
        return nlohmann::json::parse(must({"visit", "show", "1", "--json"})).at("photos").at(0);
    };
    const auto swept = kept().at("measurement").at("after_magnet");
    CHECK(swept.at("used") == true);
    CHECK(swept.at("pieces").at("share_by_count").at("share").get<double>() ==
          Approx(0.49).margin(0.05));
    CHECK(kept().at("options").at("after_magnet").at("file") == "pan-sweep-after.jpg");
    CHECK_THAT(must({"visit", "show", "1"}), Contains("; the magnet") && Contains("took "));
    CHECK_THAT(must({"visit", "measure", "1"}), Contains("Nothing changed"));
    CHECK(kept().at("measurement").at("after_magnet") == swept);
    CHECK_THAT(must({"report", "--visit", "1", "--text", "--full"}),
               Contains("After the magnet: of") && Contains("Bright, not magnetic"));
    must({"observe", "--visit", "1", "complaint", "slip"});
    const std::string why = must({"suggest", "--visit", "1", "--why"});
    CHECK_THAT(why, Contains("a magnet took them"));
    CHECK_THAT(must({"export", "pieces"}),
               Contains(",magnetic,type_decided_by\r\n") && Contains(",true,magnet\r\n"));
    must({"backup", "--out", "copy"});
    must({"restore", "copy", "--book", "again"});
    CHECK_THAT(must({"visit", "measure", "1", "--book", "again"}), Contains("Nothing changed"));
}
