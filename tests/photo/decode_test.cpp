// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"
#include "photo/decode.h"
#include "photo/photo_samples.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

using namespace swarfbook;
using namespace swarfbook::samples;

namespace {

Photo decoded(const Bytes& bytes) {
    Result<Photo> photo = decodePhoto(bytes, "photo.file");
    if (!photo)
        FAIL("refused: " << photo.error().detail);
    REQUIRE(photo->bgr.type() == CV_8UC3);
    return *photo;
}

/// Source: TIFF 6.0 / EXIF 2.32, tag 274; stored 012 / 345.
const std::array<std::string, 9> uprightBlocks{
    "", "012/345", "210/543", "543/210", "345/012", "03/14/25", "30/41/52", "52/41/30", "25/14/03"};

} // namespace

TEST_CASE("all eight EXIF orientations of a JPEG come out upright") {
    const Bytes jpeg = jpegOf(blocksAsStored());
    for (std::uint16_t orientation = 1; orientation <= 8; ++orientation) {
        INFO("orientation " << orientation);
        const Photo photo = decoded(jpegWithExif(jpeg, exifBlock(orientation)));
        CHECK(blocksOf(photo.bgr) == uprightBlocks[orientation]);
        CHECK(photo.facts.orientation == orientation);
        CHECK(photo.facts.widthPx == (orientation >= 5 ? 64 : 96));
        CHECK(photo.facts.heightPx == (orientation >= 5 ? 96 : 64));
    }
}

TEST_CASE("all eight EXIF orientations of a PNG come out upright") {
    const Bytes png = pngOf(blocksAsStored());
    for (std::uint16_t orientation = 1; orientation <= 8; ++orientation) {
        INFO("orientation " << orientation);
        const Bytes exif = exifBlock(orientation);
        const Photo photo = decoded(pngWithChunk(png, "eXIf", {exif.begin() + 6, exif.end()}));
        CHECK(blocksOf(photo.bgr, 0) == uprightBlocks[orientation]);
        CHECK(photo.facts.orientation == orientation);
    }
}

TEST_CASE("an orientation that is not 1 to 8 counts as upright") {
    const Bytes jpeg = jpegOf(blocksAsStored());
    for (const unsigned orientation : {0u, 9u, 65535u}) {
        const Photo photo =
            decoded(jpegWithExif(jpeg, exifBlock(static_cast<std::uint16_t>(orientation))));
        CHECK(blocksOf(photo.bgr) == uprightBlocks[1]);
        CHECK(photo.facts.orientation == 1);
    }
}

TEST_CASE("a HEIC photo is turned once, by its own turn and not by EXIF again") {
    const Photo photo = decoded(turnedHeic());
    CHECK(blocksOf(photo.bgr) == uprightBlocks[6]);
    CHECK(photo.facts.orientation == 6);
    CHECK(photo.facts.widthPx == 64);
    CHECK(photo.facts.heightPx == 96);
    CHECK(photo.facts.taken == "2025-03-14T10:12:00");
    CHECK(photo.facts.focalLength35Mm == 26.0);
}

TEST_CASE("a photo's facts are read from its file") {
    const Bytes file = jpegWithExif(jpegOf(blocksAsStored()), exifBlock(1));
    const Result<Photo> photo = decodePhoto(file, "folder/pan 1.jpg");
    REQUIRE(photo);
    CHECK(photo->facts.file == "pan 1.jpg");
    CHECK(photo->facts.taken == "2025-03-14T10:12:00");
    CHECK(photo->facts.focalLength35Mm == 26.0);
    CHECK(photo->facts.sha256 == sha256Hex(file));
}

TEST_CASE("without EXIF the facts are left empty, and an invalid time is dropped") {
    const Photo plain = decoded(jpegOf(blocksAsStored()));
    CHECK(plain.facts.orientation == 1);
    CHECK(plain.facts.taken.empty());
    CHECK(plain.facts.focalLength35Mm == 0.0);
    Bytes exif = exifBlock(1);
    for (const std::string wrong :
         {"0000:00:00 00:00:00", "    :  :     :  :  ", "2025:13:14 10:12:00",
          "2025:02:29 10:12:00", "<b>25:03:14 10:12:00"}) {
        const Bytes text = bytesOf(wrong);
        std::copy(text.begin(), text.begin() + 19, exif.end() - 20);
        CHECK(decoded(jpegWithExif(jpegOf(blocksAsStored()), exif)).facts.taken.empty());
    }
}

