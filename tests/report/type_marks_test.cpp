// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/type_marks.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <set>

using namespace swarfbook;

namespace {

/// The look of a line in a grey print: the lightness of its light and dark parts, and how often it
/// changes between them.
struct GreyRhythm {
    double lightest = 0.0, darkest = 255.0;
    double casing = 0.0; ///< mean beside the core
    int changes = 0;
};

GreyRhythm rhythmOf(const OutlineMark& mark, double background) {
    constexpr int length = 600;
    constexpr double lineWidth = 6.0;
    const Picture picture(length, 40);
    setInk(picture.pen(), grey(background));
    cairo_paint(picture.pen());
    cairo_move_to(picture.pen(), -50.0, 20.0);
    cairo_line_to(picture.pen(), length + 50.0, 20.0);
    strokeMark(picture.pen(), mark, lineWidth);
    cv::Mat gray;
    cv::cvtColor(picture.bgr(), gray, cv::COLOR_BGR2GRAY);
    GreyRhythm rhythm;
    for (int x = 0; x < length; ++x) {
        rhythm.lightest = std::max<double>(rhythm.lightest, gray.at<unsigned char>(20, x));
        rhythm.darkest = std::min<double>(rhythm.darkest, gray.at<unsigned char>(20, x));
    }
    rhythm.casing = cv::mean(gray.row(15))[0];
    const double middle = 0.5 * (rhythm.lightest + rhythm.darkest);
    for (int x = 1; x < length; ++x)
        rhythm.changes += rhythm.lightest - rhythm.darkest > 40.0 &&
                          (gray.at<unsigned char>(20, x) > middle) !=
                              (gray.at<unsigned char>(20, x - 1) > middle);
    return rhythm;
}

} // namespace

// Limits from common practice, no source: a sixth of the scale from black to white, or a rhythm a
// quarter faster, is distinguished at a glance.
TEST_CASE("any two types differ in lightness or rhythm when printed grey") {
    for (int a = 0; a < particleTypeCount; ++a)
        for (int b = a + 1; b < particleTypeCount; ++b) {
            const GreyRhythm one = rhythmOf(markOf(static_cast<ParticleType>(a)), 0.5);
            const GreyRhythm other = rhythmOf(markOf(static_cast<ParticleType>(b)), 0.5);
            const bool lightness = std::abs(one.lightest - other.lightest) > 42.0 ||
                                   std::abs(one.darkest - other.darkest) > 42.0 ||
                                   std::abs(one.casing - other.casing) > 42.0;
            const int more = std::max(one.changes, other.changes);
            const bool rhythm = more - std::min(one.changes, other.changes) > more / 4.0;
            INFO(markOf(static_cast<ParticleType>(a)).words
                 << " and " << markOf(static_cast<ParticleType>(b)).words);
            CHECK((lightness || rhythm));
        }
}

TEST_CASE("a mark stands out on a white, a grey and a black ground") {
    for (int i = 0; i < particleTypeCount; ++i)
        for (const double ground : {0.02, 0.5, 0.98}) {
            const GreyRhythm seen = rhythmOf(markOf(static_cast<ParticleType>(i)), ground);
            INFO(markOf(static_cast<ParticleType>(i)).words << " on " << ground);
            const double level = 255.0 * ground;
            // The core or the casing round it is far from the ground.
            CHECK((std::abs(seen.lightest - level) > 60.0 ||
                   std::abs(seen.darkest - level) > 60.0 || std::abs(seen.casing - level) > 60.0));
        }
}

TEST_CASE("every type has a letter of its own") {
    std::set<std::string> letters{sliverMark().letter};
    for (int i = 0; i < particleTypeCount; ++i)
        letters.insert(markOf(static_cast<ParticleType>(i)).letter);
    CHECK(letters.size() == static_cast<std::size_t>(particleTypeCount) + 1);
}

TEST_CASE("a mark has the words of its type") {
    for (int i = 0; i < particleTypeCount; ++i)
        CHECK(markOf(static_cast<ParticleType>(i)).words == typeWord(static_cast<ParticleType>(i)));
}
