// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/html.h"

#include <catch2/catch.hpp>

using namespace swarfbook::web;
using Catch::Matchers::Contains;

// The five characters that HTML gives a meaning to (WHATWG HTML, 13.3 and 13.1.2.3).
TEST_CASE("no text becomes markup") {
    CHECK(escaped("<script>alert('x')</script> & \"y\"") ==
          "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;y&quot;");
    CHECK(escaped("\x1b[31m") == "\\u001b[31m");
    const Answer answer = page({"<b>", "<p>x</p>", "/\"><script>", "<i>", "<.js"});
    CHECK_THAT(answer.body, !Contains("<b>") && !Contains("<script>") && !Contains("<i>"));
    CHECK_THAT(field({"a", "\"><b>", "\"><b>", "<b>"}), !Contains("<b>"));
    CHECK_THAT(button("/\"><b>", "<b>"), !Contains("<b>"));
    CHECK_THAT(notice("note", "<b>"), !Contains("<b>"));
    CHECK_THAT(listUnder("<b>", {"<b>"}), !Contains("<b>"));
}

TEST_CASE("a page has a language, a heading and no script or style of its own") {
    const Answer answer = page({"Visits", "<p>x</p>", ""});
    CHECK(answer.status == 200);
    CHECK_THAT(answer.body, Contains("<html lang=\"en\">") && Contains("<h1>Visits</h1>") &&
                                Contains("<main>") && !Contains("<script") && !Contains("style=") &&
                                !Contains("<style"));
    CHECK_THAT(page({"x", "", "", "", "photo.js"}).body,
               Contains("<script type=\"module\" src=\"/photo.js\"></script>"));
}
