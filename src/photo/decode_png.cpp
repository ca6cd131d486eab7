// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decoders.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstring>
#include <png.h>

namespace swarfbook::decoding {
namespace {

std::uint32_t bigEndian32(Bytes bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
        value = value << 8 | std::to_integer<std::uint32_t>(bytes[at + i]);
    return value;
}

/// Whether every part of the file, up to the last part of the picture, ends within the file. libpng
/// takes the memory that a part's length states before it reads the part. Source: PNG
/// specification, 5.3: length, type, data, checksum.
bool partsEndWithin(Bytes bytes) {
    std::size_t at = 8;
    while (at + 12 <= bytes.size()) {
        const std::size_t length = bigEndian32(bytes, at);
        if (length > bytes.size() - at - 12)
            return false;
        if (std::memcmp(bytes.data() + at + 4, "IEND", 4) == 0)
            return true;
        at += 12 + length;
    }
    return false;
}

/// What libpng reads from, and its messages. It leaves by longjmp, so the functions that call it
/// hold nothing that needs a destructor.
struct Source {
    Bytes bytes;
    std::size_t at = 0;
    bool atEnd = false;
    std::array<char, 200> text{};
};

void onRead(png_structp png, png_bytep to, std::size_t count) {
    auto& source = *static_cast<Source*>(png_get_io_ptr(png));
    if (count > source.bytes.size() - source.at) {
        source.atEnd = true;
        png_error(png, "the file ends");
    }
    std::memcpy(to, source.bytes.data() + source.at, count);
    source.at += count;
}

[[noreturn]] void onError(png_structp png, png_const_charp text) {
    auto& source = *static_cast<Source*>(png_get_error_ptr(png));
    std::snprintf(source.text.data(), source.text.size(), "%s", text);
    png_longjmp(png, 1);
}

void onWarning(png_structp /*png*/, png_const_charp /*text*/) {}

class PngDecoder {
  public:
    explicit PngDecoder(Bytes bytes) {
        source_.bytes = bytes;
        png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, &source_, onError, onWarning);
        info_ = png_ != nullptr ? png_create_info_struct(png_) : nullptr;
    }
    PngDecoder(const PngDecoder&) = delete;
    PngDecoder& operator=(const PngDecoder&) = delete;
    ~PngDecoder() { png_destroy_read_struct(&png_, &info_, nullptr); }

    /// Reads up to the pixels and asks for 8-bit BGR, with alpha where the file has any.
    bool readHeader() {
        if (png_ == nullptr || info_ == nullptr)
            return false;
        source_.atEnd = !partsEndWithin(source_.bytes);
        if (source_.atEnd || setjmp(png_jmpbuf(png_)) != 0)
            return false;
        png_set_read_fn(png_, &source_, onRead);
        png_read_info(png_, info_);
        png_set_scale_16(png_);
        png_set_expand(png_);
        png_set_gray_to_rgb(png_);
        png_set_bgr(png_);
        passes_ = png_set_interlace_handling(png_);
        png_read_update_info(png_, info_);
        return true;
    }

    bool readPixels(cv::Mat& rows) {
        if (setjmp(png_jmpbuf(png_)) != 0)
            return false;
        for (int pass = 0; pass < passes_; ++pass)
            for (int y = 0; y < rows.rows; ++y)
                png_read_row(png_, rows.ptr<png_byte>(y), nullptr);
        png_read_end(png_, info_);
        return true;
    }

    [[nodiscard]] cv::Mat emptyPixels() const {
        return cv::Mat(static_cast<int>(png_get_image_height(png_, info_)),
                       static_cast<int>(png_get_image_width(png_, info_)),
                       CV_8UC(png_get_channels(png_, info_)));
    }

    /// The eXIf chunk, which may stand before or after the pixels; read it last.
    [[nodiscard]] std::vector<std::byte> exif() const {
        png_bytep data = nullptr;
        png_uint_32 size = 0;
        if (png_get_eXIf_1(png_, info_, &size, &data) == 0 || size == 0)
            return {};
        constexpr std::array<char, 6> head{'E', 'x', 'i', 'f', 0, 0};
        std::vector<std::byte> block(head.size() + size);
        std::memcpy(block.data(), head.data(), head.size());
        std::memcpy(block.data() + head.size(), data, size);
        return block;
    }

    [[nodiscard]] Refusal refusal() const {
        return source_.atEnd ? cutShort("PNG") : damaged("PNG", source_.text.data());
    }

  private:
    Source source_;
    png_structp png_ = nullptr;
    png_infop info_ = nullptr;
    int passes_ = 1;
};

bool isOpaque(const cv::Vec4b* row, int count) {
    unsigned char least = 255;
    for (int x = 0; x < count; ++x)
        least = std::min(least, row[x][3]);
    return least == 255;
}

cv::Mat layOnWhite(const cv::Mat& bgra) {
    cv::Mat bgr(bgra.size(), CV_8UC3);
    for (int y = 0; y < bgra.rows; ++y) {
        const auto* from = bgra.ptr<cv::Vec4b>(y);
        if (isOpaque(from, bgra.cols)) {
            cv::cvtColor(bgra.row(y), bgr.row(y), cv::COLOR_BGRA2BGR);
            continue;
        }
        auto* to = bgr.ptr<cv::Vec3b>(y);
        for (int x = 0; x < bgra.cols; ++x)
            for (int channel = 0; channel < 3; ++channel) {
                const int alpha = from[x][3];
                const int mixed = from[x][channel] * alpha + 255 * (255 - alpha);
                to[x][channel] = static_cast<unsigned char>((mixed + 127) / 255);
            }
    }
    return bgr;
}

} // namespace

Result<StoredPicture> decodePng(Bytes bytes) {
    constexpr std::size_t endOfSize = 24; // signature 8, chunk head 8, width 4, height 4
    if (bytes.size() < endOfSize)
        return cutShort("PNG");
    if (std::memcmp(bytes.data() + 12, "IHDR", 4) == 0 &&
        isTooLarge(bigEndian32(bytes, 16), bigEndian32(bytes, 20)))
        return tooLarge(bigEndian32(bytes, 16), bigEndian32(bytes, 20));
    PngDecoder decoder(bytes);
    if (!decoder.readHeader())
        return decoder.refusal();
    cv::Mat pixels = decoder.emptyPixels();
    if (!decoder.readPixels(pixels))
        return decoder.refusal();
    StoredPicture picture;
    picture.exif = decoder.exif();
    picture.bgr = pixels.channels() == 4 ? layOnWhite(pixels) : pixels;
    return picture;
}

} // namespace swarfbook::decoding
