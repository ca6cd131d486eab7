// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/decode.h"
#include "photo/photo_samples.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

#include <algorithm>
#include <filesystem>
#include <random>
#include <sys/resource.h>

using namespace swarfbook;
using namespace swarfbook::samples;

namespace {

Refusal refusalOf(const Bytes& bytes) {
    const Result<Photo> photo = decodePhoto(bytes, "photo.jpg");
    REQUIRE_FALSE(photo.has_value());
    CHECK_FALSE(photo.error().detail.empty());
    CHECK_FALSE(photo.error().advice.empty());
    return photo.error();
}

cv::Mat noisyPicture(int type = CV_8UC3) {
    cv::Mat picture(48, 64, type);
    cv::theRNG().state = 11;
    cv::randu(picture, 0, 256);
    return picture;
}

std::vector<std::pair<std::string, Bytes>> oneOfEachKind() {
    const cv::Mat picture = noisyPicture();
    return {{"JPEG", jpegWithExif(jpegOf(picture), exifBlock(6))},
            {"JPEG", jpegOf(picture, {cv::IMWRITE_JPEG_PROGRESSIVE, 1})},
            {"JPEG", jpegOf(picture, {cv::IMWRITE_JPEG_RST_INTERVAL, 2})},
            {"PNG", pngOf(picture)},
            {"PNG", pngOf(noisyPicture(CV_8UC4))},
            {"HEIC", turnedHeic()}};
}

/// Changes some bytes, cuts, doubles or drops a stretch.
Bytes mutated(Bytes bytes, std::mt19937& random) {
    const auto below = [&](std::size_t limit) {
        return std::uniform_int_distribution<std::size_t>(0, limit - 1)(random);
    };
    const std::size_t changes = 1 + below(6);
    for (std::size_t i = 0; i < changes; ++i)
        bytes[below(bytes.size())] = static_cast<std::byte>(below(256));
    const auto from = static_cast<std::ptrdiff_t>(below(bytes.size()));
    switch (below(5)) {
    case 0:
        bytes.resize(1 + static_cast<std::size_t>(from));
        break;
    case 1:
        bytes.erase(bytes.begin() + from,
                    bytes.begin() + from +
                        static_cast<std::ptrdiff_t>(below(std::min<std::size_t>(
                            32, bytes.size() - static_cast<std::size_t>(from)))));
        break;
    case 2: {
        const Bytes stretch(bytes.begin() + from / 2, bytes.begin() + from);
        bytes.insert(bytes.begin() + from, stretch.begin(), stretch.end());
        break;
    }
    default:
        break;
    }
    return bytes;
}

} // namespace

TEST_CASE("a photo cut short anywhere is refused, and called cut short once its kind is known") {
    for (const auto& [kind, whole] : oneOfEachKind()) {
        REQUIRE(decodePhoto(whole, "whole").has_value());
        for (std::size_t length = 0; length < whole.size(); ++length) {
            INFO(kind << " cut to " << length << " of " << whole.size());
            const Refusal refusal =
                refusalOf({whole.begin(), whole.begin() + static_cast<long>(length)});
            CHECK(refusal.reason == RefusalReason::notAPhoto);
            if (length > 12)
                CHECK_THAT(refusal.detail, Catch::Contains("cut short"));
        }
    }
}

TEST_CASE("a JPEG whose picture data is broken is refused, not measured half grey") {
    const Bytes whole = jpegOf(noisyPicture());
    // The last 200 bytes of picture data are dropped but the end mark is there.
    Bytes hole(whole.begin(), whole.end() - 202);
    hole.insert(hole.end(), whole.end() - 2, whole.end());
    CHECK(refusalOf(hole).reason == RefusalReason::notAPhoto);
    CHECK_THAT(refusalOf(hole).detail, Catch::Contains("damaged"));
}

TEST_CASE("zeros before a JPEG's end mark and bytes after it do no harm") {
    const Bytes whole = jpegOf(noisyPicture());
    Bytes padded(whole.begin(), whole.end() - 2);
    padded.insert(padded.end(), 40, std::byte{0});
    padded.insert(padded.end(), whole.end() - 2, whole.end());
    CHECK(decodePhoto(padded, "padded").has_value());
    Bytes more = whole;
    const Bytes second = jpegOf(noisyPicture());
    more.insert(more.end(), second.begin(), second.end());
    CHECK(decodePhoto(more, "two in one").has_value());
}

TEST_CASE("a PNG with a wrong checksum is refused as damaged") {
    Bytes png = pngOf(noisyPicture());
    png[png.size() / 2] ^= std::byte{0x10};
    CHECK_THAT(refusalOf(png).detail, Catch::Contains("damaged"));
}

