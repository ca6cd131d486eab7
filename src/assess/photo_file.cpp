// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"

#include "base/memory.h"
#include "base/sha256.h"
#include "photo/decode.h"

#include <utility>

namespace swarfbook {
namespace {

/// Memory for measuring, seen with 12 megapixels and two threads: 220 MiB. OpenMP ends the program
/// if it gets no thread, so this is checked first.
constexpr std::size_t measuringMiB = 256;

} // namespace

PhotoFile photoFrom(const Result<std::vector<std::byte>>& bytes, const std::string& name) {
    if (!bytes)
        return {name, "", bytes.error()};
    requireMemory(measuringMiB);
    auto photo = decodePhoto(*bytes, name);
    const std::string sha256 = photo ? photo->facts.sha256 : sha256Hex(*bytes);
    return {name, sha256, std::move(photo)};
}

PhotoFile readPhoto(const std::filesystem::path& file) {
    requireMemory(measuringMiB);
    return photoFrom(readPhotoFile(file), file.filename().string());
}

} // namespace swarfbook
