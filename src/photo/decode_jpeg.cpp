// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decoders.h"

#include <opencv2/imgproc.hpp>

#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstring>
#include <jerror.h>
#include <jpeglib.h>

namespace swarfbook::decoding {
namespace {

/// A progressive file may repeat scans without end; encoders write about ten.
constexpr int maxScans = 100;

/// libjpeg's error manager and the errors it found. It leaves a decoder by longjmp, so the
/// functions that call the library hold nothing that needs a destructor.
struct Trouble {
    jpeg_error_mgr manager{}; // first, so that the library's pointer is also ours
    std::jmp_buf back{};
    bool atEnd = false;
    bool overLimit = false;
    std::array<char, JMSG_LENGTH_MAX> text{};
};

Trouble& troubleOf(j_common_ptr info) {
    return *reinterpret_cast<Trouble*>(info->err);
}

[[noreturn]] void giveUp(j_common_ptr info) {
    Trouble& trouble = troubleOf(info);
    trouble.atEnd = info->err->msg_code == JWRN_JPEG_EOF;
    trouble.overLimit = info->err->msg_code == JERR_IMAGE_TOO_BIG;
    (*info->err->format_message)(info, trouble.text.data());
    std::longjmp(trouble.back, 1);
}

/// Some cameras pad with zeros before the end mark; other bytes there are stray picture data.
bool isPadding(const jpeg_source_mgr& source, const JOCTET* first, long count) {
    if (count > source.next_input_byte - first)
        return false;
    for (long i = 1; i <= count; ++i)
        if (source.next_input_byte[-i] != 0x00 && source.next_input_byte[-i] != 0xFF)
            return false;
    return true;
}

/// Warnings by which the library says that it invented or dropped part of the picture.
void onMessage(j_common_ptr info, int level) {
    if (level >= 0)
        return;
    switch (info->err->msg_code) {
    case JWRN_JPEG_EOF:
    case JWRN_HIT_MARKER:
    case JWRN_HUFF_BAD_CODE:
    case JWRN_NOT_SEQUENTIAL:
    case JWRN_MUST_RESYNC:
    case JWRN_BOGUS_PROGRESSION:
        giveUp(info);
    case JWRN_EXTRANEOUS_DATA: {
        const auto* decoder = reinterpret_cast<j_decompress_ptr>(info);
        const auto* first = static_cast<const JOCTET*>(decoder->client_data);
        if (decoder->input_scan_number > 0 &&
            !isPadding(*decoder->src, first, info->err->msg_parm.i[0]))
            giveUp(info);
        return;
    }
    default:
        return;
    }
}

void onProgress(j_common_ptr info) {
    if (reinterpret_cast<j_decompress_ptr>(info)->input_scan_number > maxScans)
        ERREXIT(info, JERR_BAD_PROGRESSION);
}

class JpegDecoder {
  public:
    explicit JpegDecoder(Bytes bytes) {
        info_.err = jpeg_std_error(&trouble_.manager);
        trouble_.manager.error_exit = giveUp;
        trouble_.manager.emit_message = onMessage;
        progress_.progress_monitor = onProgress;
        data_ = reinterpret_cast<const JOCTET*>(bytes.data());
        size_ = static_cast<unsigned long>(bytes.size());
    }
    JpegDecoder(const JpegDecoder&) = delete;
    JpegDecoder& operator=(const JpegDecoder&) = delete;
    ~JpegDecoder() { jpeg_destroy_decompress(&info_); }

    bool readHeader() {
        if (setjmp(trouble_.back) != 0)
            return false;
        jpeg_create_decompress(&info_);
        info_.client_data = const_cast<JOCTET*>(data_);
        info_.progress = &progress_;
        jpeg_mem_src(&info_, data_, size_);
        jpeg_save_markers(&info_, JPEG_APP0 + 1, 0xFFFF);
        jpeg_read_header(&info_, TRUE);
        return true;
    }

    /// @param rows  image_height rows of image_width pixels: BGR, or CMYK as stored.
    bool readPixels(cv::Mat& rows) {
        if (setjmp(trouble_.back) != 0)
            return false;
        info_.out_color_space = isCmyk() ? JCS_CMYK : JCS_EXT_BGR;
        jpeg_start_decompress(&info_);
        while (info_.output_scanline < info_.output_height) {
            JSAMPROW row = rows.ptr<JSAMPLE>(static_cast<int>(info_.output_scanline));
            jpeg_read_scanlines(&info_, &row, 1);
        }
        jpeg_finish_decompress(&info_);
        return true;
    }

    [[nodiscard]] bool isCmyk() const {
        return info_.jpeg_color_space == JCS_CMYK || info_.jpeg_color_space == JCS_YCCK;
    }
    /// Files with the Adobe mark store CMYK inverted.
    [[nodiscard]] bool isInverted() const { return info_.saw_Adobe_marker != 0; }
    [[nodiscard]] int width() const { return static_cast<int>(info_.image_width); }
    [[nodiscard]] int height() const { return static_cast<int>(info_.image_height); }

    [[nodiscard]] std::vector<std::byte> exif() const {
        for (const auto* marker = info_.marker_list; marker != nullptr; marker = marker->next)
            if (marker->marker == JPEG_APP0 + 1 && marker->data_length > 6 &&
                std::memcmp(marker->data, "Exif\0\0", 6) == 0) {
                const auto* first = reinterpret_cast<const std::byte*>(marker->data);
                return {first, first + marker->data_length};
            }
        return {};
    }

    [[nodiscard]] Refusal refusal() const {
        if (trouble_.atEnd)
            return cutShort("JPEG");
        if (trouble_.overLimit)
            return tooLarge(info_.image_width, info_.image_height);
        return damaged("JPEG", trouble_.text.data());
    }

  private:
    jpeg_decompress_struct info_{};
    jpeg_progress_mgr progress_{};
    Trouble trouble_;
    const JOCTET* data_ = nullptr;
    unsigned long size_ = 0;
};

cv::Mat bgrFromCmyk(const cv::Mat& cmyk, bool inverted) {
    cv::Mat bgr(cmyk.size(), CV_8UC3);
    for (int y = 0; y < cmyk.rows; ++y) {
        const auto* from = cmyk.ptr<cv::Vec4b>(y);
        auto* to = bgr.ptr<cv::Vec3b>(y);
        for (int x = 0; x < cmyk.cols; ++x)
            for (int channel = 0; channel < 3; ++channel) {
                const int ink = from[x][2 - channel];
                const int black = from[x][3];
                const int light = inverted ? ink * black : (255 - ink) * (255 - black);
                to[x][channel] = static_cast<unsigned char>((light + 127) / 255);
            }
    }
    return bgr;
}

} // namespace

Result<StoredPicture> decodeJpeg(Bytes bytes) {
    JpegDecoder decoder(bytes);
    if (!decoder.readHeader())
        return decoder.refusal();
    const auto width = static_cast<std::uint64_t>(decoder.width());
    const auto height = static_cast<std::uint64_t>(decoder.height());
    if (isTooLarge(width, height))
        return tooLarge(width, height);
    StoredPicture picture;
    picture.exif = decoder.exif();
    cv::Mat pixels(decoder.height(), decoder.width(), decoder.isCmyk() ? CV_8UC4 : CV_8UC3);
    if (!decoder.readPixels(pixels))
        return decoder.refusal();
    picture.bgr = decoder.isCmyk() ? bgrFromCmyk(pixels, decoder.isInverted()) : pixels;
    return picture;
}

} // namespace swarfbook::decoding
