// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <opencv2/core.hpp>

#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>

namespace swarfbook::test {

/// Twelve-megapixel photos are passed over where tests are to be short.
enum class Size { small, large };

/// A folder of openly licensed photographs, which are no part of this project: nullopt, said aloud,
/// where they are not on this machine.
inline std::optional<std::filesystem::path> realPhotos(const std::string& name, Size size) {
    const auto folder = std::filesystem::path(SWARFBOOK_SHARED_DIR) / "real-photos" / name;
    if (!std::filesystem::exists(folder)) {
        WARN("Passed over: the photographs are not here (" << folder.string() << ").");
        return std::nullopt;
    }
    if (size == Size::large && std::getenv("SWARFBOOK_SHORT_TESTS") != nullptr) {
        WARN("Passed over in the short run: " << name << ".");
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
