// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shell_text.h"

namespace swarfbook {

std::string quotedForShell(std::string_view text) {
    std::string quoted = "'";
    for (const char c : text) {
        if (c == '\'')
            quoted += "'\\''"; // a mark within marks: they end, one of its own, they begin again
        else
            quoted += c;
    }
    return quoted + "'";
}

} // namespace swarfbook
