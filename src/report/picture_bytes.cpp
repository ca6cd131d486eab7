// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/picture_bytes.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <jpeglib.h>
#include <memory>
#include <png.h>
#include <stdexcept>

namespace swarfbook {

namespace {

[[noreturn]] void failToEncode() {
    throw ToolError("A picture could not be encoded. Is it larger than 65,500 pixels?");
}

void requireColour(const cv::Mat& picture) {
    if (picture.empty() || picture.type() != CV_8UC3)
        throw std::logic_error("a picture to be written is 8-bit colour");
}

/// libjpeg's error manager with a jump back, as the library has no exceptions.
struct JpegTrouble {
    jpeg_error_mgr manager{}; // first, so that the library's pointer is also ours
    std::jmp_buf back{};
};

[[noreturn]] void leaveJpeg(j_common_ptr info) {
    std::longjmp(reinterpret_cast<JpegTrouble*>(info->err)->back, 1);
}

/// A JPEG being written, in the library's own memory.
class JpegEncoder {
  public:
    JpegEncoder() {
        info_.err = jpeg_std_error(&trouble_.manager);
        trouble_.manager.error_exit = leaveJpeg;
    }
    JpegEncoder(const JpegEncoder&) = delete;
    JpegEncoder& operator=(const JpegEncoder&) = delete;
    ~JpegEncoder() {
        jpeg_destroy_compress(&info_);
        std::free(bytes_);
    }
    bool encode(const cv::Mat& bgr, int quality) {
        if (setjmp(trouble_.back) != 0)
            return false;
        jpeg_create_compress(&info_);
        jpeg_mem_dest(&info_, &bytes_, &size_);
        info_.image_width = static_cast<JDIMENSION>(bgr.cols);
        info_.image_height = static_cast<JDIMENSION>(bgr.rows);
        info_.input_components = 3;
        info_.in_color_space = JCS_EXT_BGR;
        jpeg_set_defaults(&info_);
        jpeg_set_quality(&info_, quality, TRUE);
        jpeg_start_compress(&info_, TRUE);
        while (info_.next_scanline < info_.image_height) {
            auto* row = const_cast<JSAMPLE*>(bgr.ptr(static_cast<int>(info_.next_scanline)));
            jpeg_write_scanlines(&info_, &row, 1);
        }
        jpeg_finish_compress(&info_);
        return true;
    }
    [[nodiscard]] std::vector<unsigned char> bytes() const { return {bytes_, bytes_ + size_}; }

  private:
    jpeg_compress_struct info_{};
    JpegTrouble trouble_;
    unsigned char* bytes_ = nullptr;
    unsigned long size_ = 0;
};

std::string lowerEnding(const std::filesystem::path& file) {
    std::string ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return ending;
}

} // namespace

std::vector<unsigned char> jpegBytes(const cv::Mat& bgr, int quality) {
    requireColour(bgr);
    JpegEncoder encoder;
    if (!encoder.encode(bgr, quality))
        failToEncode();
    return encoder.bytes();
}

std::vector<unsigned char> pngBytes(const cv::Mat& bgr) {
    requireColour(bgr);
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(bgr.cols);
    image.height = static_cast<png_uint_32>(bgr.rows);
    image.format = PNG_FORMAT_BGR;
    const auto stride = static_cast<png_int_32>(bgr.step);
    png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
    const std::unique_ptr<unsigned char[]> room(new unsigned char[size]); // most stays untouched
    if (png_image_write_to_memory(&image, room.get(), &size, 0, bgr.data, stride, nullptr) == 0)
        failToEncode();
    return {room.get(), room.get() + size};
}

void requirePictureName(const std::filesystem::path& file) {
    const std::string ending = lowerEnding(file);
    if (ending != ".jpg" && ending != ".jpeg" && ending != ".png")
        throw UsageError(fmt::format(
            "\"{}\" names no picture format. End the name in .jpg or .png.", file.string()));
}

std::vector<unsigned char> pictureBytes(const std::filesystem::path& file, const cv::Mat& bgr) {
    requirePictureName(file);
    return lowerEnding(file) == ".png" ? pngBytes(bgr) : jpegBytes(bgr);
}

} // namespace swarfbook
