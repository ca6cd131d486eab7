// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <opencv2/core.hpp>

#include <filesystem>
#include <optional>
#include <string>

namespace swarfbook::test {

/// A folder of openly licensed photographs, which are not part of this project; nullopt, with a
/// message, if they are not on this machine.
inline std::optional<std::filesystem::path> realPhotos(const std::string& name) {
    const auto folder = std::filesystem::path(SWARFBOOK_SHARED_DIR) / "real-photos" / name;
    if (!std::filesystem::exists(folder)) {
        WARN("Passed over: the photographs are not here (" << folder.string() << ").");
        return std::nullopt;
    }
    return folder;
}

/// The upright picture, by the project's own decoder.
inline cv::Mat pictureOf(const std::filesystem::path& file) {
    const auto bytes = readPhotoFile(file);
    REQUIRE(bytes);
    const auto photo = decodePhoto(*bytes, file.filename().string());
    REQUIRE(photo);
    return photo->bgr;
}

} // namespace swarfbook::test
