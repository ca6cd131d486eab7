// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shell_text.h"

namespace swarfbook {

std::string quotedForShell(std::string_view text) {
    std::string quoted = "'";
    for (const char c : text) {
        if (c == '\'')
            quoted += "'\\''"; // a quotation mark inside: close, escape it, open again
        else
            quoted += c;
    }
    return quoted + "'";
}

} // namespace swarfbook
