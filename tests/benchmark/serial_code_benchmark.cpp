// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "benchmark/timing.h"
#include "card/serial_code.h"
#include "photo/decode.h"
#include "rendered/rendered_card.h"

#include <fmt/format.h>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <cstddef>
#include <exception>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

// Times how long reading the code on the card takes, as a ratio to decoding the same photo of 12
// megapixels in the same run: of a clean code, of one whose middle is under a drop of oil, so that
// all is tried and nothing read, and of a card without one. Exit code 1 when one takes longer than
// its limit, or does not read what it should.
namespace {

using namespace swarfbook;
using namespace swarfbook::test;

constexpr double most = 0.05; // times decoding; it took 0.012 when this was set
constexpr int repeats = 15;
constexpr double pixelsPerMillimetre = 22.0;
const std::string serial = "K7Q-M4X";

/// A phone of 12 megapixels over the whole card, aslant.
Camera phoneOver(const CardLayout& layout) {
    Camera camera;
    camera.size = {4000, 3000};
    camera.focal = 3000.0;
    camera.tilt = 20.0;
    camera.azimuth = 35.0;
    camera.distance = camera.focal / pixelsPerMillimetre;
    camera.aim = {layout.outer.width / 2.0, layout.outer.height / 2.0};
    return camera;
}

enum class Code { clean, underOil, none };

std::vector<std::byte> jpegOf(Code code) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    if (code != Code::none)
        drawing.serial = serial;
    const Camera camera = phoneOver(drawing.layout);
    const Photo photo = photograph(drawing, camera, {});
    if (code == Code::underOil) {
        const CardRect& place = drawing.layout.serialCode;
        const PointInPhoto middle =
            camera.photoFromSpace({place.x + place.width / 2.0, place.y + place.height / 2.0, 0.0});
        const double radius = 0.4 * place.width * pixelsPerMillimetre;
        cv::circle(
            photo.bgr,
            {static_cast<int>(std::lround(middle.u)), static_cast<int>(std::lround(middle.v))},
            static_cast<int>(std::lround(radius)), cv::Scalar::all(45), cv::FILLED);
    }
    std::vector<uchar> coded;
    cv::imencode(".jpg", photo.bgr, coded, {cv::IMWRITE_JPEG_QUALITY, 92});
    const auto* first = reinterpret_cast<const std::byte*>(coded.data());
    return {first, first + coded.size()};
}

/// @return whether it read what it should, soon enough.
bool benchmark(const std::string& name, Code code) {
    const std::vector<std::byte> file = jpegOf(code);
    const auto decode = [&] { return decodePhoto(file, name); };
    const Photo photo = decode().value();
    const CardSighting card = findCard(photo, allLayouts()).value();
    const auto read = [&] { return readSerialCode(photo.bgr, card); };
    const bool isRight = read() == (code == Code::clean ? std::optional(serial) : std::nullopt);
    const auto [decoding, reading] = secondsOfBoth(decode, read, repeats);
    const double times = reading / decoding;
    const bool isQuick = times <= most;
    std::cout << fmt::format("  {:<22} {:>8.2f} ms {:>7.4f} x decoding ({:.0f} ms) ({}: at most "
                             "{:g} allowed){}\n",
                             name, 1e3 * reading, times, 1e3 * decoding,
                             isQuick ? "good" : "TOO SLOW", most, isRight ? "" : ", READ WRONGLY");
    return isQuick && isRight;
}

} // namespace

int main() {
    try {
        std::cout << "\nreading the code on the card\n";
        bool good = benchmark("clean", Code::clean);
        good = benchmark("under a drop of oil", Code::underOil) && good;
        good = benchmark("no code", Code::none) && good;
        return good ? 0 : 1;
    } catch (const std::exception& e) {
        std::cerr << "serial_code_benchmark: " << e.what() << "\n";
        return 3;
    }
}
