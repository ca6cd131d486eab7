// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/terminal.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <sys/ioctl.h>
#include <unistd.h>

namespace swarfbook::cli {
namespace {

constexpr std::size_t narrowest = 20;
constexpr std::size_t usualWidth = 80;

int descriptorOf(Stream stream) {
    return stream == Stream::output ? STDOUT_FILENO : STDERR_FILENO;
}

std::string_view environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string_view() : std::string_view(value);
}

/// $COLUMNS, 0 if it is not a number.
std::size_t columnsSaid() {
    const std::string_view said = environment("COLUMNS");
    std::size_t columns = 0;
    std::from_chars(said.data(), said.data() + said.size(), columns);
    return columns;
}

std::string marked(char style, std::string_view text, Stream stream) {
    if (!wantsColour(stream))
        return std::string(text);
    return std::string{markBegin, style}.append(text) + markEnd;
}

bool quietly = false;
bool wholeLines = false;

} // namespace

std::optional<std::size_t> terminalWidth(Stream stream) {
    if (::isatty(descriptorOf(stream)) == 0)
        return std::nullopt;
    winsize size{};
    std::size_t columns = 0;
    if (::ioctl(descriptorOf(stream), TIOCGWINSZ, &size) == 0)
        columns = size.ws_col;
    if (columns == 0)
        columns = columnsSaid();
    return std::max(narrowest, columns == 0 ? usualWidth : columns);
}

bool wantsColour(Stream stream) {
    return ::isatty(descriptorOf(stream)) != 0 && environment("NO_COLOR").empty() &&
           environment("TERM") != "dumb";
}

std::string heading(std::string_view text, Stream stream) {
    return marked('b', text, stream);
}

std::string alarming(std::string_view text, Stream stream) {
    return marked('r', text, stream);
}

std::string cautioning(std::string_view text, Stream stream) {
    return marked('y', text, stream);
}

std::string_view styleOf(char mark) {
    switch (mark) { // ECMA-48, select graphic rendition
    case 'b':
        return "\x1b[1m";
    case 'r':
        return "\x1b[1;31m";
    case 'y':
        return "\x1b[33m";
    default:
        return "";
    }
}

std::ostream& talk() {
    static std::ostream nowhere(nullptr);
    return quietly ? nowhere : std::cerr;
}

void sayNothing(bool quiet) {
    quietly = quiet;
}

bool saysNothing() {
    return quietly;
}

void keepLinesWhole(bool whole) {
    wholeLines = whole;
}

bool linesStayWhole() {
    return wholeLines;
}

} // namespace swarfbook::cli
