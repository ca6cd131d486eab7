// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"
#include "particles/repeats.h"

#include <string>
#include <vector>

namespace swarfbook {

/// How sure the sizes are for the number of pieces measured (ISO 13322-1), in one or two sentences.
std::string sizeSamplingSentence(const SizeSampling& sampling);

/// Several photos of one sample as one finding: "3 photos of one sample: ...".
std::string repeatsSentence(const RepeatedFinding& finding);
/// The same with a line for every size class.
std::string repeatsText(const RepeatedFinding& finding);

} // namespace swarfbook
