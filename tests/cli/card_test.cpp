// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/card_serial.h"
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook::test;

namespace {

/// From a line such as "Card K7Q-M4X: ...".
std::string serialIn(const std::string& line) {
    const std::size_t colon = line.find(':');
    REQUIRE(line.starts_with("Card "));
    REQUIRE(colon != std::string::npos);
    return line.substr(5, colon - 5);
}

} // namespace

TEST_CASE("a card is printed with a serial of its own, and its bar is kept for that serial",
          "[program]") {
    const Shop shop;
    const ProgramResult first = shop.run({"card", "--layout", "close", "--out", "card.pdf"});
    CHECK(first.exit == 0);
    const std::string serial = serialIn(first.out);
    CHECK(swarfbook::isCodedSerial(serial));
    CHECK(first.out == "Card " + serial + ": close layout, white card, on A4 paper, in card.pdf\n");
    CHECK_THAT(first.err, Catch::Contains("swarfbook card --serial " + serial + " --measured-bar"));
    CHECK(contentOf(shop.folder.path() / "card.pdf").substr(0, 5) == "%PDF-");

    const ProgramResult second =
        shop.run({"card", "--layout", "wide", "--cut", "--paper", "letter", "--out", "wide.pdf"});
    CHECK(serialIn(second.out) != serial);
    CHECK_THAT(second.out, Catch::Contains(": wide layout, frame, on Letter paper, in wide.pdf\n"));

    // 79.6 / 80 = 0.9950; a reading good to 0.1 mm either way: 0.1 / sqrt 3 / 80 = 0.0007
    const ProgramResult kept = shop.run({"card", "--serial", serial, "--measured-bar", "79.6"});
    CHECK(kept.exit == 0);
    CHECK(kept.out == "Card " + serial +
                          ": check bar 79.60 mm, drawn 80.0 mm; print scale 0.9950, "
                          "standard uncertainty 0.0007\n");

    const ProgramResult again = shop.run({"card", "--serial", serial, "--out", "again.pdf"});
    CHECK(again.out ==
          "Card " + serial + ": close layout, white card, on A4 paper, in again.pdf\n");
    CHECK_THAT(again.err, Catch::Contains("The book has 79.60 mm"));
}

TEST_CASE("a card printed as fit to page is told so", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"card", "--layout", "close", "--out", "card.pdf"}).exit == 0);
    const ProgramResult small = shop.run({"card", "--layout", "close", "--measured-bar", "76.8"});
    CHECK(small.exit == 0);
    CHECK_THAT(small.err, Catch::Contains("4.0 % too small"));
}

TEST_CASE("what makes no sense of a card is wrong use and leaves nothing behind", "[program]") {
    const Shop shop;
    std::ofstream(shop.folder.path() / "notes.pdf") << "no PDF at all";
    std::filesystem::create_directory(shop.folder.path() / "folder.pdf");
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong{
        {{}, "Say what to do"},
        {{"--out", "card.pdf"}, "Which layout?"},
        {{"--layout", "close"}, "Say what to do"},
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
    const ProgramResult printed = shop.run({"card", "--layout", "close", "--out", "card.pdf"});
    const std::string serial = serialIn(printed.out);
    const ProgramResult unknown = shop.run({"card", "--serial", "C0009", "--measured-bar", "79.6"});
    CHECK(unknown.exit == 2);
    CHECK_THAT(unknown.err, Catch::Contains("no card C0009") && Catch::Contains(serial));
    for (const std::string reading : {"7.96", "-79.6", "0", "150", "nan", "eighty"}) {
        INFO(reading);
        const ProgramResult outcome =
            shop.run({"card", "--serial", serial, "--measured-bar", reading});
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
    }
    const ProgramResult other =
        shop.run({"card", "--serial", serial, "--layout", "wide", "--out", "x.pdf"});
    CHECK(other.exit == 2);
    CHECK_THAT(other.err, Catch::Contains("is a close card"));
    CHECK_FALSE(shop.has("x.pdf"));
}

TEST_CASE("the bar of the card printed last is kept by its layout alone", "[program]") {
    const Shop shop;
    const auto print = [&](const std::string& layout) {
        return serialIn(shop.run({"card", "--layout", layout, "--out", "card.pdf", "--force"}).out);
    };
    (void)print("close");
    const std::string last = print("close");
    (void)print("wide");
    const ProgramResult kept = shop.run({"card", "--layout", "close", "--measured-bar", "79.6"});
    CHECK(kept.exit == 0);
    CHECK(serialIn(kept.out) == last);
}

TEST_CASE("a card that another book printed is kept with its layout and its bar", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"card", "--layout", "close", "--out", "card.pdf"}).exit == 0);
    const std::string other = "K7Q-M4X";
    CHECK(shop.run({"card", "--serial", other, "--measured-bar", "149.5"}).exit == 2);
    const ProgramResult kept =
        shop.run({"card", "--serial", other, "--layout", "wide", "--measured-bar", "149.5"});
    CHECK(kept.exit == 0);
    CHECK(serialIn(kept.out) == other);
    CHECK(shop.run({"card", "--serial", "C0009", "--layout", "wide", "--measured-bar", "149.5"})
              .exit == 2);
}
