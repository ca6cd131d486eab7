// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decoders.h"
#include "photo/heif_file.h"
#include "photo/hevc_decoder.h"

#include <fmt/format.h>
#include <libheif/heif.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>
#include <optional>

namespace swarfbook::decoding {
namespace {

/// Longest side libheif may allocate, whatever a file's inner grids declare.
constexpr int maxSide = 20'000;

struct ContextFree {
    void operator()(heif_context* context) const { heif_context_free(context); }
};
struct HandleFree {
    void operator()(heif_image_handle* handle) const { heif_image_handle_release(handle); }
};
struct ImageFree {
    void operator()(heif_image* image) const { heif_image_release(image); }
};
struct OptionsFree {
    void operator()(heif_decoding_options* options) const { heif_decoding_options_free(options); }
};
using Context = std::unique_ptr<heif_context, ContextFree>;
using Handle = std::unique_ptr<heif_image_handle, HandleFree>;
using Image = std::unique_ptr<heif_image, ImageFree>;

std::uint64_t bigEndian(Bytes bytes, std::size_t at, std::size_t count) {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < count; ++i)
        value = value << 8 | std::to_integer<std::uint64_t>(bytes[at + i]);
    return value;
}

Refusal refusalFrom(const heif_error& error) {
    if (error.subcode == heif_suberror_Security_limit_exceeded)
        return tooLarge(0, 0);
    if (error.subcode == heif_suberror_End_of_data)
        return cutShort("HEIC");
    return damaged("HEIC", error.message != nullptr ? error.message : "");
}

std::vector<std::byte> exifOf(const heif_image_handle* handle) {
    heif_item_id id = 0;
    if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) < 1)
        return {};
    const std::size_t size = heif_image_handle_get_metadata_size(handle, id);
    if (size < 8)
        return {};
    std::vector<std::byte> stored(size);
    if (heif_image_handle_get_metadata(handle, id, stored.data()).code != heif_error_Ok)
        return {};
    const std::uint64_t start = 4 + bigEndian(stored, 0, 4); // where the TIFF block begins
    if (start >= size)
        return {};
    constexpr std::array<char, 6> head{'E', 'x', 'i', 'f', 0, 0};
    std::vector<std::byte> block(head.size());
    std::memcpy(block.data(), head.data(), head.size());
    block.insert(block.end(), stored.begin() + static_cast<std::ptrdiff_t>(start), stored.end());
    return block;
}

cv::Mat bgrFrom(const heif_image* image, bool hasAlpha) {
    int stride = 0;
    const std::uint8_t* plane =
        heif_image_get_plane_readonly(image, heif_channel_interleaved, &stride);
    if (plane == nullptr)
        return {};
    const cv::Mat pixels(heif_image_get_height(image, heif_channel_interleaved),
                         heif_image_get_width(image, heif_channel_interleaved),
                         hasAlpha ? CV_8UC4 : CV_8UC3, const_cast<std::uint8_t*>(plane),
                         static_cast<std::size_t>(stride));
    cv::Mat bgr;
    if (!hasAlpha) {
        cv::cvtColor(pixels, bgr, cv::COLOR_RGB2BGR);
        return bgr;
    }
    bgr.create(pixels.size(), CV_8UC3);
    for (int y = 0; y < pixels.rows; ++y)
        for (int x = 0; x < pixels.cols; ++x) {
            const auto& rgba = pixels.at<cv::Vec4b>(y, x);
            for (int channel = 0; channel < 3; ++channel)
                bgr.at<cv::Vec3b>(y, x)[channel] = static_cast<unsigned char>(
                    (rgba[2 - channel] * rgba[3] + 255 * (255 - rgba[3]) + 127) / 255);
        }
    return bgr;
}

bool endsWith(const std::vector<unsigned char>& stream, const std::vector<unsigned char>& tail) {
    return !tail.empty() && tail.size() <= stream.size() &&
           std::equal(tail.rbegin(), tail.rend(), stream.rbegin());
}

/// What was decoded for each tile; null where nothing was.
std::vector<const HevcPart*> partsOfTiles(Bytes bytes, const HeifPicture& picture,
                                          const std::vector<HevcPart>& parts) {
    std::vector<const HevcPart*> found;
    for (const auto& tile : picture.tiles) {
        const std::vector<unsigned char> data = dataOf(bytes, tile);
        const auto part = std::find_if(parts.begin(), parts.end(), [&](const HevcPart& one) {
            return endsWith(one.stream, data);
        });
        found.push_back(part == parts.end() ? nullptr : &*part);
    }
    return found;
}

