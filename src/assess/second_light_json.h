// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// What a measurement document holds under `second_light`.
///
/// `used` false: `why_not` says why, and there is nothing after it. Else `likeness` of what both
/// photos show of pieces, `shift_mm` of the scene on the second one's card, how many of the pieces
/// both show, and the median change of their light over the card's white.
/// Checked: tests/assess/second_light_test.cpp.
nlohmann::ordered_json toJson(const SecondLightUse& use);
/// Inverse; throws std::invalid_argument or the JSON library's own exception.
SecondLightUse secondLightFromJson(const nlohmann::json& document);

/// What a piece of the document holds under `second_light` where there is a second light: the type
/// that each photo says, with its probability, and the change of its light.
nlohmann::ordered_json toJson(const TwoLights& lights);
/// Inverse; throws as above.
TwoLights twoLightsFromJson(const nlohmann::json& document);

} // namespace swarfbook
