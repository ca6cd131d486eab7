// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/given_photos.h"

#include "base/errors.h"
#include "base/text.h"
#include "photo/decode.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

constexpr const char* pipedIn = "-";
constexpr std::size_t mostBytes = std::size_t{256} << 20; // as readPhotoFile

bool hasPhotosName(const fs::path& file) {
    constexpr std::array<std::string_view, 5> endings{".jpg", ".jpeg", ".png", ".heic", ".heif"};
    const std::string ending = lowered(file.extension().string());
    return !file.filename().string().starts_with('.') &&
           std::find(endings.begin(), endings.end(), ending) != endings.end();
}

/// A folder's photos, photo-2 before photo-10.
std::vector<fs::path> photosIn(const fs::path& folder) {
    std::vector<fs::path> photos;
    try {
        for (const auto& entry : fs::directory_iterator(folder))
            if (hasPhotosName(entry.path()) && !entry.is_directory())
                photos.push_back(entry.path());
    } catch (const fs::filesystem_error& error) {
        throw ToolError(fmt::format("The folder {} cannot be read ({}). Check that you may read it "
                                    "(ls -ld).",
                                    folder.string(), error.code().message()));
    }
    if (photos.empty())
        throw UsageError(fmt::format("There is no photo in the folder {}: no file whose name ends "
                                     "in .jpg, .jpeg, .png, .heic or .heif.",
                                     folder.string()));
    std::sort(photos.begin(), photos.end(), [](const fs::path& a, const fs::path& b) {
        const int order = ::strverscmp(a.c_str(), b.c_str());
        return order != 0 ? order < 0 : a < b;
    });
    return photos;
}

std::vector<std::byte> allPipedIn() {
    if (::isatty(STDIN_FILENO) != 0)
        throw UsageError(
            "The photo - means one that is piped in, and none is. Name a file, or pipe "
            "one: swarfbook measure - < PHOTO.");
    std::vector<std::byte> bytes;
    std::array<std::byte, 1U << 16U> part{};
    while (bytes.size() <= mostBytes) {
        const ssize_t count = ::read(STDIN_FILENO, part.data(), part.size());
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0)
            throw ToolError(
                fmt::format("What is piped in cannot be read ({}).", std::strerror(errno)));
        if (count == 0)
            return bytes;
        bytes.insert(bytes.end(), part.begin(), part.begin() + count);
    }
    throw UsageError(fmt::format(
        "More than {} MiB were piped in; no photo of a phone is that large.", mostBytes >> 20U));
}

} // namespace

GivenPhotos::GivenPhotos(const std::vector<std::string>& typed) {
    if (std::count(typed.begin(), typed.end(), pipedIn) > 1)
        throw UsageError("Only one photo can be piped in: give - once.");
    for (const std::string& word : typed) {
        std::error_code none;
        if (word == pipedIn)
            piped_ = allPipedIn();
        if (word == pipedIn || !fs::is_directory(word, none)) {
            files_.emplace_back(word);
            continue;
        }
        for (fs::path& photo : photosIn(word))
            files_.push_back(std::move(photo));
    }
}

Result<std::vector<std::byte>> GivenPhotos::bytes(const fs::path& file) const {
    if (file != pipedIn)
        return readPhotoFile(file);
    if (piped_.empty())
        return Refusal{RefusalReason::notAPhoto, "Nothing was piped in (0 bytes).",
                       "Pipe the photo's file in, as in: swarfbook measure - < PHOTO."};
    return piped_;
}

PhotoFile GivenPhotos::read(const fs::path& file) const {
    return file == pipedIn ? photoFrom(bytes(file), nameOf(file)) : readPhoto(file);
}

std::string GivenPhotos::nameOf(const fs::path& file) {
    return file == pipedIn ? "standard-input" : file.filename().string();
}

} // namespace swarfbook::cli
