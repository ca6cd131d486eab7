// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/originals.h"

#include "base/errors.h"
#include "photo/decode.h"

#include <fmt/format.h>

#include <string_view>

namespace swarfbook {
namespace {

constexpr std::size_t mostHeld = 200'000'000; // bytes: five photos of 12 megapixels

} // namespace

Original Originals::of(const StoredPhoto& photo) {
    if (const auto held = held_.find(photo.sha256); held != held_.end())
        return held->second;
    Original original = read(photo);
    const std::size_t bytes = original.bgr.total() * original.bgr.elemSize();
    if (heldBytes_ + bytes <= mostHeld) {
        heldBytes_ += bytes;
        held_[photo.sha256] = original;
    }
    return original;
}

Original Originals::read(const StoredPhoto& photo) const {
    const auto leaveOut = [&](std::string_view plain, const std::string& detail) {
        book_.tell(fmt::format("The report shows no picture of {} (visit {}). {}", photo.fileName,
                               photo.visitId, detail));
        return Original{{}, std::string(plain)};
    };
    try {
        const Result<Photo> decoded =
            decodePhoto(book_.originalBytes(photo.sha256), photo.fileName);
        const std::string file = book_.originalPhoto(photo.sha256).string();
        if (!decoded)
            return leaveOut("the original can no longer be shown as a picture.",
                            fmt::format("{}: {}", file, decoded.error().detail));
        const PhotoFacts& facts = photo.measurement.photo;
        if (decoded->bgr.cols == facts.widthPx && decoded->bgr.rows == facts.heightPx)
            return {decoded->bgr, ""};
        return leaveOut("the original no longer has the size that it was measured at.",
                        file + " has another size than it was measured at.");
    } catch (const ToolError& gone) {
        return leaveOut("the original is no longer in the workshop's book as it was put in.",
                        gone.what());
    }
}

} // namespace swarfbook
