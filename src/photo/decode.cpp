// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decode.h"

#include "base/sha256.h"
#include "photo/decoders.h"
#include "photo/exif_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace swarfbook {
namespace decoding {

bool isTooLarge(std::uint64_t width, std::uint64_t height) {
    return width > 0 && height > maxPixels / width;
}

Refusal tooLarge(std::uint64_t width, std::uint64_t height) {
    const std::string size =
        width > 0 && height > 0
            ? fmt::format("The file says that its picture is {} x {} pixels", width, height)
            : std::string("The file says that its picture has very many pixels");
    return {RefusalReason::tooLarge,
            fmt::format("{}; up to {} megapixels are read.", size, maxPixels / 1'000'000),
            "Set the camera to its usual size (about 12 megapixels) and take the photo again."};
}

Refusal notAPhoto(const std::string& detail, const std::string& advice) {
    return {RefusalReason::notAPhoto, detail, advice};
}

Refusal cutShort(const std::string& kind) {
    return notAPhoto(
        fmt::format("This {} is cut short: the file ends before the picture does.", kind),
        "Copy it from the phone or camera again and wait until the copying is done; if it is cut "
        "short there too, take the photo again.");
}

Refusal damaged(const std::string& kind, const std::string& what) {
    return notAPhoto(
        fmt::format("This {} is damaged ({}).", kind, what.empty() ? "it cannot be decoded" : what),
        "Copy it from the phone or camera again; if it is damaged there too, take the "
        "photo again.");
}

} // namespace decoding

namespace {

using decoding::Bytes;
using decoding::StoredPicture;
using namespace std::string_view_literals;

bool has(Bytes bytes, std::size_t at, std::string_view signature) {
    if (bytes.size() < at + signature.size())
        return false;
    return std::equal(signature.begin(), signature.end(), bytes.begin() + static_cast<long>(at),
                      [](char c, std::byte b) { return std::byte(c) == b; });
}

struct Signature {
    std::size_t at;
    std::string_view mark;
    std::string_view name;
};

constexpr std::array knownOthers{
    Signature{0, "GIF8"sv, "a GIF picture"},
    Signature{8, "WEBP"sv, "a WebP picture"},
    Signature{0, "II*\0"sv, "a TIFF or camera raw picture"},
    Signature{0, "MM\0*"sv, "a TIFF or camera raw picture"},
    Signature{0, "BM"sv, "a BMP picture"},
    Signature{0, "%PDF"sv, "a PDF document"},
    Signature{4, "ftypavi"sv, "an AVIF picture"},
    Signature{4, "ftyp"sv, "a video"},
    Signature{0, "\xFF\x0A"sv, "a JPEG XL picture"},
    Signature{4, "JXL "sv, "a JPEG XL picture"},
    Signature{4, "jP  "sv, "a JPEG 2000 picture"},
    Signature{0, "PK\x03\x04"sv, "a ZIP archive"},
};

bool isHeif(Bytes bytes) {
    constexpr std::array brands{"heic"sv, "heix"sv, "heim"sv, "heis"sv, "hevc"sv,
                                "hevx"sv, "mif1"sv, "msf1"sv, "mif2"sv};
    return has(bytes, 4, "ftyp"sv) &&
           std::any_of(brands.begin(), brands.end(),
                       [&](std::string_view brand) { return has(bytes, 8, brand); });
}

Refusal unknownKind(Bytes bytes) {
    const auto other = std::find_if(knownOthers.begin(), knownOthers.end(),
                                    [&](const Signature& s) { return has(bytes, s.at, s.mark); });
    const std::string detail =
        other != knownOthers.end()
            ? fmt::format("The file is {}; JPEG, PNG and HEIC photos are read.", other->name)
            : std::string("The file is not a JPEG, PNG or HEIC photo.");
    return decoding::notAPhoto(
        detail, "Give the photo as the phone or camera stored it, or save it as JPEG or PNG.");
}

Result<StoredPicture> decodeByContent(Bytes bytes) {
    if (has(bytes, 0, "\xFF\xD8\xFF"sv))
        return decoding::decodeJpeg(bytes);
    if (has(bytes, 0, "\x89PNG\r\n\x1A\n"sv))
        return decoding::decodePng(bytes);
    if (isHeif(bytes))
        return decoding::decodeHeif(bytes);
    return unknownKind(bytes);
}

/// Turns stored pixels upright (EXIF 2.32, tag 274), in their own place where the size stays.
cv::Mat turnUpright(cv::Mat stored, int orientation) {
    cv::Mat upright;
    switch (orientation) {
    case 2:
        cv::flip(stored, stored, 1);
        return stored;
    case 3:
        cv::flip(stored, stored, -1);
        return stored;
    case 4:
        cv::flip(stored, stored, 0);
        return stored;
    case 5:
        cv::transpose(stored, upright);
        return upright;
    case 6:
        cv::rotate(stored, upright, cv::ROTATE_90_CLOCKWISE);
        return upright;
    case 7: {
        cv::Mat turned;
        cv::transpose(stored, turned);
        cv::rotate(turned, upright, cv::ROTATE_180);
        return upright;
    }
    case 8:
        cv::rotate(stored, upright, cv::ROTATE_90_COUNTERCLOCKWISE);
        return upright;
    default:
        return stored;
    }
}

} // namespace

Result<Photo> decodePhoto(std::span<const std::byte> bytes, const std::string& fileName) {
    if (bytes.empty())
        return decoding::notAPhoto("The file is empty (0 bytes).",
                                   "Copy the photo from the phone or camera again.");
    Result<StoredPicture> stored = decodeByContent(bytes);
    if (!stored)
        return stored.error();
    const ExifFacts exif = readExif(stored->exif);
    Photo photo;
    photo.bgr = stored->upright ? stored->bgr : turnUpright(stored->bgr, exif.orientation);
    photo.facts.file = std::filesystem::path(fileName).filename().string();
    photo.facts.sha256 = sha256Hex(bytes);
    photo.facts.widthPx = photo.bgr.cols;
    photo.facts.heightPx = photo.bgr.rows;
    photo.facts.orientation = exif.orientation;
    photo.facts.taken = exif.taken;
    photo.facts.focalLength35Mm = exif.focalLength35Mm;
    photo.facts.cameraMark = exif.cameraMark;
    return photo;
}

} // namespace swarfbook
