// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/blank_photo.h"
#include "assess/measurement.h"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace swarfbook {

/// What the user says of a photo besides the photo itself.
struct AssessOptions {
    Place place = Place::pad;
    std::optional<Millimetres> measuredBar; ///< check bar of this very card, by callipers
    std::string serial;                     ///< of the card, "" when not given
    std::optional<bool> windowCutOut;       ///< frame or pad; default: pad for pad/magnet/strained
    std::shared_ptr<const BlankPhoto> blank{}; ///< of the same place cleaned; null when not given
};

/// Data that measuring is done by, loaded once from the installed folders.
struct AssessData {
    std::vector<CardLayout> layouts;
    std::filesystem::path models; ///< folder of the piece model and the look model
};

/// Loads AssessData from dataFolder()/calibration and /models. Throws ToolError.
AssessData loadAssessData();

/// Where calibration/ and models/ lie: $SWARFBOOK_DATA, else beside the program, where it was
/// installed (../share/swarfbook). A build makes a link there, so that its program finds them too.
std::filesystem::path dataFolder();

/// The one pipeline: photo in, findings out. Bytes are decoded, the card found, the window
/// measured. Never throws for a bad photo: that is Measurement::refusal. A blank that cannot be
/// used costs nothing of the measurement: Measurement::blank and a caution say why.
Measurement assessPhotoFile(const std::filesystem::path& file, const AssessData& data,
                            const AssessOptions& options);
/// The same from an already decoded photo.
/// @param photo  handed over (std::move) where it is not needed afterwards: what lies round a large
///               photo's window is then not kept while the window is measured.
Measurement assessPhoto(Photo photo, const AssessData& data, const AssessOptions& options);

} // namespace swarfbook
