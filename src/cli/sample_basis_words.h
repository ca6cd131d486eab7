// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"
#include "particles/sample_basis.h"

#include <boost/program_options/options_description.hpp>

namespace swarfbook::cli {

/// --side, --media-area and --volume.
void addSampleOptions(boost::program_options::options_description& options);

/// What was typed of the sample, read as entry/sample_typed.h says.
/// Checked: tests/cli/sample_basis_test.cpp.
SampleBasis sampleBasisOf(const ParsedOptions& words, Place place);

} // namespace swarfbook::cli
