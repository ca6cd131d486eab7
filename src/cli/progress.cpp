// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/progress.h"

#include "base/text.h"
#include "cli/terminal.h"

#include <fmt/format.h>

#include <iostream>
#include <string_view>
#include <unistd.h>

namespace swarfbook::cli {
namespace {

/// Writes to the terminal itself: the bar returns to the start of its line, which other text must
/// not.
void toTerminal(std::string_view text) {
    std::cout.flush();
    std::cerr.flush();
    while (!text.empty()) {
        const ssize_t written = ::write(STDERR_FILENO, text.data(), text.size());
        if (written <= 0)
            return; // not being able to show a bar is not a failure
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

constexpr std::string_view clearedLine = "\r\x1b[K"; // ECMA-48, erase in line

} // namespace

std::string progressBar(std::size_t begun, std::size_t count, const std::string& name,
                        std::size_t width) {
    constexpr std::size_t barLength = 20;
    const std::size_t filled = barLength * (begun - 1) / count;
    const std::string start =
        fmt::format("[{:#<{}}{:.<{}}] {} of {}", "", filled, "", barLength - filled, begun, count);
    if (start.size() >= width)
        return start.substr(0, width);
    const std::string all = start + "  " + shown(name);
    return characterCount(all) <= width ? all : piecesOf(all, width - 1).front();
}

void Progress::next(const std::string& name) {
    ++begun_;
    if (count_ < 2 || saysNothing())
        return;
    if (const auto width = terminalWidth(Stream::error)) {
        // one character less than the line, because writing in the last one begins the next line
        toTerminal(std::string(clearedLine) + progressBar(begun_, count_, name, *width - 1));
        shown_ = true;
    } else {
        std::cerr << fmt::format("photo {} of {}: {}", begun_, count_, name) << std::endl;
    }
}

void Progress::clear() {
    if (shown_)
        toTerminal(clearedLine);
    shown_ = false;
}

} // namespace swarfbook::cli
