// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_words_here.h"
#include "rendered/demo_photos.h"

namespace swarfbook::test {

/// The program on these words, as its user starts it; under the address sanitizer, where starting
/// it takes ten times as long, in the test's own process. frame_test.cpp starts every verb there.
inline ProgramResult runAsUser(const std::vector<std::string>& words, const RunOptions& options) {
#ifdef SWARFBOOK_SANITIZED
    return runWordsHere(words, options);
#else
    return runProgram(words, options);
#endif
}

/// A book and a folder to work in, used as a shop would.
struct Shop {
    TemporaryFolder folder;

    [[nodiscard]] ProgramResult run(const std::vector<std::string>& words) const {
        RunOptions options;
        options.folder = folder.path();
        options.environment["SWARFBOOK_BOOK"] = (folder.path() / "book").string();
        return runAsUser(words, options);
    }
    /// One verb with the words that follow it.
    [[nodiscard]] ProgramResult verb(const std::string& name,
                                     std::vector<std::string> words) const {
        words.insert(words.begin(), name);
        return run(words);
    }
    [[nodiscard]] bool has(const std::string& name) const {
        return std::filesystem::exists(folder.path() / name);
    }
};

/// A demo photo of a white card.
inline std::string demoPhoto() {
    return (demoPhotos() / "history-1.jpg").string();
}

} // namespace swarfbook::test
