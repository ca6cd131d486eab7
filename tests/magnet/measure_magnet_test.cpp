// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_magnet.h"
#include "magnet/measure_magnet.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace swarfbook;

// Outside truth: what tests/magnet/drawn_magnet.cpp drew, seen from above. Tolerances are the
// product's requirements: covered share 0.10, mean overhang 0.5 mm and 2.5 of its own standard
// uncertainties; sizes 3 % for the unknown
// height (1.5 mm of 100 mm, twice) and the rim's 0.3 mm twice.

namespace {

MagnetSearch searched(const CalibratedPhoto& photo) {
    return measureMagnet(photo, cropWindow(photo, Millimetres(0.25)));
}

MagnetReading found(const drawn::Scene& scene) {
    MagnetSearch search = searched(scene.photo);
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    return std::get<MagnetReading>(std::move(search));
}

void checkCoat(const MagnetReading& reading, const drawn::Scene& scene) {
    const MagnetFinding& m = reading.finding;
    CHECK(m.coveredShare.value.value() == Approx(scene.coveredShare).margin(0.10));
    CHECK(m.coveredShare.standardUncertainty.value() > 0.0);
    CHECK(m.coveredShare.standardUncertainty.value() < 0.15);
    CHECK(m.overhangMean.value() == Approx(scene.overhangMean).margin(0.5));
    CHECK(std::abs(m.overhangMean.value() - scene.overhangMean) <
          2.5 * m.overhangUncertainty.value().value());
    CHECK(m.overhangUncertainty.value() < Millimetres(1.2));
    CHECK(m.overhangMean <= m.overhangP95);
    CHECK(m.overhangP95 <= m.overhangMax);
}

double sizeTolerance(double size) {
    return 0.03 * size + 0.6;
}

} // namespace

TEST_CASE("drawn discs of any coat are measured") {
    drawn::Magnet magnet;
    magnet.cover = GENERATE(0.0, 0.3, 0.6, 0.95);
    magnet.strand = 1.0 + 1.2 * magnet.cover;
    const auto scene = drawn::draw(magnet, {}, 11);
    const MagnetReading reading = found(scene);
    CHECK(reading.finding.shape == MagnetShape::disc);
    REQUIRE(reading.finding.size.size() == 1);
    CHECK(reading.finding.size[0].value() == Approx(30.0).margin(sizeTolerance(30.0)));
    CHECK_FALSE(reading.finding.outlineLost);
    CHECK(reading.finding.outlines.size() == 1);
    CHECK(reading.finding.slivers.empty());
    checkCoat(reading, scene);
}

TEST_CASE("a drawn ring is measured with its hole, and bright pieces on it are found") {
    drawn::Magnet magnet;
    magnet.shape = MagnetShape::ring;
    magnet.width = magnet.height = 32.0;
    magnet.hole = 14.0;
    magnet.cover = 0.9;
    magnet.strand = 2.2;
    magnet.pieces = 12;
    magnet.pieceSize = 0.9;
    const auto scene = drawn::draw(magnet, {}, 15);
    const MagnetReading reading = found(scene);
    CHECK(reading.finding.shape == MagnetShape::ring);
    REQUIRE(reading.finding.size.size() == 2);
    CHECK(reading.finding.size[0].value() == Approx(32.0).margin(sizeTolerance(32.0)));
    CHECK(reading.finding.size[1].value() == Approx(14.0).margin(sizeTolerance(14.0)));
    CHECK(reading.finding.outlines.size() == 2);
    checkCoat(reading, scene);

    const auto& slivers = reading.finding.slivers;
    CHECK(slivers.size() <= scene.pieces.size() + 2);
    int seen = 0;
    for (const cv::Point2d& piece : scene.pieces)
        seen += std::any_of(slivers.begin(), slivers.end(), [&](const Particle& s) {
            return std::hypot(s.centre.x - piece.x, s.centre.y - piece.y) < 0.35 &&
                   std::abs(s.maxFeret.value.value() - 0.9) < 0.4;
        });
    CHECK(seen >= 10);
    // Nine tenths of the face are under fuzz: what ends in it is at least so long.
    const auto inFuzz = std::count_if(slivers.begin(), slivers.end(),
                                      [](const Particle& s) { return s.leastSize.has_value(); });
    CHECK(inFuzz >= 8);
    for (const Particle& s : slivers)
        if (s.leastSize) {
            CHECK(s.leastSize->value() <= 0.9);
            CHECK(s.leastSize->value() > 0.3);
        }
    for (const Particle& s : slivers) {
        CHECK(s.glint > 0.5);
        CHECK(s.outline.size() >= 3);
    }
}

