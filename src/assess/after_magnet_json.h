// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// What a measurement document holds under `after_magnet`.
///
/// `used` false: `why_not` says why, and there is nothing after it. Else `judged_from_mm` is the
/// size limit of the sweep; `pieces`, `bright_metal` and each of `by_size_class` hold `gone` (with
/// the magnet: magnetic), `left` (not magnetic), `not_known`, and the magnetic share of what is
/// gone or left, `share_by_count` and `share_by_area`, each with its `interval_95`; null where
/// it has no share. `smaller` pieces are not judged. Checked: tests/assess/after_magnet_test.cpp.
nlohmann::ordered_json toJson(const AfterMagnet& after);

/// Inverse; throws std::invalid_argument or the JSON library's own exception.
AfterMagnet afterMagnetFromJson(const nlohmann::json& document);

} // namespace swarfbook
