// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/work_photo_files.h"

#include "base/errors.h"
#include "photo/decode.h"

#include <fmt/format.h>

namespace swarfbook::cli {
namespace {

/// Reasons of decoding do not name the file.
[[noreturn]] void refuse(const std::string& file, const Refusal& why) {
    const bool named = why.detail.find(file) != std::string::npos;
    throw EvidenceRefused(fmt::format("{}{}{} {} Nothing was kept.", named ? "" : file,
                                      named ? "" : ": ", why.detail, why.advice));
}

} // namespace

std::vector<std::byte> readWorkPhoto(const std::string& file) {
    auto bytes = readPhotoFile(file);
    if (!bytes)
        refuse(file, bytes.error());
    if (const Result<Photo> photo = decodePhoto(*bytes, file); !photo)
        refuse(file, photo.error());
    return std::move(*bytes);
}

} // namespace swarfbook::cli
