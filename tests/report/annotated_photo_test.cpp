// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/annotated_photo.h"
#include "report/hand_made.h"
#include "report/mark_letters.h"
#include "report/photo_legend.h"
#include "report/photo_view.h"
#include "report/scale_bar.h"
#include "report/type_marks.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

cv::Vec3b bgrOf(Ink ink) {
    return {static_cast<unsigned char>(std::lround(255.0 * ink.blue)),
            static_cast<unsigned char>(std::lround(255.0 * ink.green)),
            static_cast<unsigned char>(std::lround(255.0 * ink.red))};
}

/// Largest difference of a channel.
int distance(const cv::Vec3b& a, const cv::Vec3b& b) {
    int most = 0;
    for (int i = 0; i < 3; ++i)
        most = std::max(most, std::abs(a[i] - b[i]));
    return most;
}

HandMadeCamera cameraOfMegapixels(double megapixels) {
    HandMadeCamera camera;
    const double factor = std::sqrt(megapixels * 1e6 / camera.size.area());
    camera.size = {static_cast<int>(camera.size.width * factor),
                   static_cast<int>(camera.size.height * factor)};
    camera.pxPerMm *= factor;
    return camera;
}

/// Longest unbroken run of near-black pixels in one row, over all rows of the picture's part.
int longestDarkRun(const cv::Mat& part) {
    int longest = 0;
    for (int row = 0; row < part.rows; ++row) {
        int run = 0;
        for (int column = 0; column < part.cols; ++column) {
            const cv::Vec3b pixel = part.at<cv::Vec3b>(row, column);
            run = pixel[0] < 100 && pixel[1] < 100 && pixel[2] < 100 ? run + 1 : 0;
            longest = std::max(longest, run);
        }
    }
    return longest;
}

} // namespace

TEST_CASE("A photo handed over comes out like one that is kept, and a kept one stays unchanged") {
    const HandMadeCamera camera = cameraOfMegapixels(12.0);
    Measurement measurement = emptyMeasurement(camera);
    measurement.debris->particles.push_back(
        roundParticle(1, {70.0, 30.0}, 2.5, ParticleType::brightMetal));
    countParticles(measurement);
    const cv::Mat photo = greyPhoto(camera);
    const cv::Mat before = photo.clone();
    const cv::Mat kept = annotatedPhoto(photo, measurement);
    CHECK(cv::norm(photo, before, cv::NORM_INF) == 0.0);
    cv::Mat own = photo.clone();
    const cv::Mat handedOver = annotatedPhoto(std::move(own), measurement);
    CHECK(cv::norm(kept, handedOver, cv::NORM_INF) == 0.0);
}

// Truth: the pinhole with one radial term, worked out in hand_made.cpp from the camera's own
// numbers (Hartley & Zisserman, Multiple View Geometry, 2nd ed., sections 6.1 and 7.4).
TEST_CASE("outlines lie where the card's plane lies in the photo, from 3 to 48 megapixels") {
    const double megapixels = GENERATE(3.0, 12.0, 48.0);
    const HandMadeCamera camera = cameraOfMegapixels(megapixels);
    Measurement measurement = emptyMeasurement(camera);
    const Particle piece = roundParticle(1, {70.0, 30.0}, 2.5, ParticleType::brightMetal);
    measurement.debris->particles.push_back(piece);
    countParticles(measurement);
    const cv::Mat photo = greyPhoto(camera);
    const cv::Mat drawn = annotatedPhoto(photo, measurement);

    CHECK(drawn.cols == photo.cols);
    CHECK(drawn.rows > photo.rows);
    const cv::Vec3b core = bgrOf(markOf(ParticleType::brightMetal).core);
    for (const PointOnCard& point : piece.outline) {
        const cv::Point2d at = photoFromTrueMm(camera, point.x, point.y);
        const cv::Vec3b seen = drawn.at<cv::Vec3b>(
            cv::Point(static_cast<int>(std::lround(at.x)), static_cast<int>(std::lround(at.y))));
        // A line at least 1.1 px wide covers at least half of the pixel that holds its middle.
        CHECK(distance(seen, core) < 128);
    }
    // Inside the piece and far from it the photo is unchanged.
    const cv::Point2d middle = photoFromTrueMm(camera, piece.centre.x, piece.centre.y);
    CHECK(drawn.at<cv::Vec3b>(cv::Point(middle)) == photo.at<cv::Vec3b>(cv::Point(middle)));
    CHECK(drawn.at<cv::Vec3b>(5, 5) == photo.at<cv::Vec3b>(5, 5));
}

