// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/photo_samples.h"

#include <boost/crc.hpp>
#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

#include <cstdio>
#include <cstring>
#include <fstream>
#include <iterator>
#include <jpeglib.h>

namespace swarfbook::samples {
namespace {

void append(Bytes& to, std::uint32_t value, int count) {
    for (int i = count - 1; i >= 0; --i)
        to.push_back(static_cast<std::byte>(value >> (8 * i) & 0xFF));
}

void append(Bytes& to, const Bytes& more) {
    to.insert(to.end(), more.begin(), more.end());
}

Bytes pngChunk(const std::string& kind, const Bytes& content) {
    Bytes checked = bytesOf(kind);
    append(checked, content);
    boost::crc_32_type sum;
    sum.process_bytes(checked.data(), checked.size());
    Bytes chunk;
    append(chunk, static_cast<std::uint32_t>(content.size()), 4);
    append(chunk, checked);
    append(chunk, static_cast<std::uint32_t>(sum.checksum()), 4);
    return chunk;
}

} // namespace

const std::array<cv::Vec3b, 6> blockColours{cv::Vec3b{30, 30, 230},  cv::Vec3b{30, 200, 30},
                                            cv::Vec3b{230, 30, 30},  cv::Vec3b{30, 230, 230},
                                            cv::Vec3b{220, 220, 30}, cv::Vec3b{220, 30, 220}};

cv::Mat blocksAsStored() {
    cv::Mat picture(2 * blockSide, 3 * blockSide, CV_8UC3);
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            picture.at<cv::Vec3b>(y, x) =
                blockColours[static_cast<std::size_t>(y / blockSide * 3 + x / blockSide)];
    return picture;
}

std::string blocksOf(const cv::Mat& bgr, int tolerance) {
    std::string read;
    for (int y = blockSide / 2; y < bgr.rows; y += blockSide) {
        if (!read.empty())
            read += '/';
        for (int x = blockSide / 2; x < bgr.cols; x += blockSide) {
            char block = '?';
            for (std::size_t i = 0; i < blockColours.size(); ++i)
                if (cv::norm(cv::Vec3i(bgr.at<cv::Vec3b>(y, x)) - cv::Vec3i(blockColours[i]),
                             cv::NORM_INF) <= tolerance)
                    block = static_cast<char>('0' + i);
            read += block;
        }
    }
    return read;
}

Bytes exifBlock(std::uint16_t orientation) {
    Bytes block = bytesOf(std::string("Exif\0\0MM\0*\0\0\0\x08", 14));
    append(block, 2, 2); // entries of the first directory
    append(block, 0x0112'0003, 4);
    append(block, 1, 4);
    append(block, std::uint32_t{orientation} << 16, 4);
    append(block, 0x8769'0004, 4); // where the EXIF directory is
    append(block, 1, 4);
    append(block, 38, 4);
    append(block, 0, 4);
    append(block, 2, 2);
    append(block, 0x9003'0002, 4); // when the picture was taken, 20 letters at 68
    append(block, 20, 4);
    append(block, 68, 4);
    append(block, 0xA405'0003, 4); // 35 mm equivalent
    append(block, 1, 4);
    append(block, 26u << 16, 4);
    append(block, 0, 4);
    append(block, bytesOf(std::string("2025:03:14 10:12:00\0", 20)));
    return block;
}

Bytes jpegOf(const cv::Mat& picture, const std::vector<int>& settings) {
    std::vector<unsigned char> bytes;
    REQUIRE(cv::imencode(".jpg", picture, bytes, settings));
    return bytesOf(bytes);
}

Bytes pngOf(const cv::Mat& picture) {
    std::vector<unsigned char> bytes;
    REQUIRE(cv::imencode(".png", picture, bytes));
    return bytesOf(bytes);
}

Bytes cmykJpegOf(const cv::Mat& cmyk) {
    jpeg_compress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors);
    jpeg_create_compress(&info);
    unsigned char* data = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&info, &data, &size);
    info.image_width = static_cast<JDIMENSION>(cmyk.cols);
    info.image_height = static_cast<JDIMENSION>(cmyk.rows);
    info.input_components = 4;
    info.in_color_space = JCS_CMYK;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, 100, TRUE);
    jpeg_start_compress(&info, TRUE);
    for (int y = 0; y < cmyk.rows; ++y) {
        auto* row = const_cast<JSAMPLE*>(cmyk.ptr<JSAMPLE>(y));
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    const auto* first = reinterpret_cast<const std::byte*>(data);
    Bytes bytes(first, first + size);
    jpeg_destroy_compress(&info);
    std::free(data);
    return bytes;
}

Bytes jpegWithExif(const Bytes& jpeg, const Bytes& exif) {
    Bytes all(jpeg.begin(), jpeg.begin() + 2);
    append(all, 0xFFE1, 2);
    append(all, static_cast<std::uint32_t>(exif.size() + 2), 2);
    append(all, exif);
    all.insert(all.end(), jpeg.begin() + 2, jpeg.end());
    return all;
}

Bytes pngWithChunk(const Bytes& png, const std::string& kind, const Bytes& content) {
    constexpr std::ptrdiff_t afterHeader = 8 + 25;
    Bytes all(png.begin(), png.begin() + afterHeader);
    append(all, pngChunk(kind, content));
    all.insert(all.end(), png.begin() + afterHeader, png.end());
    return all;
}

Bytes jpegHeader(unsigned width, unsigned height) {
    Bytes header;
    append(header, 0xFFD8, 2);
    append(header, 0xFFC0'0011, 4); // baseline frame, 17 bytes
    append(header, 8, 1);
    append(header, height, 2);
    append(header, width, 2);
    append(header, 3, 1);
    for (std::uint32_t component = 1; component <= 3; ++component)
        append(header, component << 16 | 0x1100, 3);
    append(header, 0xFFDA'000C, 4); // scan, 12 bytes
    append(header, 3, 1);
    for (std::uint32_t component = 1; component <= 3; ++component)
        append(header, component << 8, 2);
    append(header, 0x003F00, 3);
    return header;
}

Bytes pngHeader(std::uint32_t width, std::uint32_t height) {
    Bytes content;
    append(content, width, 4);
    append(content, height, 4);
    append(content, 0x0802, 2); // 8 bits, RGB
    append(content, 0, 3);
    Bytes header = bytesOf(std::string("\x89PNG\r\n\x1A\n"));
    append(header, pngChunk("IHDR", content));
    return header;
}

Bytes storedHeic(const std::string& name) {
    std::ifstream in(SWARFBOOK_SOURCE_DIR "/tests/photo/" + name, std::ios::binary);
    REQUIRE(in.good());
    return bytesOf(std::string(std::istreambuf_iterator<char>(in), {}));
}

Bytes turnedHeic() {
    return storedHeic("turned.heic");
}

Bytes bytesOf(const std::vector<unsigned char>& bytes) {
    Bytes all(bytes.size());
    std::memcpy(all.data(), bytes.data(), bytes.size());
    return all;
}

Bytes bytesOf(const std::string& text) {
    Bytes all(text.size());
    std::memcpy(all.data(), text.data(), text.size());
    return all;
}

} // namespace swarfbook::samples
