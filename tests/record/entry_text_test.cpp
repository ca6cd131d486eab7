// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/entry_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Matchers::Contains;

TEST_CASE("blanks at the ends go, text in any language stays") {
    CHECK(checkedLine("The label", "  DEMO-03 \t") == "DEMO-03");
    CHECK(checkedLine("The label", "Ölprobe №3 \xF0\x9F\x9A\x97") == "Ölprobe №3 \xF0\x9F\x9A\x97");
    CHECK(checkedLine("The label", "   ").empty());
    CHECK(checkedNote("The note", "one\ntwo") == "one\ntwo");
}

TEST_CASE("control characters, broken UTF-8 and overlong text are refused") {
    // Source: Unicode general category Cc: U+0000 to U+001F and U+007F to U+009F.
    for (const std::string& text :
         {std::string("a\0b", 3), std::string("a\x1b[2Jb"), std::string("a\x7f"),
          std::string("a\xC2\x9Bz"), std::string("a\nb")})
        CHECK_THROWS_WITH(checkedLine("The label", text), Contains("control character"));
    // Source: RFC 3629: overlong forms, surrogates, lone continuation bytes are no UTF-8.
    for (const std::string text :
         {"\xC0\xAF", "\xED\xA0\x80", "\x80", "\xF5\x80\x80\x80", "\xE2\x82"})
        CHECK_THROWS_WITH(checkedLine("The label", text), Contains("UTF-8"));
    CHECK_THROWS_WITH(checkedLine("The label", std::string(101, 'x')), Contains("Shorten"));
    CHECK_THROWS_AS(checkedNote("The note", std::string(4001, 'x')), UsageError);
}

TEST_CASE("a file's name can always be shown") {
    CHECK(readableText("pan.jpg") == "pan.jpg");
    CHECK(readableText("p\xFFn.jpg") == "p\\xffn.jpg");
    CHECK(readableText("a\x1b[31m\nb") == "a\\u001b[31m\\u000ab");
}
