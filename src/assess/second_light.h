// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/clean_reference.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Calibrates a photo of the same scene under a moved lamp by the card in it, in the same way as
/// the first photo, and lays it under the first.
/// @param first  the measured photo, as for its clean reference.
/// @return whether it can be used (SecondLightUse::used and whyNot), and what it shows if so.
/// Checked: tests/assess/second_light_test.cpp.
std::pair<SecondLightUse, std::optional<SecondLight>>
laySecondLightUnder(const PhotoFile& second, const PhotoForCleanReference& first,
                    const std::vector<CardLayout>& layouts, const PieceNetwork& network);

/// Fills in the change of light from the pieces.
void tellChange(SecondLightUse& use, const DebrisFinding& debris);

/// The caution for a measurement whose second light could not be used or came from almost the same
/// side; else empty.
std::string secondLightCaution(const SecondLightUse& use);

} // namespace swarfbook
