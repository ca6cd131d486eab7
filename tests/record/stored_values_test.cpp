// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/stored_values.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace swarfbook;
using Catch::Matchers::Contains;

namespace {

const std::string where = "the book in a test";
const StoredRow row{where, "photo 7"};

} // namespace

TEST_CASE("a value that becomes a path must have the form of its name") {
    const std::string good(64, 'a');
    CHECK(row.sha256(good) == good);
    for (const std::string& bad :
         {std::string(), std::string(63, 'a'), std::string(65, 'a'), std::string(64, 'A'),
          "../" + std::string(61, 'a'), std::string(63, 'a') + "/", std::string(64, '\0')})
        CHECK_THROWS_AS(row.sha256(bad), ToolError);
    for (const std::string known : {"jpg", "png", "heic", "photo"})
        CHECK(row.extension(known) == known);
    for (const std::string bad : {"", "JPG", "../x", "jpg/../../x", "jpg\n", "exe"})
        CHECK_THROWS_AS(row.extension(bad), ToolError);
    CHECK(row.layout("wide") == "wide");
    CHECK_THROWS_AS(row.layout("../../etc"), ToolError);
    CHECK(row.place("tray") == Place::tray);
    CHECK_THROWS_AS(row.place("Tray"), ToolError);
    CHECK_THROWS_AS(row.key("", 10), ToolError);
    CHECK_THROWS_AS(row.key("12345678901", 10), ToolError);
}

TEST_CASE("dates and moments must exist in the calendar") {
    CHECK(row.date("2024-02-29") == "2024-02-29");
    CHECK(row.dateOrEmpty("").empty());
    for (const std::string bad : {"", "today", "2025-02-29", "1979-12-31", "2025-3-14",
                                  "2025-03-14x", "-025-03-14", "2025-13-01"})
        CHECK_THROWS_AS(row.date(bad), ToolError);
    CHECK(row.moment("2025-03-14T10:12:00Z") == "2025-03-14T10:12:00Z");
    for (const std::string bad : {"", "2025-03-14", "2025-03-14T10:12:00", "2025-03-14 10:12:00Z",
                                  "20x5-03-14T10:12:00Z", "2025-03-14T10:12:00Z\n"})
        CHECK_THROWS_AS(row.moment(bad), ToolError);
}

TEST_CASE("numbers must be finite and within sensible limits") {
    const double inf = std::numeric_limits<double>::infinity();
    CHECK_FALSE(row.distanceKm(std::nullopt));
    CHECK(row.distanceKm(120000.5) == 120000.5);
    CHECK(row.lengthMm(79.6) == 79.6);
    CHECK(row.coordinateMm(-3.5) == -3.5);
    for (const double bad : {-1.0, inf, -inf, std::nan(""), 1e300}) {
        CHECK_THROWS_AS(row.distanceKm(bad), ToolError);
        CHECK_THROWS_AS(row.lengthMm(bad), ToolError);
    }
    for (const double bad : {1000.5, -1000.5, inf, std::nan("")})
        CHECK_THROWS_AS(row.coordinateMm(bad), ToolError);
    CHECK_THROWS_AS(row.lengthMm(std::nullopt), ToolError);
}

TEST_CASE("a damaged value is reported with the book, the entry and the way back") {
    CHECK_THROWS_WITH(row.place("x"), Contains(where) && Contains("photo 7") &&
                                          Contains("the place") && Contains("swarfbook restore"));
}
