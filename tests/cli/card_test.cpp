// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook::test;

TEST_CASE("a card is printed with the next serial, and its bar is kept for that serial",
          "[program]") {
    const Shop shop;
    const ProgramResult first = shop.run({"card", "--layout", "close", "--out", "card.pdf"});
    CHECK(first.exit == 0);
    CHECK(first.out == "Card C0001: close layout, white card, on A4 paper, in card.pdf\n");
    CHECK_THAT(first.err, Catch::Contains("swarfbook card --serial C0001 --measured-bar MM"));
    CHECK(contentOf(shop.folder.path() / "card.pdf").substr(0, 5) == "%PDF-");

    const ProgramResult second =
        shop.run({"card", "--layout", "wide", "--cut", "--paper", "letter", "--out", "wide.pdf"});
    CHECK(second.out == "Card C0002: wide layout, frame, on Letter paper, in wide.pdf\n");

    // 79.6 / 80 = 0.9950; a reading good to 0.1 mm either way: 0.1 / sqrt 3 / 80 = 0.0007
    const ProgramResult kept = shop.run({"card", "--serial", "C0001", "--measured-bar", "79.6"});
    CHECK(kept.exit == 0);
    CHECK(kept.out == "Card C0001: check bar 79.60 mm, drawn 80.0 mm; print scale 0.9950, "
                      "standard uncertainty 0.0007\n");

    const ProgramResult again = shop.run({"card", "--serial", "C0001", "--out", "again.pdf"});
    CHECK(again.out == "Card C0001: close layout, white card, on A4 paper, in again.pdf\n");
    CHECK_THAT(again.err, Catch::Contains("The book has 79.60 mm"));
}

TEST_CASE("a card printed as fit to page is told so", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"card", "--layout", "close", "--out", "card.pdf"}).exit == 0);
    const ProgramResult small = shop.run({"card", "--serial", "C0001", "--measured-bar", "76.8"});
    CHECK(small.exit == 0);
    CHECK_THAT(small.err, Catch::Contains("4.0 % too small"));
}

TEST_CASE("what makes no sense of a card is wrong use and leaves nothing behind", "[program]") {
    const Shop shop;
    std::ofstream(shop.folder.path() / "notes.pdf") << "no PDF at all";
    std::filesystem::create_directory(shop.folder.path() / "folder.pdf");
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong{
        {{}, "Where to?"},
        {{"--out", "card.pdf"}, "Which layout?"},
        {{"--layout", "close"}, "Where to?"},
        {{"--layout", "tiny", "--out", "card.pdf"}, "close or wide"},
        {{"--layout", "close", "--out", "card.png"}, ".pdf"},
        {{"--layout", "close", "--paper", "a3", "--out", "card.pdf"}, "--paper a4"},
        {{"--layout", "close", "--out", "absent/card.pdf"}, "There is no folder absent"},
        {{"--layout", "close", "--out", "folder.pdf"}, "is a folder"},
        {{"--layout", "close", "--out", "notes.pdf"}, "is there already"},
        {{"--measured-bar", "79.6"}, "Which card"},
        {{"--serial", "C0001", "--measured-bar", "79.6"}, "There is no book"}};
    for (const auto& [words, sentence] : wrong) {
        INFO(sentence);
        const ProgramResult outcome = shop.verb("card", words);
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, Catch::Contains(sentence));
        CHECK_FALSE(shop.has("card.pdf"));
        CHECK_FALSE(shop.has("book"));
    }
    CHECK(contentOf(shop.folder.path() / "notes.pdf") == "no PDF at all");
}

TEST_CASE("an unknown serial and an impossible reading are wrong use", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"card", "--layout", "close", "--out", "card.pdf"}).exit == 0);
    const ProgramResult unknown = shop.run({"card", "--serial", "C0009", "--measured-bar", "79.6"});
    CHECK(unknown.exit == 2);
    CHECK_THAT(unknown.err, Catch::Contains("no card C0009") && Catch::Contains("C0001"));
    for (const std::string reading : {"7.96", "-79.6", "0", "150", "nan", "eighty"}) {
        INFO(reading);
        const ProgramResult outcome =
            shop.run({"card", "--serial", "C0001", "--measured-bar", reading});
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
    }
    const ProgramResult other =
        shop.run({"card", "--serial", "C0001", "--layout", "wide", "--out", "x.pdf"});
    CHECK(other.exit == 2);
    CHECK_THAT(other.err, Catch::Contains("is a close card"));
    CHECK_FALSE(shop.has("x.pdf"));
}
