// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "files/temporary_folder.h"
#include "network/convolutions.h"
#include "network/drawn_network.h"

#include <catch2/catch.hpp>
#include <opencv2/dnn.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>
#include <vector>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr int planes = 3;

struct NetworkFile {
    TemporaryFolder folder;
    std::filesystem::path path = folder / "small.onnx";
    NetworkFile() { writeSmallNetwork(path); }
    [[nodiscard]] ConvolutionNetwork read() const { return ConvolutionNetwork::read(path, planes); }
};

cv::Mat randomSheet(cv::Size sheet) {
    const int size[] = {1, planes, sheet.height, sheet.width};
    cv::Mat input(4, size, CV_32F);
    cv::RNG random(7);
    random.fill(input, cv::RNG::NORMAL, 0.0, 0.5);
    return input;
}

/// Reference library: OpenCV's own inference of the same file.
cv::Mat answersOfOpenCv(const std::filesystem::path& file, const cv::Mat& input) {
    cv::dnn::Net net = cv::dnn::readNetFromONNX(file.string());
    net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    net.setInput(input);
    return net.forward().clone();
}

/// Largest difference from the expected values, as a share of the largest of them.
double worstOff(const cv::Mat& expected, const Answers& answers) {
    double furthest = 0.0, largest = 0.0;
    for (int c = 0; c < expected.size[1]; ++c)
        for (int y = 0; y < expected.size[2]; ++y)
            for (int x = 0; x < expected.size[3]; ++x) {
                const int at[] = {0, c, y, x};
                const auto wanted = static_cast<double>(expected.at<float>(at));
                const auto got = static_cast<double>(answers.at(c, y * expected.size[3] + x));
                furthest = std::max(furthest, std::abs(got - wanted));
                largest = std::max(largest, std::abs(wanted));
            }
    CHECK(largest > 1.0);
    return furthest / largest;
}

/// Of this process (proc(5)).
std::ptrdiff_t threadCount() {
    return std::distance(std::filesystem::directory_iterator("/proc/self/task"),
                         std::filesystem::directory_iterator());
}

} // namespace

TEST_CASE("A runner is made and run on its own thread alone", "[network]") {
    const auto network = NetworkFile().read();
    const std::ptrdiff_t before = threadCount();
    std::ptrdiff_t within = 0;
    std::thread([&] { // a new one has the library's own settings
        ConvolutionRunner runner(network, {64, 32});
        (void)runner.run();
        within = threadCount();
    })
        .join();
    CHECK(within == before + 1); // other threads would spin beside the working ones
}

TEST_CASE("A network of convolutions answers as in OpenCV", "[network]") {
    const NetworkFile file;
    const auto network = file.read();
    REQUIRE(network.answer().channels == 13);
    REQUIRE(network.answer().cell == 2);
    REQUIRE(network.coarsestCell() == 16);
    const int lanes = GENERATE(8, 16); // of older and of newer processors
    for (const cv::Size sheet : {cv::Size(64, 32), cv::Size(48, 112)}) {
        const cv::Mat input = randomSheet(sheet);
        const cv::Mat expected = answersOfOpenCv(file.path, input);
        ConvolutionRunner runner(network, sheet, {lanes, Precision::float32});
        for (int again = 0; again < 2; ++again) { // nothing is left over from the first run
            std::copy_n(input.ptr<float>(), input.total(), runner.input());
            CHECK(worstOff(expected, runner.run()) < 1e-5);
        }
    }
}

TEST_CASE("Numbers of 16 bits answer nearly the same if the processor has them", "[network]") {
    if (precisionOfProcessor() == Precision::float32) {
        WARN("Passed over: this processor does not multiply numbers of 16 bits.");
        return;
    }
    const NetworkFile file;
    const cv::Size sheet(64, 96);
    const cv::Mat input = randomSheet(sheet);
    ConvolutionRunner runner(file.read(), sheet, {16, Precision::bfloat16});
    std::copy_n(input.ptr<float>(), input.total(), runner.input());
    // Eight bits of mantissa are off by 2^-9 at the most, each; some 20 layers follow each other.
    CHECK(worstOff(answersOfOpenCv(file.path, input), runner.run()) < 20.0 / 512.0);
}

