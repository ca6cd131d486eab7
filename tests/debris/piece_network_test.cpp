// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/drawn_window.h"
#include "debris/piece_network.h"
#include "files/temporary_folder.h"
#include "network/drawn_network.h"

#include <catch2/catch.hpp>
#include <opencv2/core/utility.hpp>
#include <opencv2/dnn.hpp>

#include <array>
#include <cmath>
#include <filesystem>
#include <functional>

// The tests make their own networks, so that the answer is known: one that calls dark pixels
// pieces, and one of random weights, which OpenCV runs as well.

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr int white = 200; // code of the card's white
const cv::Scalar cardWhite(white, white, white);
const cv::Scalar dark(30, 30, 30);

/// A network that TemporaryFolder holds only while it is read.
PieceNetwork drawn(const std::function<std::string(DrawnNetwork&)>& drawUp,
                   Precision precision = Precision::float32) {
    const TemporaryFolder folder;
    DrawnNetwork net(3);
    net.write(folder / "drawn.onnx", drawUp(net));
    return PieceNetwork::load(folder / "drawn.onnx", precision);
}

constexpr std::array<float, 5> typeLogits{0.5F, 2.0F, -1.0F, 0.0F, 1.0F};

/// Calls a pixel a piece if its green is under -0.3, a seam if its red is, and gives every cell the
/// same types.
std::string callDarkPieces(DrawnNetwork& net) {
    constexpr int kernel = 5, middle = 2, green = 1, red = 2;
    constexpr float steep = 40.0F, level = -0.3F;
    std::vector<float> weights(13 * 3 * kernel * kernel), bias(13);
    for (int i = 0; i < 8; ++i) {
        const int channel = i < 4 ? green : red;
        const int y = middle + i % 4 / 2, x = middle + i % 2;
        weights[static_cast<std::size_t>(((i * 3 + channel) * kernel + y) * kernel + x)] = -steep;
        bias[static_cast<std::size_t>(i)] = steep * level;
    }
    std::copy(typeLogits.begin(), typeLogits.end(), bias.begin() + 8);
    return net.convolution("see", {13, 3, kernel, 2}, {weights, bias});
}

/// Random weights; no answer depends on more than 48 px round a part of the window.
std::string randomWeights(DrawnNetwork& net) {
    const auto half = net.rectified(net.convolution("see", {16, 3, 5, 2}));
    const auto near = net.sum(half, net.rectified(net.convolution(half, {16, 16})));
    const auto quarter = net.rectified(net.convolution(near, {16, 16, 3, 2}));
    const auto far = net.rectified(net.convolution(quarter, {16, 16, 3, 1, 2}));
    const auto seen = net.sum(quarter, net.convolution(far, {16, 16}));
    const auto back = net.sum(near, net.doubled(net.convolution(seen, {16, 16, 1})));
    return net.convolution(back, {13, 16});
}

cv::Mat speckled(cv::Size size) {
    cv::Mat picture = plainSurface(size, cardWhite, 25.0);
    cv::RNG random(3);
    for (int i = 0; i < 200; ++i) {
        const cv::Scalar colour{double(random.uniform(0, 255)), double(random.uniform(0, 255)),
                                double(random.uniform(0, 255))};
        const int radius = random.uniform(2, 30);
        const cv::Point centre{random.uniform(0, size.width), random.uniform(0, size.height)};
        drawDisc(picture, centre, radius, colour);
    }
    return picture;
}

CalibratedPhoto sharpPhoto(const cv::Mat& picture) {
    CalibratedPhoto photo = flatPhoto(picture, 20.0, white);
    photo.sharpness.edgeWidth = Pixels(1.8);
    return photo;
}

/// The network's input for a picture, as in models/make/network/data.py and model.py.
cv::Mat inputOf(const cv::Mat& bgr) {
    const int size[] = {1, 3, (bgr.rows + 15) / 16 * 16, (bgr.cols + 15) / 16 * 16};
    cv::Mat input(4, size, CV_32F, cv::Scalar(0));
    for (int c = 0; c < 3; ++c)
        for (int y = 0; y < bgr.rows; ++y)
            for (int x = 0; x < bgr.cols; ++x) {
                const auto light = linearFromSrgb()[bgr.at<cv::Vec3b>(y, x)[c]];
                const float code = std::floor(
                    std::min(255.0F, 150.0F * std::sqrt(light / linearFromSrgb()[white])));
                const int at[] = {0, c, y, x};
                input.at<float>(at) = code / 150.0F - 0.8F;
            }
    return input;
}

double codeOf(float logit) {
    return 255.0 / (1.0 + std::exp(-double(logit)));
}

} // namespace

