// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/clean_reference.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Calibrates a photo of the same scene under a lamp that was moved by the card in it, as the first
/// one was, and lays it under the first one.
/// @param first  what is measured, as for its clean reference.
/// @return how that went (SecondLightUse::used and whyNot), and what it shows where it can be used.
/// Checked: tests/assess/second_light_test.cpp.
std::pair<SecondLightUse, std::optional<SecondLight>>
laySecondLightUnder(const PhotoFile& second, const PhotoForCleanReference& first,
                    const std::vector<CardLayout>& layouts, const PieceNetwork& network);

/// Fills in what the pieces say of the change of light.
void tellChange(SecondLightUse& use, const DebrisFinding& debris);

/// The caution that stands with a measurement whose second light could not be used, or fell much
/// like the first; empty else.
std::string secondLightCaution(const SecondLightUse& use);

} // namespace swarfbook
