// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/text.h"

#include <nlohmann/json.hpp>

#include <string>

namespace swarfbook {

/// A text for our documents; an empty text becomes null. Always UTF-8.
inline nlohmann::ordered_json textOrNull(const std::string& text) {
    return text.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(validUtf8(text));
}

} // namespace swarfbook
