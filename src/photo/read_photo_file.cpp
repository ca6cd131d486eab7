// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decode.h"
#include "photo/decoders.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <system_error>

namespace swarfbook {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t maxFileBytes = std::uintmax_t{256} << 20;

Refusal unreadable(const fs::path& path, const std::string& why) {
    return decoding::notAPhoto(
        fmt::format("{} cannot be read ({}).", path.string(), why),
        "Check that you may read it (ls -l) and that the disk or card it lies on is still "
        "connected.");
}

Refusal notAFile(const fs::path& path, fs::file_type type) {
    if (type == fs::file_type::not_found)
        return decoding::notAPhoto(
            fmt::format("There is no file {}.", path.string()),
            "Check the name and the folder; names with blanks need quotation marks.");
    if (type == fs::file_type::directory)
        return decoding::notAPhoto(
            fmt::format("{} is a folder, not a photo.", path.string()),
            "Name the photos in it, one after the other, or with an asterisk: folder/*.jpg.");
    return decoding::notAPhoto(fmt::format("{} is not an ordinary file.", path.string()),
                               "Save the photo as a file first, then name that file.");
}

} // namespace

Result<std::vector<std::byte>> readPhotoFile(const fs::path& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (error && status.type() != fs::file_type::not_found)
        return unreadable(path, error.message());
    if (!fs::is_regular_file(status))
        return notAFile(path, status.type());
    const std::uintmax_t size = fs::file_size(path, error);
    if (error)
        return unreadable(path, error.message());
    if (size == 0)
        return decoding::notAPhoto(fmt::format("{} is empty (0 bytes).", path.string()),
                                   "Copy the photo from the phone or camera again.");
    if (size > maxFileBytes)
        return decoding::notAPhoto(
            fmt::format("{} is {} MiB large; photos of up to {} MiB are read.", path.string(),
                        size >> 20, maxFileBytes >> 20),
            "Give the photo as the phone or camera stored it.");
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in)
        return unreadable(path, std::strerror(errno));
    std::vector<std::byte> bytes(static_cast<std::size_t>(size));
    in.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(size));
    if (!in)
        return unreadable(path, "the reading stopped before its end");
    return bytes;
}

} // namespace swarfbook
