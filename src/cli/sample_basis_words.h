// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"
#include "particles/sample_basis.h"

#include <boost/program_options/options_description.hpp>

namespace swarfbook::cli {

/// --side, --media-area and --volume.
void addSampleOptions(boost::program_options::options_description& options);

/// What was typed of the sample. UsageError for an option that does not go with the place, for a
/// side that is neither, and for an area or a volume that cannot be read or cannot be: an area is
/// 10 to 100,000 cm2 with its unit (cm2, mm2, m2, in2) or width x height with one (40x30cm,
/// 16x12in), a volume 1 ml to 20 l with its unit.
/// Checked: tests/cli/sample_basis_test.cpp.
SampleBasis sampleBasisOf(const ParsedOptions& words, Place place);

} // namespace swarfbook::cli
