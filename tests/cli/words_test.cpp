// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/command.h"
#include "cli/parsed_options.h"
#include "web/page_words.h"

#include <boost/program_options.hpp>
#include <catch2/catch.hpp>

namespace po = boost::program_options;
using namespace swarfbook;
using namespace swarfbook::cli;
using Catch::Matchers::Contains;

namespace {

cli::ParsedOptions parsed(const std::vector<std::string>& words) {
    po::options_description options;
    options.add_options()("km", po::value<std::string>())("place", po::value<std::string>())("json",
                                                                                             "");
    cli::ParsedOptions all;
    po::store(po::command_line_parser(words).options(options).run(), all);
    return all;
}

} // namespace

TEST_CASE("numbers are read in plain decimal notation only") {
    CHECK(numberOf(parsed({"--km=120000"}), "km", "1") == 120000.0);
    CHECK(numberOf(parsed({"--km=79.6"}), "km", "1") == 79.6);
    CHECK(numberOf(parsed({"--km=-5"}), "km", "1") == -5.0);
    CHECK_FALSE(numberOf(parsed({}), "km", "1").has_value());
    for (const std::string text : {"", "120,000", "120.000.5", "120 000", "1e5", "12o", "nan",
                                   "inf", "0x10", "+5", "120000km"}) {
        CAPTURE(text);
        CHECK_THROWS_WITH(numberOf(parsed({"--km", text}), "km", "120000"),
                          Contains("--km 120000"));
    }
}

TEST_CASE("a visit's number is a whole number from 1") {
    CHECK(visitNumber("1") == 1);
    CHECK(visitNumber("120") == 120);
    for (const std::string text : {"", "0", "-1", "1.5", "one", "99999999999999999999", "2 "})
        CHECK_THROWS_WITH(visitNumber(text), Contains("not a visit number"));
}

TEST_CASE("a place is one of six") {
    CHECK(placeOf(parsed({"--place", "magnet"})) == Place::magnet);
    CHECK(placeOf(parsed({"--place", "strained"})) == Place::strained);
    CHECK_THROWS_WITH(placeOf(parsed({})), Contains("tray"));
    CHECK_THROWS_WITH(placeOf(parsed({"--place", "roof"})),
                      Contains("\"roof\"") && Contains("white-card"));
}

TEST_CASE("options that do not apply to an action are named") {
    CHECK_NOTHROW(allowOnly(parsed({"--json"}), "vehicle list", {"json"}));
    CHECK_THROWS_WITH(allowOnly(parsed({"--json"}), "vehicle add", {"km"}),
                      Contains("--json") && Contains("swarfbook vehicle --help"));
}

TEST_CASE("a page leaves the command of no verb to be typed on a phone") {
    for (const CommandEntry& verb : commands()) {
        const std::string advice = "Then type swarfbook " + verb.name + ".";
        CHECK(swarfbook::web::forPages(advice) != advice);
    }
}
