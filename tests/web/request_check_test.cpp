// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/request_check.h"

#include <catch2/catch.hpp>

using namespace swarfbook::web;

namespace {

const OwnAddress own{"http", "127.0.0.1:8420"};
const std::string here = "127.0.0.1:8420", us = "http://127.0.0.1:8420";

int statusOf(const RequestHead& head, const OwnAddress& at = own) {
    const auto why = checkRequest(head, at);
    return why ? why->status : 200;
}

} // namespace

// A name of somebody else that was made to lead to this machine (DNS rebinding) shows in Host.
TEST_CASE("only requests for this address are answered") {
    CHECK(statusOf({"GET", "/", here, "", ""}) == 200);
    CHECK(statusOf({"GET", "/", "localhost:8420", "", ""}) == 200);
    for (const char* other : {"", "evil.example", "evil.example:8420", "127.0.0.1", "127.0.0.1:80",
                              "localhost", "127.0.0.1:8420.evil.example"}) {
        INFO(other);
        CHECK(statusOf({"GET", "/", other, "", ""}) == 421);
    }
    const OwnAddress lan{"https", "192.168.1.20:8420"};
    CHECK(statusOf({"GET", "/", "192.168.1.20:8420", "", ""}, lan) == 200);
    CHECK(statusOf({"GET", "/", "localhost:8420", "", ""}, lan) == 421);
}

TEST_CASE("what changes something comes from a page of ours") {
    CHECK(statusOf({"POST", "/new", here, us, "same-origin"}) == 200);
    CHECK(statusOf({"POST", "/new", here, us, ""}) == 200);
    CHECK(statusOf({"POST", "/new", "localhost:8420", "http://localhost:8420", ""}) == 200);
    for (const char* other : {"", "null", "http://evil.example", "https://127.0.0.1:8420",
                              "http://127.0.0.1:8421", "http://localhost:8420"}) {
        INFO(other);
        CHECK(statusOf({"POST", "/new", here, other, ""}) == 403);
    }
    CHECK(statusOf({"POST", "/new", here, us, "cross-site"}) == 403);
    CHECK(statusOf({"POST", "/new", here, us, "same-site"}) == 403);
}

TEST_CASE("a path holds plain names alone") {
    CHECK(statusOf({"GET", "/visit/3/report.pdf", here, "", ""}) == 200);
    for (const char* trick :
         {"/../book.db", "/visit/../../etc/passwd", "/.hidden", "/visit/.git", "//evil.example",
          "/visit//1", "/a\\b", "/a b", "/a%2e", "/<script>", "", "visit/1"}) {
        INFO(trick);
        CHECK(statusOf({"GET", trick, here, "", ""}) == 404);
    }
    CHECK(statusOf({"GET", "/" + std::string(300, 'a'), here, "", ""}) == 404);
    for (const char* method : {"PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", ""})
        CHECK(statusOf({method, "/", here, "", ""}) == 405);
}

// The examples of RFC 6265, section 3.1.
TEST_CASE("a cookie is found by its whole name") {
    CHECK(cookieIn("SID=31d4d96e407aad42", "SID") == "31d4d96e407aad42");
    CHECK(cookieIn("SID=31d4d96e407aad42; lang=en-US", "lang") == "en-US");
    CHECK(cookieIn("SID=1; lang=en-US", "ang").empty());
    CHECK(cookieIn("SID=1", "SI").empty());
    CHECK(cookieIn("", "SID").empty());
}
