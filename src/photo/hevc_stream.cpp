// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/hevc_stream.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <new>

namespace swarfbook::decoding {
namespace {

/// Bytes put behind a stream's end; none is 0, so they form no start code.
constexpr int bytesBehind = 64;

/// Warnings about the library's own work, not about the stream.
bool isHarmless(de265_error warning) {
    return warning == DE265_WARNING_NO_WPP_CANNOT_USE_MULTITHREADING ||
           warning == DE265_WARNING_NUMBER_OF_THREADS_LIMITED_TO_MAXIMUM ||
           warning == DE265_WARNING_SPS_MISSING_CANNOT_DECODE_SEI;
}

/// Changes bytes just before the one that ends the picture's data (H.265, 7.3.2.11), which words of
/// zeros may follow.
void changeEnd(Stream& unit, std::size_t count, unsigned char by) {
    std::size_t end = unit.size();
    while (end > 0 && (unit[end - 1] == 0 || unit[end - 1] == 3))
        --end;
    for (std::size_t back = 2; back < 2 + count && back + 8 < end; ++back)
        unit[end - back] = static_cast<unsigned char>(unit[end - back] ^ by);
}

void apply(Probe probe, Stream& unit) {
    if ((unit[0] >> 1 & 0x3F) >= 32) // holds no picture: H.265, table 7-1
        return;
    if (probe == Probe::changedEnd)
        changeEnd(unit, 4, 0x55);
    if (probe == Probe::moreChangedEnd)
        changeEnd(unit, 8, 0xA6);
    for (int i = 0; probe == Probe::bytesBehind && i < bytesBehind; ++i)
        unit.push_back(static_cast<unsigned char>(0x95 + 5 * (i % 16)));
}

/// Hands over the stream's units, each with its length (4 bytes, most significant first) before it.
/// @return whether the lengths fill the stream exactly.
bool pushUnits(de265_decoder_context* context, const Stream& stream, Probe probe) {
    std::size_t at = 0;
    while (at < stream.size()) {
        if (stream.size() - at < 5)
            return false;
        std::size_t length = 0;
        for (int i = 0; i < 4; ++i)
            length = length << 8 | stream[at++];
        if (length == 0 || length > stream.size() - at)
            return false;
        const auto first = stream.begin() + static_cast<std::ptrdiff_t>(at);
        Stream unit(first, first + static_cast<std::ptrdiff_t>(length));
        apply(probe, unit);
        de265_push_NAL(context, unit.data(), static_cast<int>(unit.size()), 0, nullptr);
        at += length;
    }
    return true;
}

int planesOf(const de265_image* picture) {
    return de265_get_chroma_format(picture) == de265_chroma_mono ? 1 : 3;
}

/// The value of a picture's memory before decoding; places that the decoder never writes keep it.
/// One of the probes uses another value, which shows such places. It is small, so that a sample of
/// more than 8 bits stays in range.
unsigned char groundOf(Probe probe) {
    return probe == Probe::bytesBehind ? 1 : 0;
}

/// Space behind each plane, because the library's wide instructions may read or write there.
constexpr std::size_t padding = 64;

/// One value in `samples` samples of 2 bytes, as the stream's depth is not known here; nullptr
/// where the memory does not reach. Free it with release(). malloc aligns to the 16 bytes that the
/// library needs; calloc takes no memory for pages that nobody writes.
void* groundedPlane(std::size_t samples, unsigned char ground) {
    static_assert(alignof(std::max_align_t) >= 16);
    const std::size_t bytes = 2 * samples + padding;
    if (ground == 0)
        return std::calloc(bytes, 1);
    void* memory = std::malloc(bytes);
    if (memory != nullptr)
        std::memset(memory, ground, bytes);
    return memory;
}

void release(de265_decoder_context* /*context*/, de265_image* image, void* /*ground*/) {
    for (int channel = 0; channel < 3; ++channel)
        std::free(de265_get_image_plane_user_data(image, channel));
}

int allocate(de265_decoder_context* context, de265_image_spec* spec, de265_image* image,
             void* ground) {
    const bool halfWide =
        spec->format == de265_image_format_YUV420P8 || spec->format == de265_image_format_YUV422P8;
    const bool halfHigh = spec->format == de265_image_format_YUV420P8;
    const int planes = spec->format == de265_image_format_mono8 ? 1 : 3;
    for (int channel = 0; channel < 3; ++channel)
        de265_set_image_plane(image, channel, nullptr, 0, nullptr);
    for (int channel = 0; channel < planes; ++channel) {
        const int width = channel > 0 && halfWide ? spec->width / 2 : spec->width;
        const int height = channel > 0 && halfHigh ? spec->height / 2 : spec->height;
        const int stride = (width + spec->alignment - 1) / spec->alignment * spec->alignment;
        void* memory =
            groundedPlane(static_cast<std::size_t>(stride) * static_cast<std::size_t>(height),
                          *static_cast<unsigned char*>(ground));
        if (memory == nullptr) {
            release(context, image, ground);
            return 0;
        }
        de265_set_image_plane(image, channel, memory, stride, memory);
    }
    return 1;
}

/// @param ground must live as long as the context.
void setGround(de265_decoder_context* context, unsigned char* ground) {
    static de265_image_allocation functions{allocate, release};
    de265_set_image_allocation_functions(context, &functions, ground);
}

Plane planeOf(const de265_image* picture, int channel) {
    Plane plane{{},
                de265_get_image_width(picture, channel),
                de265_get_image_height(picture, channel),
                de265_get_bits_per_pixel(picture, channel)};
    int stride = 0;
    const std::uint8_t* rows = de265_get_image_plane(picture, channel, &stride);
    const std::ptrdiff_t row = std::ptrdiff_t{plane.width} * ((plane.depth + 7) / 8);
    for (int y = 0; y < plane.height; ++y)
        plane.bytes.insert(plane.bytes.end(), rows + std::ptrdiff_t{y} * stride,
                           rows + std::ptrdiff_t{y} * stride + row);
    return plane;
}

} // namespace

Decoded decoded(const Stream& stream, Probe probe) {
    Decoded result;
    result.context.reset(de265_new_decoder());
    de265_decoder_context* context = result.context.get();
    if (context == nullptr)
        throw std::bad_alloc();
    result.ground = std::make_unique<unsigned char>(groundOf(probe));
    setGround(context, result.ground.get());
    de265_set_parameter_bool(context, DE265_DECODER_PARAM_BOOL_SEI_CHECK_HASH, 1);
    result.broken = !pushUnits(context, stream, probe);
    de265_flush_data(context);
    int more = 1;
    while (more != 0 && result.picture == nullptr) {
        more = 0;
        const de265_error error = de265_decode(context, &more);
        if (error == DE265_ERROR_OUT_OF_MEMORY)
            throw std::bad_alloc();
        if (error != DE265_OK && error != DE265_ERROR_WAITING_FOR_INPUT_DATA) {
            result.broken = true;
            break;
        }
        result.picture = de265_get_next_picture(context);
    }
    for (de265_error warning = de265_get_warning(context); warning != DE265_OK;
         warning = de265_get_warning(context))
        result.broken = result.broken || !isHarmless(warning);
    return result;
}

std::vector<Plane> planesFrom(const de265_image* picture) {
    std::vector<Plane> planes;
    for (int channel = 0; picture != nullptr && channel < planesOf(picture); ++channel)
        planes.push_back(planeOf(picture, channel));
    return planes;
}

bool differ(const std::vector<Plane>& a, const std::vector<Plane>& b) {
    return !std::equal(a.begin(), a.end(), b.begin(), b.end(),
                       [](const Plane& x, const Plane& y) { return x.bytes == y.bytes; });
}

} // namespace swarfbook::decoding
