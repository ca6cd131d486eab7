// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "network/convolutions.h"

#include <catch2/catch.hpp>
#include <opencv2/dnn.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <iterator>
#include <thread>
#include <vector>

using namespace swarfbook;

namespace {

constexpr int planes = 5;

std::filesystem::path pieceModelFile() {
    return std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models" / "pieces.onnx";
}

cv::Mat randomSheet(cv::Size sheet) {
    const int size[] = {1, planes, sheet.height, sheet.width};
    cv::Mat input(4, size, CV_32F);
    cv::RNG random(7);
    random.fill(input, cv::RNG::NORMAL, 0.0, 0.5);
    return input;
}

/// Reference library: OpenCV's own inference of the same file.
cv::Mat answersOfOpenCv(const cv::Mat& input) {
    cv::dnn::Net net = cv::dnn::readNetFromONNX(pieceModelFile().string());
    net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    net.setInput(input);
    return net.forward().clone();
}

/// Of this process (proc(5)).
std::ptrdiff_t threadCount() {
    return std::distance(std::filesystem::directory_iterator("/proc/self/task"),
                         std::filesystem::directory_iterator());
}

} // namespace

TEST_CASE("A runner is made and run on its own thread alone", "[debris]") {
    const auto network = ConvolutionNetwork::read(pieceModelFile(), planes);
    const std::ptrdiff_t before = threadCount();
    std::ptrdiff_t within = 0;
    std::thread([&] { // a new one has the library's own settings
        ConvolutionRunner runner(network, {64, 32});
        (void)runner.run();
        within = threadCount();
    })
        .join();
    CHECK(within == before + 1); // others would spin beside those that work
}

TEST_CASE("A network of convolutions answers as OpenCV has it", "[debris]") {
    const auto network = ConvolutionNetwork::read(pieceModelFile(), planes);
    REQUIRE(network.answer().channels == 8);
    REQUIRE(network.answer().cell == 2);
    const int lanes = GENERATE(8, 16); // of older and of newer processors
    for (const cv::Size sheet : {cv::Size(64, 32), cv::Size(36, 100)}) {
        const cv::Mat input = randomSheet(sheet);
        const cv::Mat expected = answersOfOpenCv(input);
        ConvolutionRunner runner(network, sheet, lanes);
        CHECK(runner.valuesPerCell() == lanes);
        for (int again = 0; again < 2; ++again) { // nothing is left over from the first run
            std::copy_n(input.ptr<float>(), input.total(), runner.input());
            const float* answers = runner.run();
            double furthest = 0.0, largest = 0.0;
            for (int y = 0; y < expected.size[2]; ++y)
                for (int x = 0; x < expected.size[3]; ++x)
                    for (int c = 0; c < 8; ++c) {
                        const int at[] = {0, c, y, x};
                        const auto wanted = static_cast<double>(expected.at<float>(at));
                        const auto got =
                            static_cast<double>(answers[(y * expected.size[3] + x) * lanes + c]);
                        furthest = std::max(furthest, std::abs(got - wanted));
                        largest = std::max(largest, std::abs(wanted));
                    }
            CHECK(largest > 1.0);
            CHECK(furthest < 1e-3);
        }
    }
}

TEST_CASE("A value depends on nothing beyond the network's reach", "[debris]") {
    const auto network = ConvolutionNetwork::read(pieceModelFile(), planes);
    const int reach = network.answer().reach;
    CHECK(reach >= 32);
    CHECK(reach <= 64);
    const cv::Size sheet(256, 16);
    ConvolutionRunner runner(network, sheet);
    const cv::Mat input = randomSheet(sheet);
    std::copy_n(input.ptr<float>(), input.total(), runner.input());
    const float* first = runner.run();
    const int values = runner.valuesPerCell();
    const std::vector<float> before(first, first + sheet.area() / 4 * values);
    const int changed = 200; // px from the left, of every row of every plane
    std::copy_n(input.ptr<float>(), input.total(), runner.input());
    for (int row = 0; row < planes * sheet.height; ++row)
        runner.input()[row * sheet.width + changed] += 1.0F;
    const float* after = runner.run();
    int nearest = sheet.width;
    for (int i = 0; i < static_cast<int>(before.size()); ++i) {
        if (i % values >= network.answer().channels)
            continue; // filled up
        const int x = i / values % (sheet.width / 2) * 2;
        const int away = x > changed ? x - changed : changed - (x + 1);
        if (after[i] != before[static_cast<std::size_t>(i)])
            CHECK(away <= reach);
        else
            nearest = std::min(nearest, away);
    }
    CHECK(nearest >= 4); // it does see what lies around
}

TEST_CASE("What is no network of plain convolutions is refused", "[debris]") {
    CHECK_THROWS(ConvolutionNetwork::read(pieceModelFile(), planes + 1));
    CHECK_THROWS(ConvolutionNetwork::read(
        std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models" / "piece-trust.json", planes));
}
