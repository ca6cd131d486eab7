// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command.h"
#include "cli/full_program.h"

int main(int argc, char** argv) {
    const std::vector<std::string> words{argv + 1, argv + argc};
    if (swarfbook::cli::isQuick(words))
        return swarfbook::cli::runWords(words, swarfbook::cli::quickCommands());
    return swarfbook::cli::becomeFullProgram(argv);
}
