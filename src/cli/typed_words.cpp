// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_words.h"

#include "base/errors.h"
#include "base/text.h"
#include "record/entry_text.h"

#include <boost/any.hpp>
#include <fmt/format.h>

namespace swarfbook::cli {
namespace {

const std::set<std::string>& namesOfFiles() {
    static const std::set<std::string> all{"photo",        "out",        "picture",    "annotated",
                                           "blank",        "book",       "from-table", "file",
                                           "photo-before", "photo-after"};
    return all;
}

void check(const std::string& name, const std::string& text) {
    const std::string what =
        name == "words" || name == "action" || name == "which" || name == "name" || name == "label"
            ? "What you typed"
            : fmt::format("The text of --{}", name);
    const bool isNote = name == "note" || name == "complaint";
    requirePlain(what, text, isNote ? Breaks::keep : Breaks::escape);
    if (characterCount(text) > longestText)
        throw UsageError(fmt::format("{} is {} characters long; at most {} fit. Shorten it.", what,
                                     characterCount(text), longestText));
}

/// Other odd characters of a file's name are shown escaped; a line break would pass for a line of
/// ours.
void checkFileName(const std::string& file) {
    if (file.find_first_of("\r\n") != std::string::npos)
        throw UsageError(fmt::format("The name {} holds a line break. Give the file or folder "
                                     "another name, then type that one.",
                                     shown(file)));
}

void checkOne(const std::string& name, const std::string& text) {
    if (namesOfFiles().contains(name))
        checkFileName(text);
    else
        check(name, text);
}

} // namespace

void checkTypedWords(const ParsedOptions& words) {
    for (const auto& [name, value] : words) {
        if (const auto* text = boost::any_cast<std::string>(&value.value()))
            checkOne(name, *text);
        if (const auto* list = boost::any_cast<std::vector<std::string>>(&value.value()))
            for (const std::string& text : *list)
                checkOne(name, text);
    }
}

} // namespace swarfbook::cli
