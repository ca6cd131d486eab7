// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/sample_basis.h"

#include <string>

namespace swarfbook {

/// Scale number of ISO 4406 for a count per ml: "0" up to and with 0.01, "1" to 0.02, ... "28" to
/// 2,500,000, ">28" beyond. The limits are the standard's own rounded ones (0.64, 1.3, 2.5, 5, ...,
/// 640, 1300, 2500), no powers of two; a limit belongs to the lower number. A count that differs
/// from a limit by the arithmetic of floating numbers alone is at the limit.
/// Throws std::logic_error for a count that is negative or no number.
/// Source: ISO 4406, published table. Checked: tests/particles/fluid_cleanliness_test.cpp.
std::string iso4406Number(double perMl);

/// The same as it stands in a code: marked "≥" where fewer than 20 pieces were counted
/// (ISO 4406). @param counted  pieces in the volume, 0 or more
std::string iso4406Entry(long counted, Millilitres volume);

/// The form of ISO 4406 for counting by microscope, or why there is none.
struct MicroscopeCode {
    std::string code;   ///< "-/17/14": from 5 and from 15 µm up; "" where there is none
    std::string whyNot; ///< with what to do; "" where there is a code
};

/// By the longest side of all pieces from 5 and from 15 µm up, threads included, in this volume.
/// Given only where the photo is complete down to 5 µm and shows the whole sample.
/// Checked: tests/particles/fluid_cleanliness_test.cpp.
MicroscopeCode iso4406ByMicroscope(const DebrisFinding& finding, Millilitres volume);

} // namespace swarfbook
