// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/originals.h"

#include "base/errors.h"
#include "photo/decode.h"

#include <fmt/format.h>

#include <optional>
#include <string_view>

namespace swarfbook {
namespace {

constexpr std::size_t mostHeld = 200'000'000; // bytes: five photos of 12 megapixels

/// Which photo it is, for the book and for its user.
struct NamedPhoto {
    const std::string& sha256;
    const std::string& fileName;
    std::int64_t visitId;
};

/// @param measuredAt  the size that it has to have, where it was measured
Original readOriginal(const Book& book, const NamedPhoto& photo,
                      const std::optional<cv::Size>& measuredAt) {
    const auto leaveOut = [&](std::string_view plain, const std::string& detail) {
        book.tell(fmt::format("The report shows no picture of {} (visit {}). {}", photo.fileName,
                              photo.visitId, detail));
        return Original{{}, std::string(plain)};
    };
    try {
        const Result<Photo> decoded = decodePhoto(book.originalBytes(photo.sha256), photo.fileName);
        const std::string file = book.originalPhoto(photo.sha256).string();
        if (!decoded)
            return leaveOut("the original can no longer be shown as a picture.",
                            fmt::format("{}: {}", file, decoded.error().detail));
        if (!measuredAt || decoded->bgr.size() == *measuredAt)
            return {decoded->bgr, ""};
        return leaveOut("the original no longer has the size that it was measured at.",
                        file + " has another size than it was measured at.");
    } catch (const ToolError& gone) {
        return leaveOut("the original is no longer in the workshop's book as it was put in.",
                        gone.what());
    }
}

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
    const PhotoFacts& facts = photo.measurement.photo;
    return readOriginal(book_, {photo.sha256, photo.fileName, photo.visitId},
                        cv::Size(facts.widthPx, facts.heightPx));
}

Original originalOf(const Book& book, const WorkPhoto& photo, std::int64_t visitId) {
    return readOriginal(book, {photo.sha256, photo.fileName, visitId}, std::nullopt);
}

} // namespace swarfbook
