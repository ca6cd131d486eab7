// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iomanip>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook::test {

/// Words of a line of shell with plain double quotes.
inline std::vector<std::string> wordsOf(const std::string& line) {
    std::vector<std::string> words;
    std::istringstream in(line);
    for (std::string word; in >> std::quoted(word);)
        words.push_back(word);
    return words;
}

/// A case of a folder of tests/cli: what a technician types, in loose words, and what a specialist
/// would then say. Lines without # are typed after "swarfbook observe --visit 1".
struct TypedCase {
    std::string title, source;
    std::string after; ///< the file of tests/cli/typed that is typed first, "" for none
    std::string unit;  ///< the table of tests/cli/units that is its chart, "" for Demo 5
    std::string says;  ///< text in the sentence on what would change the suggestion
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
                 !take(line, "# says: ", one.says) && !take(line, "# unit: ", one.unit) &&
                 !take(line, "# ", one.title) && !line.empty())
            one.lines.push_back(line);
    }
    return one;
}

inline std::filesystem::path typedFolder(const std::string& name) {
    return std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "tests/cli" / name;
}

/// The chart typed for a case.
inline std::filesystem::path unitTable(const std::string& name) {
    return typedFolder("units") / name;
}

/// The cases of this folder by their names.
inline std::vector<std::filesystem::path> caseFiles(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(typedFolder(folder)))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace swarfbook::test
