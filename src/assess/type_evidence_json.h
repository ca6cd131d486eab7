// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// `type_said` of a piece: `hand` a type, `sweep` "magnetic" or "not magnetic", `two_lights` and
/// `photo` {type, probability}; each null where it said nothing.
nlohmann::ordered_json toJson(const TypeEvidence& said);
/// Reads it back. Throws std::invalid_argument or the JSON library's exception for what cannot be
/// there. Checked: tests/assess/measurement_json_test.cpp.
TypeEvidence typeEvidenceFromJson(const nlohmann::json& document);

} // namespace swarfbook
