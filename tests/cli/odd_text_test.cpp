// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/plain_output.h"
#include "cli/shop.h"
#include "record/database.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <sstream>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const std::string red = "\x1b[31m", turned = "\xE2\x80\xAE";

void addVisit(const Shop& shop) {
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03", "--unit", "Demo 5"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--odometer", "120000",
                      "--since-clean", "30000"})
                .exit == 0);
}

bool isPlain(const std::string& text) {
    return text.find('\x1b') == std::string::npos && text.find(turned) == std::string::npos &&
           text.find("\xC2\x9B") == std::string::npos;
}

} // namespace

TEST_CASE("typed text with control characters, marks of direction or wrong bytes is refused") {
    const Shop shop;
    addVisit(shop);
    const auto checkRefused = [&](const std::vector<std::string>& words) {
        const ProgramResult outcome = shop.run(words);
        INFO(words[0] << " " << words.size() << ": " << outcome.err);
        CHECK(outcome.exit == 2);
        CHECK(isPlain(outcome.err));
        CHECK_THAT(outcome.err, Contains("U+") || Contains("UTF-8"));
    };
    // base/text_test tries every such character; here each kind is typed in one place,
    for (const std::string odd : {"\x07", "\x7f", "\xC2\x9B", "\xE2\x80\xAE", "\xFF"})
        checkRefused({"vehicle", "add", "A" + odd + "B"});
    // and one kind in every place.
    const std::string text = "A\x1b[2JB";
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"vehicle", "add", text},
             {"vehicle", "add", "X", "--note", text},
             {"vehicle", "add", "X", "--plate", text},
             {"vehicle", "show", text},
             {"visit", "correct", "1", "--complaint", text},
             {"visit", "correct", "1", "--by", text},
             {"observe", "--visit", "1", "codes", text},
             {"observe", "--visit", "1", "bore", text, "--vacuum", "12inHg"},
             {"observe", "--visit", "1", "bore", "A", "--vacuum", "12inHg", "--note", text},
             {"observe", "--visit", "1", "bore", "A", "--vacuum", "12inHg", "--by", text},
             {"observe", "--visit", "1", text},
             {"unit", "new", text},
             {"card", "--layout", "close", "--out", "c.pdf", "--serial", text},
             {"report", "--visit", "1", "--text", "--full", "--workshop", text}})
        checkRefused(words);
}

TEST_CASE("a typed text of more than 4,000 characters is refused, one of 4,000 is kept") {
    const Shop shop;
    addVisit(shop);
    std::string longest;
    for (int i = 0; i < 4000; ++i)
        longest += "ü";
    CHECK(shop.run({"visit", "correct", "1", "--complaint", longest}).exit == 0);
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"visit", "correct", "1", "--complaint", longest + "x"},
             {"vehicle", "add", "X", "--note", longest + "x"},
             {"observe", "--visit", "1", "bore", "A", "--vacuum", "12inHg", "--note",
              longest + "x"},
             {"observe", "--visit", "1", "codes", longest + "x"}}) {
        const ProgramResult outcome = shop.run(words);
        CHECK(outcome.exit == 2);
        CHECK_THAT(outcome.err, Contains("4001 characters long") && Contains("Shorten"));
    }
}

TEST_CASE(
    "a line break in a file's name is refused, since it could imitate a line of the program") {
    const Shop shop;
    addVisit(shop);
    const std::string name = "pan\nswarfbook: all is well.jpg";
    fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images/history-1.jpg",
                  shop.folder.path() / name);
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"measure", name},
                                               {"add", "--visit", "1", name, "--place", "pad"},
                                               {"check", "--known-size", "3mm", name, "--no-book"},
                                               {"backup", "--out", "copy\r\n"},
                                               {"vehicle", "list", "--book", "book\nagain"}}) {
        const ProgramResult outcome = shop.run(words);
        CHECK(outcome.exit == 2);
        CHECK_THAT(outcome.err, Contains("holds a line break") && Contains("\\u000a"));
        CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    }
}

TEST_CASE("odd names of files are shown escaped in messages, results and JSON") {
    const Shop shop;
    addVisit(shop);
    const std::string name = "p" + red + turned + "\xFF.jpg";
    fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images/README.md",
                  shop.folder.path() / name);
    const ProgramResult said = shop.run({"measure", name});
    CHECK(said.exit == 1);
    CHECK(isPlain(said.out + said.err));
    CHECK_THAT(said.err, Contains("p\\u001b[31m\\u202e"));
    const ProgramResult document = shop.run({"measure", name, "--json"});
    CHECK(isPlain(document.out));
    const auto file = nlohmann::json::parse(document.out).at("photo").at("file");
    CHECK(file == "p" + red + turned + "\xEF\xBF\xBD.jpg"); // the escapes mean the same
}

TEST_CASE("escape codes in an old book reach neither terminal nor report") {
    const Shop shop;
    addVisit(shop);
    REQUIRE(shop.run({"observe", "--visit", "1", "bore", "Main", "--vacuum", "12inHg"}).exit == 0);
    {
        Database old(shop.folder.path() / "book" / "book.db", "an old book");
        old.prepare("UPDATE vehicle SET label = ?, note = ?")
            .with("D" + red + turned, "n\xFF" + red)
            .run();
        old.prepare("UPDATE visit SET complaint = ?").with(red + "slips\nhot" + turned).run();
    }
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"vehicle", "list"},
                                               {"vehicle", "list", "--json"},
                                               {"visit", "show", "1"},
                                               {"visit", "show", "1", "--json"},
                                               {"report", "--visit", "1", "--text", "--full"},
                                               {"report", "--visit", "1", "--json"}}) {
        const ProgramResult outcome = shop.run(words);
        INFO(outcome.err);
        CHECK(outcome.exit == 0);
        CHECK(isPlain(outcome.out));
        CHECK_THAT(outcome.out, Contains("\\u001b"));
        if (words.back() == "--json")
            CHECK_NOTHROW(nlohmann::json::parse(outcome.out));
    }
}

TEST_CASE("characters that arrive byte by byte come out whole") {
    std::ostringstream out;
    {
        const swarfbook::cli::PlainOutput plain(out);
        for (const char c : std::string("gr\xC3\xBCn \xF0\x9F\x9A\x97 \x1b\xE2\x80\xAE \xE2\x82"))
            out << c;
    }
    CHECK(out.str() == "gr\xC3\xBCn \xF0\x9F\x9A\x97 \\u001b\\u202e \\xe2\\x82");
}
