// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/case_files.h"
#include "cli/typed_bench.h"

namespace swarfbook::test {

inline void typeIn(const Bench& bench, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) {
        const ProgramResult typed = bench.observe(line);
        INFO(line << "\n" << typed.err);
        REQUIRE(typed.exit == 0);
    }
}

/// "KEY": the suggestion's own value; "KEY_says", "KEY_avoids": a text that it contains or does not
/// contain.
inline void checkEntry(const nlohmann::json& suggestion, const std::string& key,
                       const nlohmann::json& expected) {
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

inline void checkSuggestion(const nlohmann::json& s, const nlohmann::json& expected) {
    INFO(s.at("headline") << "\n"
                          << s.at("next_test") << "\n"
                          << s.at("strongest_reasons").dump(1));
    for (const auto& entry : expected.items()) {
        INFO(entry.key());
        checkEntry(s, entry.key(), entry.value());
    }
}

} // namespace swarfbook::test