TEST_CASE("bright pieces on a bare face show wholly, so their sizes are plain") {
    drawn::Magnet magnet;
    magnet.cover = 0.0;
    magnet.pieces = 8;
    magnet.pieceSize = 0.9;
    const auto slivers = found(drawn::draw(magnet, {}, 15)).finding.slivers;
    CHECK(slivers.size() >= 6);
    for (const Particle& s : slivers) {
        CHECK_FALSE(s.leastSize.has_value());
        CHECK(s.maxFeret.value.value() == Approx(0.9).margin(0.4)); // its 95 % half-width
    }
}

// Source: a photo under a torch from the side, where 14 specks a square centimetre shine.
TEST_CASE("if the strands themselves shine, slivers are not reported") {
    drawn::Magnet magnet;
    magnet.cover = 0.95;
    magnet.strand = 1.5;
    drawn::Scene scene = drawn::draw(magnet, {}, 21);
    REQUIRE(found(scene).finding.sliversTold);
    std::mt19937 random(5);
    std::uniform_real_distribution<double> across(-12.0, 12.0);
    for (int i = 0; i < 200; ++i) { // strands, dark beside, of 0.1 by 0.4 mm
        const PointOnCard at{52.0 + across(random), 40.0 + across(random)};
        const PointInPhoto from = scene.photo.photoFromTrue(at);
        const PointInPhoto to = scene.photo.photoFromTrue({at.x + 0.4, at.y});
        cv::line(scene.photo.bgr, cv::Point(cv::Point2d(from.u, from.v)),
                 cv::Point(cv::Point2d(to.u, to.v)), cv::Scalar::all(190), 3);
    }
    const MagnetReading reading = found(scene);
    CHECK_FALSE(reading.finding.sliversTold);
    CHECK(reading.finding.slivers.empty());
}

TEST_CASE("a block is measured under a single lamp that throws a deep shadow") {
    drawn::Magnet magnet;
    magnet.shape = MagnetShape::block;
    magnet.width = 38.0;
    magnet.height = 18.0;
    magnet.turn = -0.2;
    magnet.cover = 0.9;
    magnet.strand = 2.0;
    magnet.shadow = {9.0, -3.0};
    magnet.umbra = 0.13;
    magnet.penumbra = 0.4;
    const auto scene = drawn::draw(magnet, {}, 18);
    const MagnetReading reading = found(scene);
    CHECK(reading.finding.shape == MagnetShape::block);
    REQUIRE(reading.finding.size.size() == 2);
    CHECK(reading.finding.size[0].value() == Approx(38.0).margin(sizeTolerance(38.0)));
    CHECK(reading.finding.size[1].value() == Approx(18.0).margin(sizeTolerance(18.0)));
    checkCoat(reading, scene);
}

TEST_CASE("a lamp beside the lens and a coarse photo change little") {
    drawn::Magnet magnet;
    magnet.cover = 0.6;
    magnet.shadow = {0.9, 0.5};
    magnet.umbra = 0.1;
    magnet.penumbra = 0.15;
    drawn::Camera camera;
    camera.size = {1600, 1200};
    const auto scene = drawn::draw(magnet, camera, 21);
    const MagnetReading reading = found(scene);
    CHECK(reading.finding.size.at(0).value() == Approx(30.0).margin(sizeTolerance(30.0)));
    checkCoat(reading, scene);
}

TEST_CASE("a bright face in the middle of the fuzz is not taken for a hole") {
    drawn::Magnet magnet;
    magnet.cover = 0.75;
    magnet.strand = 2.05;
    magnet.faceLight = 0.5;
    drawn::Camera camera;
    camera.size = {2000, 1500};
    const auto scene = drawn::draw(magnet, camera, 145);
    const MagnetReading reading = found(scene);
    CHECK(reading.finding.shape == MagnetShape::disc);
    checkCoat(reading, scene);
}

TEST_CASE("with strands too fine to be seen one by one the coat still reaches past the rim") {
    drawn::Magnet magnet;
    magnet.shape = GENERATE(MagnetShape::disc, MagnetShape::block);
    magnet.height = magnet.shape == MagnetShape::block ? 20.0 : 30.0;
    magnet.cover = 0.5;
    magnet.strand = 1.3;
    magnet.faceLight = GENERATE(0.1, 0.3);
    auto scene = drawn::draw(magnet, {}, 31);
    cv::GaussianBlur(scene.photo.bgr, scene.photo.bgr, {}, 3.0); // an eighth of a millimetre
    checkCoat(found(scene), scene);
}

