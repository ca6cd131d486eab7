// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/table_formats.h"
#include "cli/typed_bench.h"
#include "rendered/demo_photos.h"

#include <sstream>

using namespace swarfbook::cli;
using namespace swarfbook::test;
using Catch::Contains;
using nlohmann::json;

// RFC 4180, section 2: 2.6 (fields with line breaks, quotation marks and commas), 2.7 (a quotation
// mark is doubled); lines end with CRLF.
TEST_CASE("rows are written by RFC 4180") {
    CHECK(csvHeader({{"aaa", 1}, {"b,b", 2}}) == "aaa,\"b,b\"\r\n");
    CHECK(csvLine({{"a", "aaa"}, {"b", "b\"bb"}, {"c", "c,c"}, {"d", "d\nd"}}) ==
          "aaa,\"b\"\"bb\",\"c,c\",\"d\nd\"\r\n");
    CHECK(csvLine({{"a", nullptr}, {"b", true}, {"c", 1.5}, {"d", ""}}) == ",true,1.5,\r\n");
    CHECK(csvLine({{"a", {{"k", "v"}}}}) == "\"{\"\"k\"\":\"\"v\"\"}\"\r\n");
}

// Common practice against formulas: the six characters that start one in a spreadsheet, from
// memory.
TEST_CASE("no text becomes a formula, and numbers stay numbers") {
    for (const char* text : {"=1+1", "+1", "-1", "@SUM(A1)"})
        CHECK(csvLine({{"a", text}}) == "'" + std::string(text) + "\r\n");
    CHECK(csvLine({{"a", "\t=1"}}) == "'\t=1\r\n");
    CHECK(csvLine({{"a", "\r=1"}}) == "'\\u000d=1\r\n");
    CHECK(csvLine({{"a", "=\"x,y\""}}) == "\"'=\"\"x,y\"\"\"\r\n");
    CHECK(csvLine({{"a", -1.5}, {"b", "a-b"}}) == "-1.5,a-b\r\n");
}

TEST_CASE("characters harmful to a terminal are escaped in CSV, and JSON Lines are valid UTF-8") {
    CHECK(csvLine({{"a", "x\x1b[2J\xE2\x80\xAE"}}) == "x\\u001b[2J\\u202e\r\n");
    CHECK(csvLine({{"a", "x\xff"}}) == "x\\xff\r\n");
    CHECK(jsonLine({{"a", "x\xff\x1b"}}) == "{\"a\":\"x\xEF\xBF\xBD\\u001b\"}\n");
}

TEST_CASE("visits and observations are exported, but not withdrawn ones or plates") {
    const Bench bench;
    REQUIRE(bench.run({"vehicle", "correct", "DEMO-03", "--plate", "INVENTED 7"}).exit == 0);
    REQUIRE(bench.run({"visit", "correct", "1", "--complaint", "=cmd()"}).exit == 0);
    REQUIRE(bench.observe("codes P0733").exit == 0);
    const ProgramResult csv = bench.run({"export", "visits"});
    CHECK(csv.exit == 0);
    CHECK(csv.out == "visit,vehicle,unit,date,odometer_km,odometer_replaced,last_clean,"
                     "since_clean_km,looked_by,complaint,photos\r\n"
                     "1,DEMO-03,Demo 5,2025-03-14,120500.0,false,,,,'=cmd(),0\r\n");
    const json line = json::parse(bench.run({"export", "observations", "--as", "json-lines"}).out);
    CHECK(line.at("kind") == "codes");
    CHECK(line.at("stands") == true);
    CHECK_THAT(line.at("text").get<std::string>(), Contains("P0733"));
    CHECK(line.at("content").is_object());
    REQUIRE(bench.run({"visit", "withdraw", "1", "--why", "typing"}).exit == 0);
    CHECK(bench.run({"export", "visits", "--as", "json-lines"}).out.empty());
}

TEST_CASE("photos and pieces are exported with their limits, to a file that says its format") {
    const Bench bench;
    const auto photo = demoPhotos() / "history-1.jpg";
    REQUIRE(bench.run({"add", "--visit", "1", photo.string(), "--place", "pad"}).exit == 0);
    const std::string file = (bench.folder() / "pieces.jsonl").string();
    const ProgramResult saved = bench.run({"export", "pieces", "--out", file});
    INFO(saved.err);
    REQUIRE(saved.exit == 0);
    std::istringstream lines(contentOf(file));
    std::size_t pieces = 0;
    for (std::string line; std::getline(lines, line); ++pieces) {
        const json piece = json::parse(line);
        CHECK(piece.at("longest_side_mm") > 0.0);
        CHECK(piece.at("longest_side_u_mm") > 0.0);
        CHECK(piece.at("place") == "white card");
    }
    const json row = json::parse(bench.run({"export", "photos", "--as", "json-lines"}).out);
    CHECK(row.at("pieces").get<std::size_t>() +
              row.at("smaller_pieces_at_least").get<std::size_t>() ==
          pieces);
    CHECK(row.at("complete_from_mm") > row.at("nothing_shows_under_mm"));
    CHECK(bench.run({"export", "pieces", "--out", file}).exit == 2); // it already exists
    CHECK(bench.run({"export", "pieces", "--out", file, "--force"}).exit == 0);
    CHECK(bench.run({"export", "wheels"}).exit == 2);
    CHECK(bench.run({"export", "visits", "--as", "table"}).exit == 2);
}
