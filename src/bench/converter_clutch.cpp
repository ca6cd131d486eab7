// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/converter_clutch.h"

#include "base/text.h"

#include <string>

namespace swarfbook {

bool namesConverterClutch(std::string_view text) {
    const std::string lower = lowered(text);
    for (const char* word : {"converter", "tcc", "lock-up", "lockup", "lock up"})
        if (lower.find(word) != std::string::npos)
            return true;
    return false;
}

bool servesConverterClutch(SolenoidKind kind, std::string_view name) {
    return kind == SolenoidKind::converter || namesConverterClutch(name);
}

} // namespace swarfbook