TEST_CASE("Every pixel of a window has its own answer", "[debris]") {
    // Drawn: dark discs on white; large enough for several parts.
    cv::Mat picture = plainSurface({2300, 1500}, cardWhite, 0.0);
    for (int x = 40; x < picture.cols; x += 97)
        for (int y = 30; y < picture.rows; y += 83)
            drawDisc(picture, {x, y}, 3 + x % 23, dark);
    const CalibratedPhoto photo = sharpPhoto(picture);
    const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
    const PieceMaps maps = drawn(callDarkPieces).judge(photo, crop);
    REQUIRE(maps.piece.size() == crop.bgr.size());
    REQUIRE(maps.piece.type() == CV_8U);
    // 150 sqrt(share of white) - 0.8 is under -0.3 where a quarter of the white's light is left.
    cv::Mat grey;
    cv::extractChannel(crop.bgr, grey, 1);
    int quarter = 255;
    while (linearFromSrgb()[static_cast<std::size_t>(quarter)] > linearFromSrgb()[white] / 4)
        --quarter;
    const cv::Mat expected = (grey <= quarter) & crop.inside;
    CHECK(cv::countNonZero(expected) > 100'000);
    cv::Mat differs = (maps.piece > 127) != expected;
    differs.setTo(0, cv::abs(grey - quarter) <= 2); // a code's rounding on a disc's edge
    CHECK(cv::countNonZero(differs) == 0);
    CHECK(cv::countNonZero(maps.piece & ~crop.inside) == 0);
}

TEST_CASE("The shares of the types add up to one where there is a piece", "[debris]") {
    cv::Mat picture = plainSurface({300, 201}, cardWhite, 0.0);
    drawDisc(picture, {150, 100}, 20, dark);
    const CalibratedPhoto photo = sharpPhoto(picture);
    const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
    const PieceMaps maps = drawn(callDarkPieces).judge(photo, crop);
    const cv::Point middle = inCrop(crop, {150, 100}), paper = inCrop(crop, {60, 60});
    double sum = 0.0; // softmax
    for (const float logit : typeLogits)
        sum += std::exp(logit);
    for (std::size_t i = 0; i < typeLogits.size(); ++i) {
        const cv::Mat& type = maps.types[i];
        CHECK(type.size() == cv::Size((crop.bgr.cols + 1) / 2, (crop.bgr.rows + 1) / 2));
        CHECK(type.at<uchar>(middle / 2) ==
              Approx(255.0 * std::exp(typeLogits[i]) / sum).margin(1));
        CHECK(type.at<uchar>(paper / 2) == 0);
    }
    CHECK(maps.seam.at<uchar>(middle) == 255); // its red is dark as well
    CHECK(maps.seam.at<uchar>(paper) == 0);
}

namespace {

/// The network's answer by OpenCV for a picture, and for the same picture mirrored left to right.
struct BothAnswers {
    cv::Mat plain, mirrored;
    int columns =
        0; ///< of the picture that was mirrored: a multiple of the network's coarsest cell

    BothAnswers(cv::dnn::Net& net, const cv::Mat& bgr) : columns(bgr.cols / 16 * 16) {
        net.setInput(inputOf(bgr));
        plain = net.forward().clone();
        cv::Mat turned;
        cv::flip(bgr.colRange(0, columns), turned, 1);
        net.setInput(inputOf(turned));
        mirrored = net.forward().clone();
    }

    /// The mean of both for a pixel. @param first  0: piece, 4: seam
    [[nodiscard]] double codeAt(int x, int y, int first) const {
        const int there = columns - 1 - x;
        const int at[] = {0, first + y % 2 * 2 + x % 2, y / 2, x / 2};
        const int turned[] = {0, first + y % 2 * 2 + there % 2, y / 2, there / 2};
        return (codeOf(plain.at<float>(at)) + codeOf(mirrored.at<float>(turned))) / 2.0;
    }

    /// Whether both answer "piece" by a third or more somewhere in the pixel's 2 x 2.
    [[nodiscard]] bool bothSeePiece(int x, int y) const {
        double most = 0.0, mostTurned = 0.0;
        for (int i = 0; i < 4; ++i) {
            const int at[] = {0, i, y / 2, x / 2};
            const int turned[] = {0, i, y / 2, (columns - 1 - x) / 2};
            most = std::max(most, codeOf(plain.at<float>(at)));
            mostTurned = std::max(mostTurned, codeOf(mirrored.at<float>(turned)));
        }
        return std::min(most, mostTurned) > 85.0;
    }
};

/// Largest difference between the maps and OpenCV's answer, in codes. The rim is left out, as
/// OpenCV sees nothing beyond the border but the program does.
struct Deviation {
    double furthest = 0.0, mean = 0.0, furthestSeam = 0.0;
    int seamsCompared = 0;
};

Deviation deviationOf(const PieceMaps& maps, const BothAnswers& expected) {
    constexpr int rim = 48;
    Deviation off;
    int many = 0;
    for (int y = rim; y < maps.piece.rows - rim; ++y)
        for (int x = rim; x < expected.columns - rim; ++x, ++many) {
            const double here = std::abs(maps.piece.at<uchar>(y, x) - expected.codeAt(x, y, 0));
            off.furthest = std::max(off.furthest, here);
            off.mean += here;
            if (!expected.bothSeePiece(x, y))
                continue;
            off.furthestSeam = std::max(
                off.furthestSeam, std::abs(maps.seam.at<uchar>(y, x) - expected.codeAt(x, y, 4)));
            ++off.seamsCompared;
        }
    off.mean /= many;
    return off;
}

} // namespace

TEST_CASE("The network answers as OpenCV runs it over the whole window, seen both ways round",
          "[debris]") {
    const cv::Mat picture = speckled({1500, 1100});
    const CalibratedPhoto photo = sharpPhoto(picture);
    const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
    const TemporaryFolder folder;
    DrawnNetwork network(3);
    network.write(folder / "drawn.onnx", randomWeights(network));
    cv::dnn::Net net = cv::dnn::readNetFromONNX((folder / "drawn.onnx").string());
    net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    const BothAnswers expected(net, crop.bgr);
    const bool is16 = GENERATE(false, true);
    if (is16 && precisionOfProcessor() == Precision::float32)
        return;
    const PieceMaps maps =
        PieceNetwork::load(folder / "drawn.onnx", is16 ? Precision::bfloat16 : Precision::float32)
            .judge(photo, crop);
    const Deviation off = deviationOf(maps, expected);
    CHECK(off.furthest < (is16 ? 16.0 : 1.6)); // a table's step, and rounding to whole codes
    CHECK(off.mean < (is16 ? 1.0 : 0.6));
    CHECK(off.furthestSeam < (is16 ? 16.0 : 1.6));
    CHECK(off.seamsCompared > 10'000);
}

TEST_CASE("The answer does not depend on how many threads there are", "[debris]") {
    const CalibratedPhoto photo = sharpPhoto(speckled({1300, 900}));
    const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
    const PieceNetwork network = drawn(randomWeights, precisionOfProcessor());
    const int before = cv::getNumThreads();
    cv::setNumThreads(1);
    const PieceMaps alone = network.judge(photo, crop);
    cv::setNumThreads(2);
    const PieceMaps together = network.judge(photo, crop);
    CHECK(cv::norm(alone.piece, together.piece, cv::NORM_INF) == 0.0);
    CHECK(cv::norm(alone.seam, together.seam, cv::NORM_INF) == 0.0);
    for (std::size_t i = 0; i < alone.types.size(); ++i)
        CHECK(cv::norm(alone.types[i], together.types[i], cv::NORM_INF) == 0.0);
    cv::setNumThreads(before);
}

TEST_CASE("A part left out of a window changes no answer elsewhere", "[debris]") {
    const CalibratedPhoto photo = sharpPhoto(speckled({2300, 900}));
    const WindowCrop whole = cropWindow(photo, Millimetres(0.15));
    WindowCrop less = whole;
    less.inside = whole.inside.clone();
    less.inside.colRange(0, 1300).setTo(0);
    const PieceNetwork network = drawn(randomWeights);
    const PieceMaps ofWhole = network.judge(photo, whole), ofLess = network.judge(photo, less);
    CHECK(cv::norm(ofWhole.piece, ofLess.piece, cv::NORM_INF, less.inside) == 0.0);
    CHECK(cv::countNonZero(ofLess.piece.colRange(0, 1300)) == 0);
    less.inside.setTo(0);
    CHECK(cv::countNonZero(network.judge(photo, less).piece) == 0);
}

TEST_CASE("A photo of wide edges is reduced, and its pieces stay where they are", "[debris]") {
    // As in 48 megapixels: everything 2.2 times as large, edges too.
    cv::Mat picture = plainSurface({900, 700}, cardWhite, 1.0);
    const cv::Point centre(411, 287);
    constexpr int radius = 44;
    drawDisc(picture, centre, radius, dark);
    cv::GaussianBlur(picture, picture, {0, 0}, 4.0 / 2.56);
    CalibratedPhoto photo = sharpPhoto(picture);
    photo.sharpness.edgeWidth = Pixels(4.0);
    const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
    const PieceMaps maps = drawn(callDarkPieces).judge(photo, crop);
    REQUIRE(maps.piece.size() == crop.bgr.size());
    const cv::Moments found = cv::moments(maps.piece > 127, true);
    const cv::Point at = inCrop(crop, centre);
    CHECK(found.m10 / found.m00 == Approx(at.x).margin(0.5));
    CHECK(found.m01 / found.m00 == Approx(at.y).margin(0.5));
    // A blurred edge falls to a quarter of the light inside the disc's line, by up to an edge.
    CHECK(std::sqrt(found.m00 / CV_PI) == Approx(radius).margin(2.5));
    CHECK(maps.types[0].size() == cv::Size((crop.bgr.cols + 1) / 2, (crop.bgr.rows + 1) / 2));
    CHECK(maps.types[1].at<uchar>(at / 2) > maps.types[0].at<uchar>(at / 2));
}