TEST_CASE("Several runners at once answer as one does", "[network]") {
    const auto network = NetworkFile().read();
    const cv::Size sheet(64, 64);
    const cv::Mat input = randomSheet(sheet);
    const auto answered = [&] {
        ConvolutionRunner runner(network, sheet);
        std::copy_n(input.ptr<float>(), input.total(), runner.input());
        const Answers answers = runner.run();
        std::vector<float> all;
        for (int c = 0; c < network.answer().channels; ++c)
            for (int i = 0; i < answers.cells; ++i)
                all.push_back(answers.at(c, i));
        return all;
    };
    const auto alone = answered();
    std::vector<std::vector<float>> together(4);
    std::vector<std::thread> threads;
    for (auto& one : together)
        threads.emplace_back([&] { one = answered(); });
    for (auto& thread : threads)
        thread.join();
    for (const auto& one : together)
        CHECK(one == alone);
}

TEST_CASE("A value depends on nothing beyond the network's reach", "[network]") {
    const auto network = NetworkFile().read();
    const int reach = network.answer().reach;
    const cv::Size sheet(512, 16);
    ConvolutionRunner runner(network, sheet);
    const cv::Mat input = randomSheet(sheet);
    std::copy_n(input.ptr<float>(), input.total(), runner.input());
    const int channels = network.answer().channels;
    const auto all = [&](const Answers& answers) {
        std::vector<float> values;
        for (int i = 0; i < answers.cells; ++i)
            for (int c = 0; c < channels; ++c)
                values.push_back(answers.at(c, i));
        return values;
    };
    const auto before = all(runner.run());
    const int changed = 400; // px from the left, of every row of every plane
    std::copy_n(input.ptr<float>(), input.total(), runner.input());
    for (int row = 0; row < planes * sheet.height; ++row)
        runner.input()[row * sheet.width + changed] += 1.0F;
    const auto after = all(runner.run());
    int farthest = 0;
    for (int i = 0; i < static_cast<int>(before.size()); ++i) {
        const int x = i / channels % (sheet.width / 2) * 2;
        const int away = x > changed ? x - changed : changed - (x + 1);
        if (after[static_cast<std::size_t>(i)] != before[static_cast<std::size_t>(i)])
            farthest = std::max(farthest, away);
    }
    CHECK(farthest <= reach);
    CHECK(farthest >= 64); // it does depend on its surroundings
    CHECK(reach <= 200);   // 16 px a step of the coarsest, dilated by 4, and what follows
}

TEST_CASE("A file that is not a network of plain convolutions is refused", "[network]") {
    const NetworkFile file;
    const auto other = file.folder / "other.onnx";
    SECTION("one that takes other planes") {
        CHECK_THROWS(ConvolutionNetwork::read(file.path, planes + 1));
    }
    SECTION("another file") {
        std::ofstream(other) << "not a network";
        CHECK_THROWS(ConvolutionNetwork::read(other, planes));
    }
    SECTION("a sum that is rectified after it was doubled") {
        DrawnNetwork net(planes);
        const auto half = net.convolution("see", {8, 3, 5, 2});
        const auto quarter = net.convolution(half, {8, 8, 3, 2});
        net.write(other, net.rectified(net.sum(half, net.doubled(quarter))));
        CHECK_THROWS(ConvolutionNetwork::read(other, planes));
    }
    SECTION("a sum of tensors that differ in size") {
        DrawnNetwork net(planes);
        const auto half = net.convolution("see", {8, 3, 5, 2});
        net.write(other, net.sum("see", half));
        CHECK_THROWS(ConvolutionNetwork::read(other, planes));
    }
    SECTION("a file cut short") {
        std::filesystem::copy_file(file.path, other);
        std::filesystem::resize_file(other, std::filesystem::file_size(other) / 2);
        CHECK_THROWS(ConvolutionNetwork::read(other, planes));
    }
}
