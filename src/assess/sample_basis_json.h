// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// `sample` of the measurement document: what was typed of the sample and the counts that follow.
/// Null where nothing was typed. `filter_side` is "dirty", "clean" or null; `media_cm2` and
/// `volume_ml` as typed or null. `whole_media` holds the counts on the whole media, `per_100_ml`
/// those per 100 ml with the level of ISO 16232 (null where the class is not complete), each with
/// its 95 % interval; null where they cannot be given. `iso_4406` is the code by microscope or
/// null, and then `iso_4406_why_not` says why.
nlohmann::ordered_json sampleJson(const Measurement& measurement);

/// What was typed, as the document or a finding's options keep it: members `filter_side`,
/// `media_cm2`, `volume_ml`.
nlohmann::ordered_json toJson(const SampleBasis& basis);
/// Reads it back; null and missing members count as not typed. Throws std::invalid_argument or the
/// JSON library's exception for what cannot be there.
/// Checked: tests/assess/measurement_json_test.cpp.
SampleBasis sampleBasisFromJson(const nlohmann::json& document);

/// Standard uncertainty, relative, of the area measured in the window, from the fit of the card and
/// its print scale: twice that of a length.
double areaRelativeU(const CardFacts& card);

} // namespace swarfbook
