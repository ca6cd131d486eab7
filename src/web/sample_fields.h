// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/sample_basis.h"
#include "web/asked.h"

#include <optional>
#include <string>

/// Where debris was and how it lay, as forms ask for it.
/// Checked: tests/web/upload_test.cpp, tests/web/photo_elsewhere_test.cpp.
namespace swarfbook::web {

/// The places to tap; none is chosen where none is given.
std::string placeChoices(std::optional<Place> chosen);
/// What the photo of a filter or of strained fluid cannot show; the style shows each with its
/// place.
std::string sampleFields(const SampleBasis& said);

/// The place that was tapped. UsageError where none was.
Place placeAsked(const Asked& asked);
/// What was said of the sample, where it belongs to the place: the fields of other places may still
/// be filled in. UsageError as sampleBasisTyped().
SampleBasis basisAsked(const Asked& asked, Place place);

} // namespace swarfbook::web
