// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/sample_basis.h"

#include <optional>
#include <string>

namespace swarfbook {

/// What is typed of a sample, as it is typed: "clean", "40x30cm", "100ml"; nothing where it is not
/// said.
struct SampleTyped {
    std::optional<std::string> side, mediaArea, volume;
};

/// What that means. UsageError for what does not go with the place, for a side that is neither, and
/// for an area or a volume that cannot be read or cannot be: an area is 10 to 100,000 cm2 with its
/// unit (cm2, mm2, m2, in2) or width x height with one (40x30cm, 16x12in), a volume 1 ml to 20 l
/// with its unit.
/// Checked: tests/cli/sample_basis_test.cpp.
SampleBasis sampleBasisTyped(const SampleTyped& typed, Place place);

} // namespace swarfbook