TEST_CASE("the window's edge is drawn where the window is") {
    const HandMadeCamera camera;
    const Measurement measurement = emptyMeasurement(camera);
    const cv::Mat drawn = annotatedPhoto(greyPhoto(camera), measurement);
    // The window of the close card, 20, 18, 64 x 44 mm nominal, printed 1 % too large.
    for (const double along : {0.1, 0.37, 0.5, 0.81}) {
        const cv::Point2d at = photoFromTrueMm(camera, 1.01 * (20.0 + 64.0 * along), 1.01 * 18.0);
        const cv::Vec3b seen = drawn.at<cv::Vec3b>(
            cv::Point(static_cast<int>(std::lround(at.x)), static_cast<int>(std::lround(at.y))));
        CHECK(seen[0] < 110);
    }
}

TEST_CASE("the scale bar is as long as it says at the window's centre, within a pixel") {
    HandMadeCamera camera;
    camera.lean = GENERATE(0.0, 0.004);
    const Measurement measurement = emptyMeasurement(camera);
    const PhotoView view(greyPhoto(camera), *measurement.card);
    const ScaleBar bar = scaleBarFor(view, windowOf(*measurement.card));

    // The bar laid across the window's centre: its ends, by the camera's own numbers, are `length`
    // apart along x.
    const double x = 1.01 * 52.0, y = 1.01 * 40.0, half = bar.length.value() / 2.0;
    const cv::Point2d left = photoFromTrueMm(camera, x - half, y);
    const cv::Point2d right = photoFromTrueMm(camera, x + half, y);
    // At the centre: a bar of 1 mm there, times its length (perspective is not linear over 10 mm).
    const double perMm =
        (photoFromTrueMm(camera, x + 0.01, y).x - photoFromTrueMm(camera, x - 0.01, y).x) / 0.02;
    CHECK(bar.drawn.value() == Approx(perMm * bar.length.value()).margin(0.5));
    if (camera.lean == 0.0)
        CHECK(bar.drawn.value() == Approx(right.x - left.x).margin(1.0));

    const cv::Mat drawn = annotatedPhoto(greyPhoto(camera), measurement);
    const cv::Mat legend = drawn.rowRange(camera.size.height, drawn.rows);
    CHECK(longestDarkRun(legend) == Approx(bar.drawn.value()).margin(1.0));
}

TEST_CASE("a doubtful piece has its letter in brackets, and the legend says so") {
    const HandMadeCamera camera;
    Measurement measurement = emptyMeasurement(camera);
    Particle piece = handMadeModel().samples.front().debris.particles.front();
    measurement.debris->particles = {piece};
    AnnotationOptions options;
    const auto saysBrackets = [&] {
        const auto notes = legendWords(measurement, options, 0).notes;
        return std::find(notes.begin(), notes.end(), "In brackets: 1 doubtful.") != notes.end();
    };
    const cv::Mat sure = annotatedPhoto(greyPhoto(camera), measurement);
    CHECK_FALSE(saysBrackets());
    measurement.debris->particles.front().debrisProbability = 0.5;
    const cv::Mat doubted = annotatedPhoto(greyPhoto(camera), measurement);
    CHECK(saysBrackets());
    options.letters = false;
    CHECK_FALSE(saysBrackets());
    const cv::Rect photo({0, 0}, camera.size);
    CHECK(cv::norm(sure(photo), doubted(photo), cv::NORM_L1) > 0.0);
}

TEST_CASE("letters of any width keep off each other and off the pieces") {
    LetterRoom room({400.0, 300.0}, 20.0);
    const std::vector<Spot> piece{{190.0, 140.0}, {210.0, 140.0}, {210.0, 160.0}, {190.0, 160.0}};
    room.keepOff(piece);
    std::vector<cv::Rect2d> boxes{{190.0, 140.0, 20.0, 20.0}};
    for (const double width : {14.0, 33.0, 33.0, 14.0, 33.0}) {
        const auto middle = room.place(piece, width);
        REQUIRE(middle);
        const cv::Rect2d box(middle->x - width / 2.0, middle->y - 9.0, width, 18.0);
        for (const cv::Rect2d& other : boxes)
            CHECK((box & other).area() == 0.0);
        boxes.push_back(box);
    }
}

