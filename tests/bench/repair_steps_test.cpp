// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/repair_steps.h"
#include "observed.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

// What was done is evidence, each repair by itself: common practice, no source.
namespace {

using Texts = std::vector<std::string>;

const auto code = [] { return observed("codes", R"({"codes": ["P0753"], "when": "before"})"); };
const auto cameBack = [] { return observed("outcome", R"({"held": "came-back"})"); };
const auto fixed = [] { return observed("outcome", R"({"held": "fixed"})"); };
const auto slips = [] { return observed("road-test", R"({"gear": "3", "symptom": "slip"})"); };
const auto replaced = [](const std::string& part) {
    return observed("after-repair",
                    R"({"did": "replace solenoids", "parts": ["solenoid )" + part + R"("]})");
};

std::vector<RepairStep> steps(const std::vector<Observation>& observations) {
    return repairSteps(observations, {Celsius(40.0), Celsius(70.0)});
}

} // namespace

TEST_CASE("a repair is one step with all that is told of it, and holds or not") {
    CHECK(steps({code()}).empty());
    const auto again = observed("codes", R"({"codes": ["P0758"], "when": "after"})");
    const auto failed = steps({code(), replaced("A"), slips(), again, cameBack()});
    REQUIRE(failed.size() == 1);
    CHECK(failed[0].failed());
    CHECK(failed[0].parts == Texts{"solenoid A"});
    CHECK(failed[0].still == Texts{"slip in gear 3", "code P0758"});
    CHECK(failed[0].held == Held::cameBack);
    CHECK_FALSE(steps({code(), replaced("A"), observed("road-test", R"({"symptom": "good"})")})[0]
                    .failed());
    CHECK(steps({code(), cameBack()})[0].failed());
    // told later of the same repair: the outcome was another after all
    const auto later = steps({code(), replaced("A"), cameBack(), fixed()});
    REQUIRE(later.size() == 1);
    CHECK_FALSE(later[0].failed());
}

TEST_CASE("what is done after a repair in vain is a repair of its own") {
    const auto named = steps({code(), replaced("A"), slips(), replaced("B"), cameBack()});
    REQUIRE(named.size() == 2);
    CHECK(named[0].parts == Texts{"solenoid A"});
    CHECK(named[0].failed());
    CHECK(named[1].parts == Texts{"solenoid B"});
    CHECK(named[1].failed());
    // found in between at the bench, and then done as suggested
    const auto bench = observed("solenoid", R"({"name": "B", "open_circuit": true})");
    const auto asSuggested = steps({code(), cameBack(), bench, cameBack()});
    REQUIRE(asSuggested.size() == 2);
    CHECK(asSuggested[1].parts.empty());
    const auto held = steps({code(), cameBack(), bench, fixed()});
    REQUIRE(held.size() == 2);
    CHECK(held[0].failed());
    CHECK_FALSE(held[1].failed());
    // which part it was is told afterwards
    CHECK(steps({code(), cameBack(), replaced("A")}).size() == 1);
}

TEST_CASE("a repair in vain was decided by what was known before it failed") {
    const auto bench = observed("solenoid", R"({"name": "B", "open_circuit": true})");
    const std::vector<Observation> told{code(), replaced("A"), cameBack(), bench, replaced("B")};
    const auto both = steps(told);
    REQUIRE(both.size() == 2);
    CHECK(beforeStep(told, both[0]).size() == 1);
    CHECK(beforeStep(told, both[1]).size() == 4); // the failure of the first among it
    // of one that held, or of which nothing is known, what was typed in late counts as well
    const std::vector<Observation> late{code(), replaced("A"), bench};
    CHECK(beforeStep(late, steps(late)[0]).size() == 2);
}
