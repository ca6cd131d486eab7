// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/uploads.h"

#include "base/errors.h"
#include "base/private_file.h"
#include "base/sha256.h"
#include "record/photo_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <fcntl.h>
#include <system_error>

namespace fs = std::filesystem;

namespace swarfbook::web {
namespace {

bool isSha256(const std::string& text) {
    return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

std::uint64_t sizeOf(const fs::path& file) {
    std::error_code none;
    const auto size = fs::file_size(file, none);
    return none ? 0 : size;
}

} // namespace

Uploads::Uploads(fs::path pagesFolder) : folder_(std::move(pagesFolder) / "incoming") {
    makePrivateFolder(folder_);
    clearOld();
}

fs::path Uploads::fileOf(const ComingPhoto& photo) const {
    if (!isSha256(photo.sha256))
        throw UsageError("The photo was not named by its SHA-256, so it was not added.");
    if (photo.size == 0 || photo.size > largestPhotoBytes)
        throw UsageError(fmt::format("A photo may hold 1 byte to {} MiB; this one holds {} bytes.",
                                     largestPhotoBytes >> 20U, photo.size));
    return folder_ / (photo.sha256 + ".part");
}

void Uploads::clearOld() const {
    const auto yesterday = fs::file_time_type::clock::now() - std::chrono::hours(24);
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder_))
        if (entry.path().extension() == ".part" && entry.last_write_time(none) < yesterday)
            fs::remove(entry.path(), none);
}

std::uint64_t Uploads::received(const ComingPhoto& photo) const {
    const std::lock_guard lock(mutex_);
    return sizeOf(fileOf(photo));
}

std::uint64_t Uploads::add(const ComingPhoto& photo, std::uint64_t from,
                           std::span<const std::byte> part) {
    const std::lock_guard lock(mutex_);
    const fs::path file = fileOf(photo);
    const std::uint64_t there = sizeOf(file);
    if (from != there)
        return there;
    if (part.size() > photo.size - there)
        throw UsageError("More bytes came than the photo holds, so they were not taken.");
    if (there == 0) {
        clearOld();
        if (std::distance(fs::directory_iterator(folder_), {}) >=
            static_cast<std::ptrdiff_t>(mostUnfinished))
            throw UsageError("Too many photos are half received. Finish those first.");
    }
    try {
        const OpenFile out(file, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC | O_NOFOLLOW);
        out.write(part);
    } catch (const std::system_error& trouble) {
        throw ToolError(fmt::format("The photo could not be taken in: {}.", trouble.what()));
    }
    return there + part.size();
}

std::vector<std::byte> Uploads::whole(const ComingPhoto& photo) {
    const std::lock_guard lock(mutex_);
    const fs::path file = fileOf(photo);
    if (sizeOf(file) != photo.size)
        throw UsageError("The photo has not arrived wholly. Send it again; it goes on where it "
                         "stopped.");
    std::vector<std::byte> bytes = readWholeFile(file);
    if (sha256Hex(bytes) == photo.sha256)
        return bytes;
    fs::remove(file);
    throw UsageError("The photo was changed on its way, so it was not added. Send it again.");
}

void Uploads::forget(const ComingPhoto& photo) {
    const std::lock_guard lock(mutex_);
    std::error_code none;
    fs::remove(fileOf(photo), none);
}

} // namespace swarfbook::web
