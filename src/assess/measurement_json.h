// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// The measurement document "swarfbook measurement 1". A refused photo has `refusal` and no
/// `particles`. Checked: tests/assess/measurement_json_test.cpp.
nlohmann::ordered_json toJson(const Measurement& measurement);

/// Reads the document back. The mapping is not part of the document: see mappingToJson.
/// Throws std::invalid_argument naming what is missing or wrong.
Measurement measurementFromJson(const nlohmann::json& document);

/// The mapping from card to photo, kept beside a stored finding so that its outlines can be drawn.
nlohmann::json toJson(const PlaneMapping& mapping);
PlaneMapping mappingFromJson(const nlohmann::json& document);

} // namespace swarfbook
