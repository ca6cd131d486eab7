// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "assess/photo_file.h"
#include "debris/measure_debris.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// What the measured photo is, for its clean reference and its second light.
struct PhotoForCleanReference {
    const CalibratedPhoto& photo;
    const PreparedWindow& window;
    const std::string& sha256;
    bool onWhiteCard = true;
};

/// Calibrates the clean reference, a photo of the cleaned place, by the card in it, as the photo
/// was, and lays it under the photo.
/// @return how that went (BlankUse::used and whyNot), and the picture where it can be used.
/// Checked: tests/assess/clean_reference_test.cpp.
std::pair<CleanReferenceUse, std::optional<CleanReferencePicture>>
layCleanReference(const PhotoFile& cleanReference, const PhotoForCleanReference& measured,
                  const std::vector<CardLayout>& layouts);

/// The caution that stands with a measurement whose clean reference could not be used; empty when
/// it was.
std::string cleanReferenceCaution(const CleanReferenceUse& use);

} // namespace swarfbook
