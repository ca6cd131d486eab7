// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

struct Walk {
    int kept = 0;

    /// Types in every answer that the next test lists, and continues from there.
    void from(const Evidence& evidence, int depth) {
        const Suggestion now = suggest(evidence, suggestionModel());
        for (const Promise& promise : now.promises) {
            Evidence then = evidence;
            then.now.observations.push_back(promise.typed);
            const Suggestion said = suggest(then, suggestionModel());
            INFO(now.nextTest << "\n"
                              << promise.answer << ": " << describe(promise.typed) << "\nthen "
                              << headline(said) << "\n"
                              << said.nextTest);
            CHECK(std::find(promise.then.begin(), promise.then.end(), said.outcome) !=
                  promise.then.end());
            CHECK_THAT(said.nextTest, Catch::Contains(promise.nextTestSays));
            CHECK(said.nextTest != now.nextTest); // an answered test is not asked again
            ++kept;
            if (depth > 0)
                from(then, depth - 1);
        }
    }
};

} // namespace

TEST_CASE("a next test leads to the promised suggestion") {
    Walk walk;
    for (const auto& entry : fs::directory_iterator(scenarioFolder())) {
        const Scenario one = readScenario(entry.path());
        INFO(one.file);
        walk.from(one.evidence, 2);
        // the same with one observation less, so that other tests come up
        for (std::size_t left = 0; left < one.evidence.now.observations.size(); ++left) {
            Evidence less = one.evidence;
            less.now.observations.erase(less.now.observations.begin() +
                                        static_cast<std::ptrdiff_t>(left));
            walk.from(less, 1);
        }
    }
    CHECK(walk.kept > 40); // the walk goes somewhere
}
