// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/magnet_finding.h"

#include <nlohmann/json.hpp>

#include <optional>

namespace swarfbook {

/// `height_above_card` of a magnet in the measurement document: `mm`, `u_mm` (standard), and
/// `from`, what it rests on: "usual", "hole" or "size". Null where it is not known.
nlohmann::ordered_json toJson(const std::optional<MagnetHeight>& height);
/// Reads it from the magnet's document; documents of earlier programs do not have it. Throws
/// std::invalid_argument or the JSON library's exception for impossible values.
/// Checked: tests/assess/measurement_json_test.cpp.
std::optional<MagnetHeight> magnetHeightFrom(const nlohmann::json& magnet);

} // namespace swarfbook
