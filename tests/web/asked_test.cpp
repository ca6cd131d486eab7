// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "web/asked.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::web;

// The example of HTML 4.01, 17.13.4.1 in spirit: blanks as "+", reserved characters as %HH.
TEST_CASE("a form's fields are read as browsers send them") {
    const auto fields = fieldsOf("name=a+b&note=50%25+%26+more&empty=&twice=1&twice=2&%6e=x");
    CHECK(fields.at("name") == "a b");
    CHECK(fields.at("note") == "50% & more");
    CHECK(fields.at("empty").empty());
    CHECK(fields.at("twice") == "2");
    CHECK(fields.at("n") == "x");
    CHECK(fieldsOf("").empty());
    CHECK(fieldsOf("a=%zz&b=%4").at("a") == "%zz");
    CHECK(fieldsOf("a=%zz&b=%4").at("b") == "%4");
}

// RFC 3986, section 2.3: these characters stand for themselves; all others are percent-encoded.
TEST_CASE("what stands in an address comes back as it was") {
    CHECK(encoded("gear 3") == "gear%203");
    CHECK(encoded("a-b.c_d") == "a-b.c_d");
    const std::string odd = "<\"&'/?\xC3\xA4%+";
    CHECK(fieldsOf("x=" + encoded(odd)).at("x") == odd);
}

TEST_CASE("a path has parts, and numbers are digits alone") {
    const Asked asked{"GET", "/visit/12/row", {}, {}, "", ""};
    CHECK(asked.parts() == std::vector<std::string>{"visit", "12", "row"});
    CHECK(Asked{"GET", "/", {}, {}, "", ""}.parts().empty());
    CHECK(numberOf("12") == 12);
    for (const char* wrong : {"", "0", "-1", "1a", "99999999999999999999", "1.5"})
        CHECK_THROWS_AS(numberOf(wrong), UsageError);
}
