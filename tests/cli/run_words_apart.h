// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"
#include "cli/run_program.h"

namespace swarfbook::test {

/// As runProgram, but without loading the program's libraries once more: for tests that type many
/// commands, and no photos.
inline Outcome runWordsApart(const std::vector<std::string>& words, RunOptions options = {}) {
    options.inPlace = [](const std::vector<std::string>& typed) { return cli::runWords(typed); };
    return runProgram(words, options);
}

} // namespace swarfbook::test
