// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_in_terminal.h"
#include "cli/shop.h"
#include "record/book.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <regex>
#include <string>

using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A vehicle, a visit and a photo of the white card: photo 1.
void addDemoPhoto(const Shop& shop) {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"vehicle", "add", "DEMO-03"},
             {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "50000"},
             {"add", "--visit", "1", demoPhoto(), "--place", "pad", "--measured-bar", "80.0"}}) {
        const ProgramResult ran = shop.run(words);
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
    }
}

} // namespace

TEST_CASE("a visit measured again says what changed, and corrections find their pieces again",
          "[photos]") {
    const Shop shop;
    addDemoPhoto(shop);
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"piece", "--photo", "1", "1", "--is", "lining"},
             {"piece", "--photo", "1", "2", "--is", "not-debris"}})
        REQUIRE(shop.run(words).exit == 0);
    const auto sample = [&] {
        return nlohmann::json::parse(shop.run({"report", "--visit", "1", "--json"}).out)
            .at("samples")
            .at(0);
    };
    const nlohmann::json asMeasured = sample();
    CHECK_THAT(shop.run({"visit", "measure", "1"}).out, Contains("Nothing changed."));
    CHECK(sample() == asMeasured);
    { // as an older program may have measured it: other numbers, places a little off, some missing
        swarfbook::Book book = swarfbook::Book::open(shop.folder.path() / "book");
        swarfbook::StoredFinding older = book.findings(1).back();
        auto& pieces = older.measurement.debris->particles;
        pieces.resize(pieces.size() - 5);
        for (auto& piece : pieces) {
            piece.id += 100;
            piece.centre.x += 0.08;
        }
        book.addFinding(1, older.measurement, older.options, "0.0.1");
    }
    const auto corrected = [&] { return shop.run({"report", "--visit", "1", "--text", "--full"}); };
    CHECK_THAT(corrected().out,
               Contains("Piece 101, measured as") && Contains("Piece 102, measured as"));
    const ProgramResult again = shop.run({"visit", "measure", "1"});
    CHECK(again.exit == 0);
    CHECK_THAT(again.out, Contains("Pieces: 5 are new, 0 are no longer found.") &&
                              !Contains("is not found now"));
    CHECK(sample() == asMeasured);
}

TEST_CASE("a review shows the largest and the doubtful pieces, keeps each answer and undoes it") {
    const Shop shop;
    addDemoPhoto(shop);
    std::filesystem::create_directory(shop.folder.path() / "crops");
    const auto review = [&](const std::string& answers) {
        RunOptions options;
        options.folder = shop.folder.path();
        options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
        options.input = answers;
        return runAsUser({"piece", "--photo", "1", "--review", "--crops", "crops", "--force"},
                         options);
    };
    const ProgramResult first = review("lining\nnonsense\nnot-debris\nundo\n\nstop\n");
    INFO(first.out << first.err);
    const auto shownAs = [&](const std::string& position) { // "3" of "1 of 5. Piece 3: ..."
        std::smatch piece;
        const std::regex line(position + " of [0-9]+\\. Piece ([0-9]+):");
        REQUIRE(std::regex_search(first.out, piece, line));
        return piece[1].str();
    };
    CHECK(first.exit == 0);
    CHECK_THAT(first.out,
               Contains("1 of ") && Contains("What is it?") &&
                   Contains("A piece cannot be \"nonsense\"") &&
                   Contains("The answer for piece " + shownAs("2") + " is taken back.") &&
                   Contains("1 of 3 pieces shown were corrected by hand"));
    CHECK(shop.has("crops/photo-1-piece-" + shownAs("1") + ".png"));
    const std::string list = shop.run({"piece", "--photo", "1"}).out;
    CHECK(list.find("corrected by hand") == list.rfind("corrected by hand"));
    CHECK_THAT(review("").out, !Contains("Piece " + shownAs("1") + ":"));
    CHECK(shop.run({"piece", "--photo", "1", "1", "--review"}).exit == 2);
    CHECK(shop.run({"piece", "--photo", "1", "--crops", "crops"}).exit == 2);
}

