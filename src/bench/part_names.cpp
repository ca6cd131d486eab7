// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/part_names.h"

#include "base/text.h"

namespace swarfbook {

bool standsForOthers(const std::string& name) {
    const std::string lower = lowered(name);
    return lower == "all" || lower == "rest" || lower == "others" || lower == "the rest";
}

bool meansLetter(const std::string& name, const std::string& letter) {
    const std::string lower = lowered(name), wanted = lowered(letter);
    return lower == wanted || lower.ends_with(" " + wanted) || lower.ends_with("-" + wanted);
}

} // namespace swarfbook