// Source: limits by hand; libjpeg itself stops at 65,500 a side (jmorecfg.h).
TEST_CASE("a header that declares too many pixels is refused before memory is taken for them") {
    for (const Bytes& file : {jpegHeader(65'000, 65'000), jpegHeader(65'535, 65'535),
                              jpegHeader(10'001, 10'000), pngHeader(65'000, 65'000),
                              pngHeader(0x7FFF'FFFF, 0x7FFF'FFFF), pngHeader(10'001, 10'000)})
        CHECK(refusalOf(file).reason == RefusalReason::tooLarge);
    CHECK_THAT(refusalOf(pngHeader(65'000, 64'000)).detail, Catch::Contains("65000 x 64000"));
    // Exactly 100 megapixels may be read; these are headers only, hence no photos.
    for (const Bytes& file : {jpegHeader(10'000, 10'000), pngHeader(10'000, 10'000)})
        CHECK(refusalOf(file).reason == RefusalReason::notAPhoto);
}

TEST_CASE("a HEIC that declares too many pixels is refused") {
    for (const std::byte high : {std::byte{0x00}, std::byte{0x7F}}) {
        Bytes file = turnedHeic();
        const Bytes name = bytesOf(std::string("ispe"));
        const auto at = std::search(file.begin(), file.end(), name.begin(), name.end());
        REQUIRE(at != file.end());
        for (const long field : {8, 12}) { // width and height, 32 bits each
            at[field] = high;
            at[field + 1] = std::byte{0};
            at[field + 2] = std::byte{0xFD};
            at[field + 3] = std::byte{0xE8}; // 65,000
        }
        CHECK(refusalOf(file).reason == RefusalReason::tooLarge);
    }
}

TEST_CASE("other kinds of file are named, with the kinds that can be read") {
    const std::array<std::pair<std::string, std::string>, 9> others{{
        {std::string("GIF89a\x01\0\x01\0", 10), "GIF"},
        {std::string("RIFF\x10\0\0\0WEBPVP8 ", 16), "WebP"},
        {std::string("BM\x46\0\0\0", 6), "BMP"},
        {std::string("II*\0\x08\0\0\0", 8), "TIFF"},
        {std::string("MM\0*\0\0\0\x08", 8), "TIFF"},
        {"%PDF-1.7\n", "PDF"},
        {std::string("\0\0\0\x1C"
                     "ftypavif\0\0\0\0",
                     16),
         "AVIF"},
        {std::string("\0\0\0\x18"
                     "ftypmp42\0\0\0\0",
                     16),
         "video"},
        {"PK\x03\x04zip", "ZIP"},
    }};
    for (const auto& [content, kind] : others) {
        const Refusal refusal = refusalOf(bytesOf(content));
        CHECK(refusal.reason == RefusalReason::notAPhoto);
        CHECK_THAT(refusal.detail, Catch::Contains(kind));
        CHECK_THAT(refusal.detail, Catch::Contains("JPEG, PNG and HEIC"));
    }
    const Refusal text = refusalOf(bytesOf(std::string("Dear customer, your gearbox ...")));
    CHECK(text.reason == RefusalReason::notAPhoto);
    CHECK_THAT(text.detail, Catch::Contains("not a JPEG, PNG or HEIC photo"));
}

TEST_CASE("an empty file is refused as such") {
    CHECK_THAT(refusalOf({}).detail, Catch::Contains("0 bytes"));
}

TEST_CASE("mutated photo files are decoded or refused, nothing else") {
    std::mt19937 random(20260501);
    int decodedOnes = 0;
    int refusedOnes = 0;
    for (const auto& [kind, whole] : oneOfEachKind()) {
        const int trials = kind == "HEIC" ? 400 : 1000;
        for (int i = 0; i < trials; ++i) {
            const Result<Photo> photo = decodePhoto(mutated(whole, random), "mutated");
            if (photo) {
                ++decodedOnes;
                REQUIRE(photo->bgr.type() == CV_8UC3);
                REQUIRE(photo->bgr.total() > 0);
                REQUIRE(photo->facts.widthPx == photo->bgr.cols);
                REQUIRE(photo->facts.heightPx == photo->bgr.rows);
            } else {
                ++refusedOnes;
                REQUIRE_FALSE(photo.error().detail.empty());
                REQUIRE_FALSE(photo.error().advice.empty());
            }
        }
    }
    CHECK(decodedOnes > 100);
    CHECK(refusedOnes > 1000);
}

TEST_CASE("a PNG that states a part of 1.9 GB takes no such memory") {
    const auto file = readPhotoFile(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                                    "tests/fuzz/corpus/decode_fuzz/long-part.png");
    REQUIRE(file.has_value());
    rusage before{}, after{};
    getrusage(RUSAGE_SELF, &before);
    CHECK_FALSE(decodePhoto(*file, "long-part.png").has_value());
    getrusage(RUSAGE_SELF, &after);
    CHECK(after.ru_maxrss - before.ru_maxrss < 200'000); // kB
}