TEST_CASE("a straightened window has one scale all over and says so") {
    const HandMadeCamera camera;
    Measurement measurement = emptyMeasurement(camera);
    measurement.debris->particles.push_back(
        roundParticle(1, {28.0, 52.0}, 2.0, ParticleType::brightMetal));
    countParticles(measurement);
    AnnotationOptions options;
    options.straightenedAt = PixelsPerMillimetre(20.0);
    options.margin = Millimetres(2.0);
    const cv::Mat drawn = annotatedPhoto(greyPhoto(camera), measurement, options);
    // 64 and 44 mm nominal, 1 % larger, and 2 mm round them.
    CHECK(drawn.cols == Approx(20.0 * (64.64 + 4.0)).margin(1.0));
    const int height = static_cast<int>(std::lround(20.0 * (44.44 + 4.0)));
    CHECK(longestDarkRun(drawn.rowRange(height, drawn.rows)) == Approx(200.0).margin(1.0));
    // The piece's leftmost point.
    const cv::Point at(static_cast<int>(20.0 * (26.0 - 20.2 + 2.0)),
                       static_cast<int>(20.0 * (52.0 - 18.18 + 2.0)));
    CHECK(distance(drawn.at<cv::Vec3b>(at), bgrOf(markOf(ParticleType::brightMetal).core)) < 110);
}

TEST_CASE("straightening moves each pixel of the photo to its place on the card") {
    const HandMadeCamera camera;
    const Measurement measurement = emptyMeasurement(camera);
    cv::Mat photo = greyPhoto(camera, 200);
    const cv::Point2d spot = photoFromTrueMm(camera, 60.0, 45.0);
    cv::circle(photo, spot * 16, 10 * 16, cv::Scalar::all(0), cv::FILLED, cv::LINE_AA, 4);
    const PhotoView view = PhotoView::straightened(
        photo, *measurement.card, {50.0, 40.0, 20.0, 10.0}, PixelsPerMillimetre(30.0));
    cv::Mat grey;
    cv::cvtColor(view.picture(), grey, cv::COLOR_BGR2GRAY);
    const cv::Moments moments = cv::moments(255 - grey - 55);
    CHECK(moments.m10 / moments.m00 + 0.5 == Approx(300.0).margin(0.6));
    CHECK(moments.m01 / moments.m00 + 0.5 == Approx(150.0).margin(0.6));
}

TEST_CASE("crops of pieces share one scale and one size, with a scale bar that is true") {
    const HandMadeCamera camera;
    Measurement measurement = emptyMeasurement(camera);
    const Particle large = roundParticle(1, {40.0, 40.0}, 1.5, ParticleType::lining);
    const Particle small = roundParticle(2, {70.0, 50.0}, 0.2, ParticleType::brightMetal);
    const CropOptions options{Millimetres(4.0), PixelsPerMillimetre(50.0), true};
    const cv::Mat a = croppedPiece(greyPhoto(camera), measurement, large, options);
    const cv::Mat b = croppedPiece(greyPhoto(camera), measurement, small, options);
    CHECK(a.size() == b.size());
    CHECK(a.cols == 200);
    CHECK(a.rows == 200 + cropBandHeight(options));
    const int bar = longestDarkRun(a.rowRange(200, a.rows));
    // 1 mm is the largest round length of at most 4 mm / 2.2.
    CHECK(bar == Approx(50.0).margin(1.0));
}

TEST_CASE("many pieces close together are marked without a letter rather than over each other") {
    const HandMadeCamera camera;
    Measurement measurement = emptyMeasurement(camera);
    for (int i = 0; i < 600; ++i)
        measurement.debris->particles.push_back(roundParticle(
            i + 1, {40.0 + 0.4 * (i % 30), 30.0 + 0.4 * (i / 30)}, 0.15, ParticleType::lining, 8));
    countParticles(measurement);
    CHECK_NOTHROW(annotatedPhoto(greyPhoto(camera), measurement));
}

TEST_CASE("a refused photo, or a photo of another size, is not drawn on") {
    const HandMadeCamera camera;
    Measurement refused;
    refused.refusal = Refusal{RefusalReason::blurred, "", ""};
    CHECK_THROWS_AS(annotatedPhoto(greyPhoto(camera), refused), std::logic_error);
    HandMadeCamera other = camera;
    other.size = {800, 600};
    CHECK_THROWS_AS(annotatedPhoto(greyPhoto(other), emptyMeasurement(camera)), std::logic_error);
}
