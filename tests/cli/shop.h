// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"

namespace swarfbook::test {

/// A book and a folder to work in, used as a shop would.
struct Shop {
    TemporaryFolder folder;

    [[nodiscard]] Outcome run(const std::vector<std::string>& words) const {
        RunOptions options;
        options.folder = folder.path();
        options.environment["SWARFBOOK_BOOK"] = (folder.path() / "book").string();
        return runProgram(words, options);
    }
    /// One verb with the words that follow it.
    [[nodiscard]] Outcome verb(const std::string& name, std::vector<std::string> words) const {
        words.insert(words.begin(), name);
        return run(words);
    }
    [[nodiscard]] bool has(const std::string& name) const {
        return std::filesystem::exists(folder.path() / name);
    }
};

/// A demo photo of a white card.
inline std::string demoPhoto() {
    return (std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "demo-images" / "history-1.jpg").string();
}

} // namespace swarfbook::test
