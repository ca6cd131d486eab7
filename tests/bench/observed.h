// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <nlohmann/json.hpp>

#include <string>

namespace swarfbook::test {

/// An observation from its JSON, as it is stored.
inline Observation observed(const std::string& kind, const std::string& json) {
    return observationFromJson(kind, nlohmann::json::parse(json));
}

} // namespace swarfbook::test
