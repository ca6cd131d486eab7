// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "report/picture_bytes.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

#include <set>

using namespace swarfbook;

namespace {

cv::Mat smallPicture() {
    cv::Mat picture(30, 40, CV_8UC3, cv::Scalar(10, 120, 200));
    picture(cv::Rect(5, 5, 10, 10)).setTo(cv::Scalar(250, 20, 30));
    return picture;
}

/// Marker codes of a JPEG file before its image data.
/// Source: ITU-T T.81, annex B.
std::set<int> jpegMarkers(const std::vector<unsigned char>& bytes) {
    std::set<int> markers;
    std::size_t at = 2;
    while (at + 4 <= bytes.size() && bytes[at] == 0xFF && bytes[at + 1] != 0xDA) {
        markers.insert(bytes[at + 1]);
        at += 2 + static_cast<std::size_t>(bytes[at + 2] * 256 + bytes[at + 3]);
    }
    return markers;
}

/// Names of a PNG file's chunks. Source: ISO/IEC 15948, section 5.
std::set<std::string> pngChunks(const std::vector<unsigned char>& bytes) {
    std::set<std::string> names;
    std::size_t at = 8;
    while (at + 12 <= bytes.size()) {
        std::size_t length = 0;
        for (std::size_t i = 0; i < 4; ++i)
            length = length * 256 + bytes[at + i];
        names.insert(std::string(bytes.begin() + static_cast<long>(at) + 4,
                                 bytes.begin() + static_cast<long>(at) + 8));
        at += 12 + length;
    }
    return names;
}

} // namespace

TEST_CASE("a JPEG carries JFIF and tables alone: no EXIF, profile or comment") {
    for (const int marker : jpegMarkers(jpegBytes(smallPicture()))) {
        INFO(marker);
        const bool application = marker >= 0xE1 && marker <= 0xEF;
        CHECK_FALSE((application || marker == 0xFE));
    }
}

TEST_CASE("a PNG carries pixels and their colour space alone: no text, time or EXIF") {
    for (const std::string& name : pngChunks(pngBytes(smallPicture()))) {
        INFO(name);
        CHECK((name == "IHDR" || name == "sRGB" || name == "IDAT" || name == "IEND"));
    }
}

TEST_CASE("a picture's file name chooses its format") {
    const auto png = pictureBytes("a.PNG", smallPicture()),
               jpeg = pictureBytes("b.jpeg", smallPicture());
    const cv::Mat back = cv::imdecode(png, cv::IMREAD_COLOR);
    REQUIRE(back.size() == smallPicture().size());
    CHECK(cv::norm(back, smallPicture(), cv::NORM_INF) == 0.0);
    CHECK((jpeg[0] == 0xFF && jpeg[1] == 0xD8));
    CHECK_THROWS_AS(pictureBytes("c.gif", smallPicture()), UsageError);
    CHECK_THROWS_AS(pictureBytes("c", smallPicture()), UsageError);
}
