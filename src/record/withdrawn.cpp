// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <cctype>

namespace swarfbook {

std::string withdrawalSentence(std::string_view noun, const std::string& name,
                               const ChangeReason& reason, const std::string& at) {
    std::string title(noun);
    title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
    const bool number = name.find_first_not_of("0123456789") == std::string::npos;
    return fmt::format("{} {} was withdrawn on {}{}: {}. swarfbook {} withdraw {} --undo brings it "
                       "back.",
                       title, name, at.substr(0, 10), reason.by.empty() ? "" : " by " + reason.by,
                       reason.why, noun, number ? name : "\"" + name + "\"");
}

} // namespace swarfbook
