// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_case.h"

using namespace swarfbook::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// Whether a case of tests/cli/turned types in the entry that changes this suggestion by its own
/// words. tests/judgement/promises_test.cpp types in the answers of the next test.
bool isTurned(const json& suggestion) {
    const auto files = caseFiles("turned");
    return std::any_of(files.begin(), files.end(), [&](const fs::path& file) {
        return suggestion.at("would_change").get<std::string>().find(readCase(file).says) !=
               std::string::npos;
    });
}

} // namespace

TEST_CASE("every case typed at the bench is answered as a careful specialist would") {
    for (const fs::path& file : caseFiles("typed")) {
        const TypedCase one = readCase(file);
        DYNAMIC_SECTION(file.stem().string() + ": " + one.title) {
            REQUIRE_FALSE(one.source.empty());
            const Bench bench(one.unit);
            typeIn(bench, one.lines);
            const json said = bench.suggestion();
            checkSuggestion(said, one.expected);
            INFO(said.at("would_change"));
            CHECK((said.at("outcome") == "not enough evidence" || isTurned(said)));
        }
    }
}

// Types in what the sentence names, and expects another suggestion.
TEST_CASE("an entry said to change a suggestion changes it when it is typed in") {
    for (const fs::path& file : caseFiles("turned")) {
        const TypedCase one = readCase(file);
        DYNAMIC_SECTION(file.stem().string() + ": " + one.title) {
            REQUIRE_FALSE(one.source.empty());
            const TypedCase before = readCase(typedFolder("typed") / one.after);
            const Bench bench(before.unit);
            typeIn(bench, before.lines);
            const json first = bench.suggestion();
            CHECK_THAT(first.at("would_change").get<std::string>(), Catch::Contains(one.says));
            typeIn(bench, one.lines);
            const json after = bench.suggestion();
            checkSuggestion(after, one.expected);
            CHECK((after.at("outcome") != first.at("outcome") ||
                   after.at("which") != first.at("which") ||
                   after.at("next_test") != first.at("next_test") ||
                   after.at("scope") != first.at("scope")));
        }
    }
}
