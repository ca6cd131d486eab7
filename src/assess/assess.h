// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/clean_reference.h"
#include "assess/measurement.h"
#include "assess/models_on_demand.h"
#include "assess/photo_file.h"
#include "card/calibrated_photo.h"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace swarfbook {

/// What the user says about a photo.
struct AssessOptions {
    Place place = Place::pad;
    std::optional<Millimetres> measuredBar; ///< check bar of this very card, by callipers
    SampleBasis basis{};                    ///< typed: side and area of a filter, volume of fluid
    std::string serial{};                   ///< of the card, "" when not given
    std::optional<bool> windowCutOut; ///< frame or white card; default: white card for white card,
                                      ///< magnet and strained
    std::shared_ptr<const PhotoFile>
        cleanReference{}; ///< of the same place cleaned; null when not given
    std::shared_ptr<const PhotoFile>
        secondLight{};    ///< of the same scene, the lamp moved; null when not given
    KnownMagnet magnet{}; ///< said of the magnet; counts with place magnet
    BarOfCard
        barOfCard{}; ///< gives the check bar of the card that its code names, if no bar is given
};

/// The data that measuring needs, loaded once from the installed folders; the models are loaded
/// when the first photo is measured.
struct AssessData {
    std::vector<CardLayout> layouts;
    ModelsOnDemand models;
};

/// Loads AssessData from dataFolder()/calibration and /models. Throws ToolError.
AssessData loadAssessData();

/// Where calibration/ and models/ lie: $SWARFBOOK_DATA, else beside the program, where it was
/// installed (../share/swarfbook). A build makes a link there, so that its program finds them too.
std::filesystem::path dataFolder();

/// The one pipeline: photo in, findings out. Bytes are decoded, the card found, the window
/// measured. Never throws for a bad photo: that is Measurement::refusal. A clean reference that
/// cannot be used does not change the measurement; Measurement::cleanReference and a caution say
/// why. The same holds for a second light.
Measurement assessPhotoFile(const std::filesystem::path& file, const AssessData& data,
                            const AssessOptions& options);
/// The same from a photo that was read before.
Measurement assessPhoto(PhotoFile file, const AssessData& data, const AssessOptions& options);
/// The same from an already decoded photo.
/// @param photo  hand it over (std::move) if it is not needed afterwards: the part of a large photo
///               outside the window is then freed while the window is measured.
Measurement assessPhoto(Photo photo, const AssessData& data, const AssessOptions& options);

} // namespace swarfbook
