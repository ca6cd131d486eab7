// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/driving_words.h"
#include "bench/typed.h"

#include <optional>
#include <string>

namespace swarfbook {

/// How it drives: in a gear ("3", "R"), over a shift ("2-3"), or in general (both empty).
/// `good` in general means: driven, and nothing wrong found.
struct Complaint {
    std::string gear;
    std::string shift;
    Symptom symptom = Symptom::good;
    Load load = Load::notSaid;
    Warmth warmth = Warmth::notSaid;
    std::optional<Typed<Celsius>> temperature;
    std::string obtainedGear;            ///< wrong-gear: what was obtained
    std::optional<bool> stopsOnBrakeTap; ///< shudder or slip that ends when the converter releases
    std::optional<bool> manualRangeGood; ///< the same gear holds when picked by hand
    std::string note;                    ///< "60-80 km/h"
};

} // namespace swarfbook
