// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

#include <algorithm>

using namespace swarfbook::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// A case of tests/cli/typed: what a technician types, loosely as people do, and what a specialist
/// would then say. Lines from the third on are typed after "swarfbook observe --visit 1".
struct TypedCase {
    std::string title, source;
    json expected;
    std::vector<std::string> lines;
};

TypedCase readCase(const fs::path& file) {
    std::ifstream in(file);
    TypedCase one;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("# source: "))
            one.source = line.substr(10);
        else if (line.starts_with("# expect: "))
            one.expected = json::parse(line.substr(10));
        else if (line.starts_with("# "))
            one.title = line.substr(2);
        else if (!line.empty())
            one.lines.push_back(line);
    }
    return one;
}

std::vector<fs::path> caseFiles() {
    std::vector<fs::path> files;
    for (const auto& entry :
         fs::directory_iterator(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/cli/typed"))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

/// "KEY": the suggestion's own value; "KEY_says", "KEY_avoids": a text that stands in it or does
/// not.
void checkEntry(const json& suggestion, const std::string& key, const json& expected) {
    const auto ending = [&](std::string_view end) { return key.ends_with(end); };
    const auto textOf = [&](std::string_view end) {
        return suggestion.at(key.substr(0, key.size() - end.size())).dump();
    };
    if (ending("_says"))
        CHECK_THAT(textOf("_says"), Catch::Contains(expected.get<std::string>()));
    else if (ending("_avoids"))
        CHECK_THAT(textOf("_avoids"), !Catch::Contains(expected.get<std::string>()));
    else
        CHECK(suggestion.at(key) == expected);
}

} // namespace

TEST_CASE("every case typed at the bench is answered as a careful specialist would") {
    for (const fs::path& file : caseFiles()) {
        const TypedCase one = readCase(file);
        DYNAMIC_SECTION(file.stem().string() + ": " + one.title) {
            REQUIRE_FALSE(one.source.empty());
            const Bench bench;
            for (const std::string& line : one.lines) {
                const Outcome typed = bench.observe(line);
                INFO(line << "\n" << typed.err);
                REQUIRE(typed.exit == 0);
            }
            const json s = bench.suggestion();
            INFO(s.at("headline") << "\n"
                                  << s.at("next_test") << "\n"
                                  << s.at("strongest_reasons").dump(1));
            for (const auto& entry : one.expected.items()) {
                INFO(entry.key());
                checkEntry(s, entry.key(), entry.value());
            }
        }
    }
}