// Source: OpenCV's own decoder, which uses the same library with its plain settings.
TEST_CASE("a JPEG's pixels are those that OpenCV decodes, baseline and progressive") {
    cv::Mat noise(75, 101, CV_8UC3);
    cv::theRNG().state = 7;
    cv::randu(noise, 0, 256);
    cv::GaussianBlur(noise, noise, {}, 1.5);
    for (const int progressive : {0, 1}) {
        const Bytes file = jpegOf(
            noise, {cv::IMWRITE_JPEG_PROGRESSIVE, progressive, cv::IMWRITE_JPEG_QUALITY, 88});
        const cv::Mat data(1, static_cast<int>(file.size()), CV_8U,
                           const_cast<std::byte*>(file.data()));
        const cv::Mat expected = cv::imdecode(data, cv::IMREAD_COLOR);
        CHECK(cv::norm(decoded(file).bgr, expected, cv::NORM_INF) == 0.0);
    }
}

TEST_CASE("a grey JPEG and a grey PNG become three equal channels") {
    cv::Mat grey(40, 60, CV_8UC1);
    for (int x = 0; x < grey.cols; ++x)
        grey.col(x) = 4 * x;
    cv::Mat expected;
    cv::cvtColor(grey, expected, cv::COLOR_GRAY2BGR);
    CHECK(cv::norm(decoded(pngOf(grey)).bgr, expected, cv::NORM_INF) == 0.0);
    CHECK(cv::norm(decoded(jpegOf(grey, {cv::IMWRITE_JPEG_QUALITY, 100})).bgr, expected,
                   cv::NORM_INF) <= 2.0);
}

// Source: files with the Adobe mark store inks inverted (255 = no ink; Adobe Technical Note 5116);
// light = (1 - ink) (1 - black) per channel, the uncalibrated conversion in common use.
TEST_CASE("a JPEG of four inks comes out in its colours") {
    const std::array<std::pair<cv::Vec4b, cv::Vec3b>, 5> cases{{
        {{255, 255, 255, 255}, {255, 255, 255}},
        {{255, 255, 255, 0}, {0, 0, 0}},
        {{0, 255, 255, 255}, {255, 255, 0}}, // cyan
        {{255, 0, 0, 255}, {0, 0, 255}},     // magenta and yellow: red
        {{255, 255, 255, 128}, {128, 128, 128}},
    }};
    for (const auto& [stored, bgr] : cases) {
        const cv::Mat picture(32, 32, CV_8UC4, cv::Scalar(stored));
        const cv::Vec3b read = decoded(cmykJpegOf(picture)).bgr.at<cv::Vec3b>(16, 16);
        CHECK(cv::norm(cv::Vec3i(read) - cv::Vec3i(bgr), cv::NORM_INF) <= 2.0);
    }
}

TEST_CASE("a PNG's alpha is laid on white") {
    cv::Mat picture(8, 8, CV_8UC4, cv::Scalar(10, 20, 30, 0));
    picture.at<cv::Vec4b>(1, 1) = {10, 20, 30, 255};
    picture.at<cv::Vec4b>(2, 2) = {100, 0, 200, 51}; // one fifth opaque
    const Photo photo = decoded(pngOf(picture));
    CHECK(photo.bgr.at<cv::Vec3b>(0, 0) == cv::Vec3b(255, 255, 255));
    CHECK(photo.bgr.at<cv::Vec3b>(1, 1) == cv::Vec3b(10, 20, 30));
    CHECK(photo.bgr.at<cv::Vec3b>(2, 2) == cv::Vec3b(224, 204, 244));
}

TEST_CASE("a 16-bit PNG is brought to 8 bits by scale, not by cutting bits off") {
    cv::Mat picture(4, 256, CV_16UC3);
    for (int x = 0; x < 256; ++x)
        picture.col(x) = cv::Scalar::all(257.0 * x);
    picture.at<cv::Vec3w>(0, 0) = {0x01FF, 0x01FF, 0x01FF}; // 511 / 257 = 1.99
    const Photo photo = decoded(pngOf(picture));
    for (int x = 0; x < 256; ++x)
        CHECK(photo.bgr.at<cv::Vec3b>(2, x)[0] == x);
    CHECK(photo.bgr.at<cv::Vec3b>(0, 0)[1] == 2);
}

TEST_CASE("the kind of file is recognised by its content, not by its name") {
    const Result<Photo> photo = decodePhoto(pngOf(blocksAsStored()), "really-a-png.jpg");
    REQUIRE(photo);
    CHECK(blocksOf(photo->bgr, 0) == "012/345");
}
