// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/typed_bench.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook::test {

/// A case of a folder of tests/cli: what a technician types, loosely as people do, and what a
/// specialist would then say. Lines without # are typed after "swarfbook observe --visit 1".
struct TypedCase {
    std::string title, source;
    std::string after; ///< the file of tests/cli/typed that is typed before, "" for none
    std::string says;  ///< what then stands in the sentence of what would change it
    nlohmann::json expected;
    std::vector<std::string> lines;
};

inline TypedCase readCase(const std::filesystem::path& file) {
    std::ifstream in(file);
    TypedCase one;
    const auto take = [](const std::string& line, std::string_view head, std::string& into) {
        if (!line.starts_with(head))
            return false;
        into = line.substr(head.size());
        return true;
    };
    for (std::string line, expected; std::getline(in, line);) {
        if (take(line, "# expect: ", expected))
            one.expected = nlohmann::json::parse(expected);
        else if (!take(line, "# source: ", one.source) && !take(line, "# after: ", one.after) &&
                 !take(line, "# says: ", one.says) && !take(line, "# ", one.title) && !line.empty())
            one.lines.push_back(line);
    }
    return one;
}

inline std::filesystem::path typedFolder(const std::string& name) {
    return std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "tests/cli" / name;
}

/// The cases of this folder by their names.
inline std::vector<std::filesystem::path> caseFiles(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(typedFolder(folder)))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

inline void typeIn(const Bench& bench, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) {
        const Outcome typed = bench.observe(line);
        INFO(line << "\n" << typed.err);
        REQUIRE(typed.exit == 0);
    }
}

/// "KEY": the suggestion's own value; "KEY_says", "KEY_avoids": a text that stands in it or does
/// not.
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
