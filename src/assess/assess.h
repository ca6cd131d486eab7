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

/// What the user says of a photo besides the photo itself.
struct AssessOptions {
    Place place = Place::pad;
    std::optional<Millimetres> measuredBar; ///< check bar of this very card, by callipers
    SampleBasis basis{};                    ///< typed: side and area of a filter, volume of fluid
    std::string serial{};                   ///< of the card, "" when not given
    std::optional<bool> windowCutOut;       ///< frame or pad; default: pad for pad/magnet/strained
    std::shared_ptr<const PhotoFile>
        cleanReference{}; ///< of the same place cleaned; null when not given
    std::shared_ptr<const PhotoFile>
        secondLight{}; ///< of the same scene, the lamp moved; null when not given
    BarOfCard
        barOfCard{}; ///< asked for the check bar of a card that its code names, if no bar is given
};

/// Data that measuring is done by, loaded once from the installed folders; the models when the
/// first photo is measured.
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
/// cannot be used costs nothing of the measurement: Measurement::cleanReference and a caution say
/// why; the same holds for a second light.
Measurement assessPhotoFile(const std::filesystem::path& file, const AssessData& data,
                            const AssessOptions& options);
/// The same from a photo that was read before.
Measurement assessPhoto(PhotoFile file, const AssessData& data, const AssessOptions& options);
/// The same from an already decoded photo.
/// @param photo  handed over (std::move) where it is not needed afterwards: what lies round a large
///               photo's window is then not kept while the window is measured.
Measurement assessPhoto(Photo photo, const AssessData& data, const AssessOptions& options);

} // namespace swarfbook
