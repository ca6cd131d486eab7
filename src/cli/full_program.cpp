// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/full_program.h"

#include "base/memory.h"
#include "base/picture_memory.h"
#include "base/running_program.h"
#include "cli/command.h"
#include "cli/command_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <iostream>
#include <new>
#include <system_error>
#include <unistd.h>

namespace swarfbook::cli {
namespace {

constexpr const char* fullProgram = "swarfbook-full";
// MiB that its libraries map, with what preparePictureMemory() sets aside; with less some of them
// end the program in words of their own. Our own experiment: tests/cli/low_memory_test.cpp.
constexpr std::size_t roomToStart = 208;

/// Where it lies as built; where that is no file, as installed.
std::filesystem::path placeOfFullProgram() {
    std::error_code none;
    const auto here = runningProgram().parent_path();
    const auto beside = here / fullProgram;
    if (std::filesystem::is_regular_file(beside, none))
        return beside;
    return here.parent_path() / "libexec" / "swarfbook" / fullProgram;
}

} // namespace

bool isQuick(const std::vector<std::string>& words) {
    const CommandLine typed = readCommandLine(words);
    if (typed.verb == "--version")
        return true;
    const auto& typedWords = typed.words;
    if (typed.verb == "visit" && !typed.help &&
        std::find(typedWords.begin(), typedWords.end(), "measure") != typedWords.end())
        return false;
    if (typed.verb == "piece" && !typed.help &&
        std::find(typedWords.begin(), typedWords.end(), "--review") != typedWords.end())
        return false;
    // A photo of work is decoded before it is kept, and the lines of a file may name one.
    const bool mayNamePhoto =
        std::any_of(typedWords.begin(), typedWords.end(), [](const auto& word) {
            return word.starts_with("--photo-") || word.starts_with("--file");
        });
    if (typed.verb == "observe" && !typed.help && mayNamePhoto)
        return false;
    const auto& quick = quickCommands();
    return std::any_of(quick.begin(), quick.end(),
                       [&](const CommandEntry& one) { return one.name == typed.verb; });
}

int becomeFullProgram(char** words) {
    try {
        requireMemory(roomToStart);
    } catch (const std::bad_alloc&) {
        std::cerr << "swarfbook: there is not enough memory for this. Close other programs and try "
                     "again.\n";
        return failed;
    }
    const std::string program = placeOfFullProgram();
    preparePictureMemory();
    execv(program.c_str(), words);
    std::cerr << fmt::format("swarfbook: {} cannot be started ({}). It does what needs photos, "
                             "cards and pages, and belongs to this program: install swarfbook "
                             "again.\n",
                             program, std::strerror(errno));
    return failed;
}

} // namespace swarfbook::cli
