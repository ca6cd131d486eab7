// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

using namespace swarfbook::test;
using Catch::Contains;
using nlohmann::json;

namespace {

/// The numbers of the visits listed, in their order.
std::vector<int> listed(const Bench& bench, std::vector<std::string> words) {
    words.insert(words.begin(), {"list", "--json"});
    const ProgramResult list = bench.run(words);
    INFO(list.err);
    REQUIRE(list.exit == 0);
    std::vector<int> numbers;
    const json document = json::parse(list.out);
    for (const json& visit : document.at("visits"))
        numbers.push_back(visit.at("number"));
    return numbers;
}

using Numbers = std::vector<int>;

/// Visits 1 and 3 of DEMO-03, 2 of VAN-7.
void fill(const Bench& bench) {
    bench.run({"vehicle", "add", "VAN-7", "--unit", "Demo 8", "--plate", "INVENTED 7"});
    bench.run({"visit", "add", "VAN-7", "--date", "2025-05-01", "--odometer", "9000", "--complaint",
               "Whines in reverse", "--by", "M. Demo"});
    bench.run({"visit", "add", "DEMO-03", "--date", "2025-06-01", "--odometer", "125000"});
    bench.observe(wordsOf("codes P0733"), "3");
}

} // namespace

TEST_CASE("all visits are listed newest first, and found by words of vehicle, visit and codes") {
    const Bench bench;
    fill(bench);
    CHECK(listed(bench, {}) == Numbers{3, 2, 1});
    CHECK(listed(bench, {"van"}) == Numbers{2});
    CHECK(listed(bench, {"demo"}) == Numbers{3, 2, 1}); // a label, and the unit of the van
    CHECK(listed(bench, {"whines", "M."}) == Numbers{2});
    CHECK(listed(bench, {"whines", "DEMO-03"}) == Numbers{});
    CHECK(listed(bench, {"p0733"}) == Numbers{3});
    CHECK(listed(bench, {"invented"}) == Numbers{2});
    CHECK(listed(bench, {"2025-06"}) == Numbers{3});
    CHECK(listed(bench, {"--vehicle", "DEMO-03"}) == Numbers{3, 1});
    CHECK(listed(bench, {"--since", "2025-05-01"}) == Numbers{3, 2});
    CHECK(listed(bench, {"--until", "2025-05-01"}) == Numbers{2, 1});
    CHECK(listed(bench, {"--newest", "1"}) == Numbers{3});
}

TEST_CASE("corrected entries are not found, withdrawn ones are not listed") {
    const Bench bench;
    fill(bench);
    const json visit = json::parse(bench.run({"visit", "show", "3", "--json"}).out);
    const int number = visit.at("observations")[0].at("number");
    REQUIRE(bench.observe({"codes", "P0734", "--corrects", std::to_string(number)}, "3").exit == 0);
    CHECK(listed(bench, {"P0733"}) == Numbers{});
    CHECK(listed(bench, {"P0734"}) == Numbers{3});
    REQUIRE(bench.run({"visit", "withdraw", "3", "--why", "typing"}).exit == 0);
    CHECK(listed(bench, {}) == Numbers{2, 1});
}

TEST_CASE("the list on a terminal holds the newest twenty and never shows a plate") {
    const Bench bench;
    fill(bench);
    const ProgramResult text = bench.run({"list"});
    CHECK_THAT(text.out, Contains("Whines in reverse") && !Contains("INVENTED"));
    for (int day = 1; day <= 20; ++day)
        bench.run(
            {"visit", "add", "VAN-7", "--date", "2025-07-" + std::to_string(100 + day).substr(1)});
    const ProgramResult many = bench.run({"list"});
    CHECK(std::count(many.out.begin(), many.out.end(), '\n') == 21);
    CHECK_THAT(many.err, Contains("20 of 23 visits"));
    CHECK(bench.run({"list", "--quiet"}).err.empty());
    const ProgramResult all = bench.run({"list", "--all"});
    CHECK(std::count(all.out.begin(), all.out.end(), '\n') == 24);
    CHECK_THAT(bench.run({"list", "no such word"}).out, Contains("No visit fits"));
    CHECK(bench.run({"list", "--newest", "0"}).exit == 2);
    CHECK(bench.run({"list", "--newest", "2", "--all"}).exit == 2);
}
