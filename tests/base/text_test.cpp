// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Source: Unicode 15, general category Cc (U+0000 to U+001F, U+007F to U+009F) and the marks of
// UAX #9 (bidirectional text); RFC 3629 for what is not UTF-8.
TEST_CASE("each control character, mark of direction and wrong byte is found and named") {
    for (unsigned code = 1; code < 0x20; ++code)
        CHECK(firstUnprintable(std::string("a") + static_cast<char>(code)).has_value());
    for (const std::string text : {"\x7f", "\xC2\x80", "\xC2\x9B", "\xC2\x9F", "\xE2\x80\xAA",
                                   "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x81\xA9", "\xE2\x80\x8F",
                                   "\xD8\x9C", "\xE2\x80\xA8", "\xEF\xBB\xBF"}) {
        const auto found = firstUnprintable("ab" + text + "c");
        REQUIRE(found.has_value());
        CHECK(found->at == 2);
        CHECK(found->length == text.size());
    }
    for (const std::string text : {"\xC0\xAF", "\xED\xA0\x80", "\x80", "\xF5\x80\x80\x80",
                                   "\xE2\x82", "\xF0\x80\x80\xAF", "\xF4\x90\x80\x80", "\xFF"}) {
        const auto found = firstUnprintable(text);
        REQUIRE(found.has_value());
        CHECK_THAT(found->name, Catch::Contains("not UTF-8"));
    }
    CHECK(firstUnprintable("x\x1b[2J")->name == "the control character U+001B");
    CHECK(firstUnprintable("x\xE2\x80\xAEy")->name == "the invisible character U+202E");
}

TEST_CASE("text in any language passes unchanged") {
    for (const std::string text :
         {"Ölprobe №3 \xF0\x9F\x9A\x97", "日本語", "عربي", "é\u00a0ß", ""}) {
        CHECK_FALSE(firstUnprintable(text).has_value());
        CHECK(shown(text) == text);
        CHECK(validUtf8(text) == text);
    }
}

TEST_CASE("unprintable characters are shown escaped, line breaks as wanted") {
    CHECK(shown("a\x1b[31mb") == "a\\u001b[31mb");
    CHECK(shown("a\xC2\x9B"
                "b") == "a\\u009bb");
    CHECK(shown("a\xE2\x80\xAE"
                "b\xFF") == "a\\u202eb\\xff");
    CHECK(shown("a\nb\tc") == "a\\u000ab\\u0009c");
    CHECK(shown("a\nb\tc\r", Breaks::keep) == "a\nb\tc\\u000d");
    CHECK(shown(std::string("a\0b", 3)) == "a\\u0000b");
    CHECK(validUtf8("a\xFF"
                    "b\xE2\x82") == "a\xEF\xBF\xBD"
                                    "b\xEF\xBF\xBD\xEF\xBF\xBD");
}

TEST_CASE("a long text is cut at blanks, a long word anywhere, and nothing is lost") {
    CHECK(piecesOf("short", 10) == std::vector<std::string>{"short"});
    CHECK(piecesOf("", 10) == std::vector<std::string>{""});
    CHECK(piecesOf("one two three", 8) == std::vector<std::string>{"one two", "three"});
    CHECK(piecesOf("abcdefghij", 4) == std::vector<std::string>{"abcd", "efgh", "ij"});
    CHECK(piecesOf("üüüüü", 2) == std::vector<std::string>{"üü", "üü", "ü"});
    const std::string word(500, 'w');
    std::string joined;
    for (const std::string& piece : piecesOf(word, 70)) {
        CHECK(characterCount(piece) <= 70);
        joined += piece;
    }
    CHECK(joined == word);
    CHECK(piecesOf("\xFF\xFF\xFF", 2).size() == 2); // bytes that are no text do no harm
}
