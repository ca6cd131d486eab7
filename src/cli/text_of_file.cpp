// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_of_file.h"

#include "base/errors.h"
#include "base/regular_file.h"
#include "record/entry_text.h"

#include <fmt/format.h>

#include <fstream>
#include <iostream>

namespace swarfbook::cli {
namespace {

constexpr std::size_t largestText = 1'000'000;

std::string textOfStream(std::istream& in, const std::string& name, const std::string& what) {
    std::string text;
    for (char c = 0; text.size() <= largestText && in.get(c);)
        text += c;
    if (text.size() > largestText)
        throw UsageError(fmt::format("{} is far too large for a {}.", name, what));
    requirePlain(name, text);
    return text;
}

} // namespace

std::string textOfFile(const std::string& file, const std::string& what) {
    if (file == "-")
        return textOfStream(std::cin, "The pasted text", what);
    if (const std::string why = whyNotReadable(file); !why.empty())
        throw UsageError(fmt::format("The {} cannot be read: {}", what, why));
    std::ifstream in(file);
    if (!in)
        throw UsageError(fmt::format("The {} {} cannot be read. Check its name.", what, file));
    return textOfStream(in, file, what);
}

} // namespace swarfbook::cli