TEST_CASE("the wall seen through a bare ring gives the face's height") {
    drawn::Magnet magnet;
    magnet.shape = MagnetShape::ring;
    magnet.width = magnet.height = 34.0;
    magnet.hole = 14.0;
    magnet.cover = 0.0;
    magnet.faceHeight = GENERATE(4.0, 7.0);
    const MagnetReading reading = found(drawn::draw(magnet, {}, 13));
    REQUIRE(reading.finding.height);
    CHECK(reading.finding.height->from == HeightFrom::hole);
    CHECK(reading.finding.height->value.value.value() == Approx(magnet.faceHeight).margin(0.8));
    CHECK(reading.finding.height->value.standardUncertainty.value() < 1.0);
    CHECK(reading.finding.size.at(0).value() == Approx(34.0).margin(0.4));
    CHECK(reading.finding.size.at(1).value() == Approx(14.0).margin(0.4));
}

TEST_CASE("if nothing shows the height, its uncertainty is that of usual magnets") {
    drawn::Magnet magnet;
    magnet.cover = 0.8;
    const MagnetReading reading = found(drawn::draw(magnet, {}, 5));
    REQUIRE(reading.finding.height);
    CHECK(reading.finding.height->from == HeightFrom::usual);
    CHECK(reading.finding.height->value.standardUncertainty.value() == Approx(1.5));
}

TEST_CASE("a coat thicker than 3 mm loses the outline") {
    drawn::Magnet magnet;
    magnet.width = magnet.height = 22.0;
    magnet.cover = 1.0;
    magnet.strand = 4.5;
    const auto scene = drawn::draw(magnet, {}, 6);
    REQUIRE(scene.overhangMean > 3.5);
    CHECK(found(scene).finding.outlineLost);
}

TEST_CASE("the region covers magnet and deep shadow, and leaves the paper round it") {
    drawn::Magnet magnet;
    magnet.cover = 0.7;
    magnet.shadow = {8.0, 0.0};
    magnet.umbra = 0.2;
    const auto scene = drawn::draw(magnet, {}, 8);
    const WindowCrop crop = cropWindow(scene.photo, Millimetres(0.25));
    const MagnetSearch search = measureMagnet(scene.photo, crop);
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    const cv::Mat& region = std::get<MagnetReading>(search).region;
    REQUIRE(region.size() == crop.bgr.size());
    const auto at = [&](double x, double y) {
        const PointInPhoto p = scene.photo.photoFromTrue({x, y});
        return int(
            region.at<unsigned char>(cvRound(p.v) - crop.origin.y, cvRound(p.u) - crop.origin.x));
    };
    CHECK(at(52.0, 40.0) == 255);
    CHECK(at(39.0, 40.0) == 255); // left rim
    CHECK(at(71.5, 40.0) == 255); // shadow to the right
    CHECK(at(24.0, 40.0) == 0);
    CHECK(at(52.0, 60.5) == 0);
}

TEST_CASE("a missing magnet is reported in a sentence with what to do") {
    const auto cleanReference = searched(drawn::paper({}));
    REQUIRE(std::holds_alternative<NoMagnet>(cleanReference));
    CHECK(std::get<NoMagnet>(cleanReference).detail.find("No magnet was found") == 0);
    CHECK_FALSE(std::get<NoMagnet>(cleanReference).advice.empty());

    drawn::Magnet small; // no pan magnet is as small
    small.width = small.height = 5.0;
    small.cover = 0.0;
    CHECK(std::holds_alternative<NoMagnet>(searched(drawn::draw(small, {}, 3).photo)));
}

TEST_CASE("a magnet that reaches out of the window is not measured") {
    drawn::Magnet magnet;
    magnet.centre = {24.0, 40.0};
    magnet.cover = 0.6;
    const auto search = searched(drawn::draw(magnet, {}, 4).photo);
    REQUIRE(std::holds_alternative<NoMagnet>(search));
    CHECK(std::get<NoMagnet>(search).detail.find("reaches out") != std::string::npos);
}

TEST_CASE("an empty crop is an error of the caller") {
    CHECK_THROWS_AS(measureMagnet(drawn::paper({}), WindowCrop{}), std::logic_error);
}
