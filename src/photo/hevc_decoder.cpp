// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/hevc_decoder.h"

#include "base/sha256.h"
#include "photo/hevc_stream.h"

#include <libheif/heif.h>
#include <libheif/heif_plugin.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <cstring>
#include <future>
#include <libde265/de265.h>
#include <memory>
#include <new>
#include <span>

namespace swarfbook::decoding {
namespace {

/// Higher than the priority of libheif's own decoder, which is 100.
constexpr int priority = 1000;

std::mutex oneAtATime;
std::mutex partsGuard;
std::vector<HevcPart> decodedParts;

struct HevcImageFree {
    void operator()(heif_image* image) const { heif_image_release(image); }
};

bool isOneValue(const Plane& plane) {
    const std::size_t each = static_cast<std::size_t>((plane.depth + 7) / 8);
    return plane.bytes.size() > each &&
           std::equal(plane.bytes.begin() + static_cast<std::ptrdiff_t>(each), plane.bytes.end(),
                      plane.bytes.begin());
}

/// A plane's first value, brought to 0 to 255.
int firstValue(const Plane& plane) {
    if (plane.depth <= 8)
        return plane.bytes.front();
    std::uint16_t value = 0;
    std::memcpy(&value, plane.bytes.data(), sizeof value);
    return value >> (plane.depth - 8);
}

/// White or black in full (0 to 255) or narrow (16 to 235) range, without colour.
bool isWhiteOrBlack(const std::vector<Plane>& planes) {
    const int light = firstValue(planes.front());
    const bool colourless = std::all_of(planes.begin() + 1, planes.end(), [](const Plane& plane) {
        return std::abs(firstValue(plane) - 128) <= 1;
    });
    return colourless && (light <= 16 || light >= 235);
}

HevcPart partFrom(const Stream& stream, const std::vector<Plane>& planes) {
    HevcPart part{stream, "", "", false, false};
    part.oneColour = std::all_of(planes.begin(), planes.end(), isOneValue);
    part.whiteOrBlack = part.oneColour && isWhiteOrBlack(planes);
    Stream all;
    for (const Plane& plane : planes)
        all.insert(all.end(), plane.bytes.begin(), plane.bytes.end());
    part.pixels = sha256Hex(std::as_bytes(std::span(all)));
    return part;
}

void keep(HevcPart part) {
    const std::lock_guard guard(partsGuard);
    decodedParts.push_back(std::move(part));
}

/// What the stream says of its colours, as libheif's own link hands it on.
void setColours(heif_image* image, const de265_image* picture) {
    const std::unique_ptr<heif_color_profile_nclx, decltype(&heif_nclx_color_profile_free)> colours(
        heif_nclx_color_profile_alloc(), heif_nclx_color_profile_free);
    const auto asNumber = [](int number) { return static_cast<std::uint16_t>(number); };
    heif_nclx_color_profile_set_color_primaries(
        colours.get(), asNumber(de265_get_image_colour_primaries(picture)));
    heif_nclx_color_profile_set_transfer_characteristics(
        colours.get(), asNumber(de265_get_image_transfer_characteristics(picture)));
    heif_nclx_color_profile_set_matrix_coefficients(
        colours.get(), asNumber(de265_get_image_matrix_coefficients(picture)));
    colours->full_range_flag = de265_get_image_full_range_flag(picture) != 0 ? 1 : 0;
    heif_image_set_nclx_color_profile(image, colours.get());
}

heif_error imageFrom(const de265_image* picture, const std::vector<Plane>& planes,
                     heif_image** out) {
    constexpr std::array channels{heif_channel_Y, heif_channel_Cb, heif_channel_Cr};
    heif_image* made = nullptr;
    const bool grey = planes.size() == 1;
    heif_error error =
        heif_image_create(planes[0].width, planes[0].height,
                          grey ? heif_colorspace_monochrome : heif_colorspace_YCbCr,
                          static_cast<heif_chroma>(de265_get_chroma_format(picture)), &made);
    const std::unique_ptr<heif_image, HevcImageFree> image(made);
    for (std::size_t i = 0; i < planes.size() && error.code == heif_error_Ok; ++i) {
        const Plane& plane = planes[i];
        error = heif_image_add_plane(made, channels[i], plane.width, plane.height, plane.depth);
        if (error.code != heif_error_Ok)
            break;
        int stride = 0;
        std::uint8_t* to = heif_image_get_plane(made, channels[i], &stride);
        const std::size_t row = plane.bytes.size() / static_cast<std::size_t>(plane.height);
        for (int y = 0; y < plane.height; ++y)
            std::memcpy(to + std::ptrdiff_t{y} * stride,
                        plane.bytes.data() + static_cast<std::size_t>(y) * row, row);
    }
    if (error.code != heif_error_Ok)
        return error;
    setColours(made, picture);
    *out = const_cast<std::unique_ptr<heif_image, HevcImageFree>&>(image).release();
    return error;
}

std::vector<Plane> probed(const Stream& stream, Probe probe) {
    return planesFrom(decoded(stream, probe).picture);
}

/// Whether reading stops before the end of the data: then the last bytes have no effect. Tried
/// twice, because a change may by chance have no visible effect. A picture of one colour has too
/// little data to judge.
bool hasDataLeft(const Stream& stream, const std::vector<Plane>& planes,
                 const std::vector<Plane>& withChangedEnd) {
    return !differ(planes, withChangedEnd) &&
           !differ(planes, probed(stream, Probe::moreChangedEnd));
}

heif_error decodeStream(const Stream& stream, heif_image** out) {
    constexpr heif_error noPicture{heif_error_Decoder_plugin_error, heif_suberror_Unspecified,
                                   "no picture comes out of its data"};
    const auto inParallel = [&](Probe probe) {
        return std::async(std::launch::async, [&stream, probe] { return probed(stream, probe); });
    };
    auto behind = inParallel(Probe::bytesBehind), changed = inParallel(Probe::changedEnd);
    const Decoded first = decoded(stream, Probe::none);
    const std::vector<Plane> planes = planesFrom(first.picture);
    const bool ranOut = differ(planes, behind.get());
    const bool hasLeft = hasDataLeft(stream, planes, changed.get());
    if (planes.empty())
        return noPicture;
    HevcPart part = partFrom(stream, planes);
    part.damage = first.broken                 ? "has data that cannot be followed"
                  : ranOut                     ? "has data that end before the picture does"
                  : hasLeft && !part.oneColour ? "has data left when the picture is done"
                                               : "";
    keep(std::move(part));
    return imageFrom(first.picture, planes, out);
}

constexpr heif_error fine{heif_error_Ok, heif_suberror_Unspecified, "done"};
constexpr heif_error noMemory{heif_error_Memory_allocation_error, heif_suberror_Unspecified,
                              "there is not enough memory"};

heif_error newDecoder(void** decoder) {
    *decoder = new (std::nothrow) Stream;
    return *decoder != nullptr ? fine : noMemory;
}

heif_error pushData(void* decoder, const void* data, std::size_t size) try {
    const auto* first = static_cast<const unsigned char*>(data);
    auto* stream = static_cast<Stream*>(decoder);
    stream->insert(stream->end(), first, first + size);
    return fine;
} catch (const std::exception&) {
    return noMemory;
}

heif_error decodeImage(void* decoder, heif_image** out) try {
    return decodeStream(*static_cast<Stream*>(decoder), out);
} catch (const std::exception&) { // nothing may be thrown through the library
    return noMemory;
}

void registerOnce() {
    static const heif_decoder_plugin plugin{
        3,
        [] { return "HEVC, reporting its doubts"; },
        nullptr,
        nullptr,
        [](heif_compression_format format) {
            return format == heif_compression_HEVC ? priority : 0;
        },
        newDecoder,
        [](void* decoder) { delete static_cast<Stream*>(decoder); },
        pushData,
        decodeImage,
        [](void* /*decoder*/, int /*strict*/) {},
        "watched-hevc"};
    static const heif_error done = heif_register_decoder_plugin(&plugin);
    static_cast<void>(done);
}

} // namespace

HevcWatch::HevcWatch() : turn_(oneAtATime) {
    registerOnce();
    const std::lock_guard guard(partsGuard);
    decodedParts.clear();
}

HevcWatch::~HevcWatch() {
    const std::lock_guard guard(partsGuard);
    decodedParts.clear();
}

std::vector<HevcPart> HevcWatch::parts() const {
    const std::lock_guard guard(partsGuard);
    return decodedParts;
}

} // namespace swarfbook::decoding
