// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/manual.h"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <utility>

// swarfbook_manual FOLDER writes the manual page and the shells' completions there; only the build
// uses it.
int main(int argc, char** argv) {
    using namespace swarfbook::cli;
    if (argc != 2) {
        std::cerr << "usage: swarfbook_manual FOLDER\n";
        return 2;
    }
    const std::filesystem::path folder(argv[1]);
    for (const auto& [name, text] : {std::pair{"swarfbook.1", manualPage()},
                                     {"swarfbook.bash", bashCompletion()},
                                     {"_swarfbook", zshCompletion()},
                                     {"swarfbook.fish", fishCompletion()}}) {
        std::ofstream out(folder / name);
        out << text << std::flush;
        if (!out) {
            std::cerr << "swarfbook_manual: " << (folder / name) << " cannot be written\n";
            return 3;
        }
    }
    return 0;
}
