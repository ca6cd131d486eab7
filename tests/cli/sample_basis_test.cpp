// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/sample_basis_words.h"
#include "cli/shop.h"

#include <boost/program_options/parsers.hpp>
#include <boost/program_options/variables_map.hpp>
#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

SampleBasis typed(const std::vector<std::string>& words, Place place) {
    namespace po = boost::program_options;
    po::options_description options;
    cli::addSampleOptions(options);
    cli::ParsedOptions parsed;
    po::store(po::command_line_parser(words).options(options).run(), parsed);
    return cli::sampleBasisOf(parsed, place);
}

void checkRefused(const std::vector<std::string>& words, Place place, const std::string& why) {
    try {
        (void)typed(words, place);
        FAIL("it was taken");
    } catch (const UsageError& said) {
        CHECK_THAT(said.what(), Contains(why));
    }
}

} // namespace

// 1 inch = 25.4 mm by definition; the others are the prefixes' own.
TEST_CASE("areas and volumes are read in the units that are usual", "[sample]") {
    const auto area = [](const char* text) {
        return typed({"--media-area", text}, Place::filter).mediaArea->value();
    };
    CHECK(area("1200cm2") == Approx(1200.0));
    CHECK(area("1200 cm²") == Approx(1200.0));
    CHECK(area("120000mm2") == Approx(1200.0));
    CHECK(area("0,12 m2") == Approx(1200.0));
    CHECK(area("40x30cm") == Approx(1200.0));
    CHECK(area("400 x 300 mm") == Approx(1200.0));
    CHECK(area("10x10in") == Approx(645.16));
    CHECK(area("100in2") == Approx(645.16));
    CHECK(typed({"--volume", "100ml"}, Place::strained).volume->value() == Approx(100.0));
    CHECK(typed({"--volume", "0.25 l"}, Place::strained).volume->value() == Approx(250.0));
    CHECK(typed({"--side", "clean"}, Place::filter).side == FilterSide::clean);
    CHECK(typed({}, Place::pan).isEmpty());
}

TEST_CASE("what cannot be of a filter or of strained fluid is refused with what to type",
          "[sample]") {
    checkRefused({"--side", "left"}, Place::filter, "--side dirty or --side clean");
    checkRefused({"--side", "clean"}, Place::pan, "--place filter");
    checkRefused({"--media-area", "1200cm2"}, Place::tray, "--place filter");
    checkRefused({"--volume", "100ml"}, Place::pad, "--place strained");
    for (const char* area : {"1200", "cm2", "5cm2", "1e9cm2", "40x30", "40x30cm2", "x"})
        checkRefused({"--media-area", area}, Place::filter, "Type the area");
    checkRefused({"--volume", "0ml"}, Place::strained, "can hardly");
    checkRefused({"--volume", "30l"}, Place::strained, "can hardly");
    checkRefused({"--volume", "100"}, Place::strained, "no unit");
}

TEST_CASE("a photo of strained fluid is kept and measured again with its volume",
          "[sample][photos]") {
    const Shop shop;
    const auto done = [&](const std::vector<std::string>& words) {
        const ProgramResult outcome = shop.run(words);
        INFO(outcome.err);
        CHECK(outcome.exit == 0);
        return outcome.out;
    };
    const std::vector<std::string> report{"report", "--visit", "1", "--text", "--full"};
    done({"vehicle", "add", "VAN-7", "--unit", "Demo 5"});
    done({"visit", "add", "VAN-7", "--date", "2025-03-14", "--odometer", "1000"});
    done({"add", "--visit", "1", demoPhoto(), "--place", "strained", "--volume", "50ml"});
    CHECK_THAT(done(report), Contains("50 ml strained") && Contains("Per 100 ml"));
    done({"visit", "measure", "1"});
    CHECK_THAT(done(report), Contains("50 ml strained") && Contains("Per 100 ml"));
    CHECK_THAT(
        done({"add", "--visit", "1", demoPhoto(), "--place", "strained", "--volume", "100ml"}),
        Contains("measured again"));
    CHECK_THAT(done(report), Contains("100 ml strained"));
}