/// A tile that cannot come from a camera: no lens gives the same pixels twice, or one colour all
/// over unless the place had no light or too much.
std::optional<Refusal> oddTile(const HeifPicture& picture,
                               const std::vector<const HevcPart*>& tiles) {
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        if (tiles[i] == nullptr || tiles[i]->whiteOrBlack)
            continue;
        if (tiles[i]->oneColour)
            return damaged("HEIC",
                           fmt::format("{} holds one colour only", whereInPicture(picture, i)));
        for (std::size_t other = 0; other < i; ++other)
            if (tiles[other] != nullptr && tiles[other]->pixels == tiles[i]->pixels)
                return damaged("HEIC",
                               fmt::format("{} is the same as {}", whereInPicture(picture, i),
                                           whereInPicture(picture, other)));
    }
    return std::nullopt;
}

/// What is wrong with the parts that the picture is made of.
std::optional<Refusal> damageIn(Bytes bytes, const std::optional<HeifPicture>& picture,
                                const std::vector<HevcPart>& parts) {
    const bool inTiles = picture && picture->tiles.size() > 1;
    const auto tiles =
        inTiles ? partsOfTiles(bytes, *picture, parts) : std::vector<const HevcPart*>();
    for (std::size_t i = 0; i < tiles.size(); ++i)
        if (tiles[i] != nullptr && !tiles[i]->damage.empty())
            return damaged("HEIC",
                           fmt::format("{} {}", whereInPicture(*picture, i), tiles[i]->damage));
    for (const HevcPart& part : parts)
        if (!part.damage.empty())
            return damaged("HEIC", "it " + part.damage);
    return inTiles ? oddTile(*picture, tiles) : std::nullopt;
}

/// What is wrong with the file's descriptions.
std::optional<Refusal> damageIn(const HeifPicture& picture) {
    if (picture.dataCutOff)
        return cutShort("HEIC");
    if (picture.dataOutside)
        return damaged("HEIC", "it puts its picture where the file has none");
    const auto wanted =
        static_cast<std::size_t>(picture.rows) * static_cast<std::size_t>(picture.columns);
    if (picture.tiles.size() != wanted)
        return damaged("HEIC", fmt::format("it holds {} of its picture's {} parts",
                                           picture.tiles.size(), wanted));
    return std::nullopt;
}

/// The picture as 8-bit colours, with its alpha where it has one.
heif_error decodeColours(const heif_image_handle* handle, bool hasAlpha, heif_image*& decoded) {
    const std::unique_ptr<heif_decoding_options, OptionsFree> options(
        heif_decoding_options_alloc());
    options->convert_hdr_to_8bit = 1;
    options->strict_decoding = 1;
    return heif_decode_image(handle, &decoded, heif_colorspace_RGB,
                             hasAlpha ? heif_chroma_interleaved_RGBA : heif_chroma_interleaved_RGB,
                             options.get());
}

/// Decodes the file's primary picture, or refuses it if the decoder or our checks find damage.
Result<StoredPicture> primaryPicture(Bytes bytes, const std::optional<HeifPicture>& described,
                                     heif_image_handle* primary, const HevcWatch& watch) {
    const bool hasAlpha = heif_image_handle_has_alpha_channel(primary) != 0;
    heif_image* decoded = nullptr;
    const heif_error error = decodeColours(primary, hasAlpha, decoded);
    if (error.code != heif_error_Ok)
        return refusalFrom(error);
    const Image image(decoded);
    if (const auto damage = damageIn(bytes, described, watch.parts()))
        return *damage;
    if (heif_image_get_decoding_warnings(decoded, 0, nullptr, 0) > 0)
        return damaged("HEIC", "its decoder warns of it");
    StoredPicture picture;
    picture.upright = true;
    picture.exif = exifOf(primary);
    picture.bgr = bgrFrom(decoded, hasAlpha);
    if (picture.bgr.empty())
        return damaged("HEIC", "it holds no colour picture");
    return picture;
}

} // namespace

Result<StoredPicture> decodeHeif(Bytes bytes) {
    if (endsTooEarly(bytes))
        return cutShort("HEIC");
    const std::optional<HeifPicture> described = describedPicture(bytes);
    if (described)
        if (const auto damage = damageIn(*described))
            return *damage;
    const HevcWatch watch;
    const Context context(heif_context_alloc());
    heif_context_set_maximum_image_size_limit(context.get(), maxSide);
    heif_error error = heif_context_read_from_memory_without_copy(context.get(), bytes.data(),
                                                                  bytes.size(), nullptr);
    if (error.code != heif_error_Ok)
        return refusalFrom(error);
    heif_image_handle* primary = nullptr;
    error = heif_context_get_primary_image_handle(context.get(), &primary);
    if (error.code != heif_error_Ok)
        return refusalFrom(error);
    const Handle handle(primary);
    const auto width = static_cast<std::uint64_t>(heif_image_handle_get_width(primary));
    const auto height = static_cast<std::uint64_t>(heif_image_handle_get_height(primary));
    if (isTooLarge(width, height))
        return tooLarge(width, height);
    return primaryPicture(bytes, described, primary, watch);
}

} // namespace swarfbook::decoding