TEST_CASE("pieces are listed, corrected by hand, shown so in the report, and put back",
          "[photos]") {
    const Shop shop;
    addDemoPhoto(shop);
    const auto piecesNow = [&] {
        const auto report =
            nlohmann::json::parse(shop.run({"report", "--visit", "1", "--json"}).out);
        return report.at("samples").at(0).at("pieces").get<int>();
    };
    const int before = piecesNow();
    CHECK_THAT(shop.run({"piece", "--photo", "1"}).out, Contains("longest side"));
    REQUIRE(
        shop.run({"piece", "--photo", "1", "1", "2", "--is", "not-debris", "--by", "M."}).exit ==
        0);
    CHECK(piecesNow() == before - 2);
    REQUIRE(shop.run({"piece", "--photo", "1", "3", "--is", "lining"}).exit == 0);
    CHECK(piecesNow() == before - 2);
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--full"}).out,
               Contains("Corrected by hand: Piece 1, measured as") &&
                   Contains("is not debris and is not counted (by M.)") && Contains("is lining."));
    CHECK_THAT(shop.run({"piece", "--photo", "1"}).out, Contains("corrected by hand"));
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "2", "3", "--undo"}).exit == 0);
    CHECK(piecesNow() == before);
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--two", "--by", "M."}).exit == 0);
    CHECK(piecesNow() == before + 1);
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--full"}).out,
               Contains("Piece 1 is two pieces, 1 and"));
    CHECK_THAT(shop.run({"piece", "--photo", "1"}).out,
               Contains("joined or divided by hand") && Contains("By hand: Piece 1 is two pieces"));
    CHECK(shop.run({"piece", "--photo", "1", "1", "2", "--one"}).exit == 2); // it was divided
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--two"}).exit == 0); // a part once more
    CHECK(piecesNow() == before + 2);
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--undo"}).exit == 0);
    CHECK(piecesNow() == before + 1);
    // what was said of its type is taken back first
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--is", "lining"}).exit == 0);
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--undo"}).exit == 0);
    CHECK(piecesNow() == before + 1);
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "--undo"}).exit == 0);
    CHECK(piecesNow() == before);
}

TEST_CASE("words that correct no piece are refused as wrong use") {
    const Shop shop;
    addDemoPhoto(shop);
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"piece"},
             {"piece", "--photo", "one"},
             {"piece", "--photo", "1", "--is", "lining"},
             {"piece", "--photo", "1", "1"},
             {"piece", "--photo", "1", "1", "--is", "gold"},
             {"piece", "--photo", "1", "1", "--is", "lining", "--undo"},
             {"piece", "--photo", "1", "9999", "--is", "lining"},
             {"piece", "--photo", "1", "--at", "here", "--is", "lining"},
             {"piece", "--photo", "1", "1", "--one"},
             {"piece", "--photo", "1", "1", "2", "--two"},
             {"piece", "--photo", "1", "1", "--two", "--is", "lining"},
             {"piece", "--photo", "1", "--one"},
             {"piece", "--photo", "1", "1", "--undo"}}) {
        const ProgramResult refused = shop.run(words);
        INFO(words.back() << "\n" << refused.err);
        CHECK(refused.exit == 2);
    }
}

// Source: ECMA-48 and DEC's manuals: a terminal that is asked for its primary attributes (DA)
// answers CSI ? ... c, and 4 among them stands for sixel graphics.
TEST_CASE("a review shows each piece in a terminal that says it shows sixel graphics",
          "[program]") {
    const Shop shop;
    addDemoPhoto(shop);
    RunOptions options;
    options.folder = shop.folder.path();
    options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
    std::filesystem::create_directory(shop.folder.path() / "crops");
    const auto sentTo = [&](const std::string& attributes) {
        std::size_t questions = 0, prompts = 0;
        const auto typed = [&](const std::string& sent) -> std::string {
            if (questions == 0 && sent.ends_with("\x1b[c") && ++questions > 0)
                return attributes;
            if (!sent.ends_with("> "))
                return "";
            return ++prompts < 3 ? "\n" : "stop\n";
        };
        const ProgramResult end =
            runInTerminal({"piece", "--photo", "1", "--review", "--crops", "crops", "--force"}, 80,
                          options, typed);
        CHECK(end.exit == 0);
        CHECK(questions == 1);
        return end.out;
    };
    const auto countOf = [](const std::string& text, const std::string& part) {
        std::size_t count = 0;
        for (std::size_t at = text.find(part); at != std::string::npos;
             at = text.find(part, at + 1))
            ++count;
        return count;
    };
    const std::string with = sentTo("\x1b[?62;4;22c"), without = sentTo("\x1b[?62;22;14c");
    CHECK(countOf(with, "\x1bP") == 3);
    CHECK(countOf(without, "\x1bP") == 0);
    CHECK_THAT(without, Contains("photo-1-piece-"));
}
