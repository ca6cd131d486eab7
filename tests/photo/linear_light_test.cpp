// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/linear_light.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace swarfbook;

namespace {

struct Pair {
    cv::Vec3d one, two;
    double difference;
};

/// Source: the 34 pairs published with Sharma, Wu and Dalal, "The CIEDE2000 color-difference
/// formula: implementation notes, supplementary test data, and mathematical observations", Color
/// Research and Application 30 (2005); as in scikit-image's ciede2000_test_data.txt.
const std::array<Pair, 34> publishedPairs{{
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},
    {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},
    {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},
    {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},
    {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},
    {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
}};

} // namespace

// Source: IEC 61966-2-1's decoding formula, computed independently to ten digits.
TEST_CASE("linear light of sRGB codes agrees with the standard") {
    const std::array<std::pair<std::size_t, double>, 12> expected{{{0, 0.0},
                                                                   {1, 0.0003035270},
                                                                   {10, 0.0030352698},
                                                                   {11, 0.0033465358},
                                                                   {64, 0.0512694584},
                                                                   {127, 0.2122307574},
                                                                   {128, 0.2158605001},
                                                                   {187, 0.4969329951},
                                                                   {188, 0.5028864580},
                                                                   {200, 0.5775804404},
                                                                   {254, 0.9911020971},
                                                                   {255, 1.0}}};
    for (const auto& [code, light] : expected)
        CHECK(linearFromSrgb()[code] == Approx(light).epsilon(1e-6)); // single precision
    for (std::size_t code = 1; code < 256; ++code)
        CHECK(linearFromSrgb()[code] > linearFromSrgb()[code - 1]);
}

// Source: computed independently from IEC 61966-2-1's 4-decimal matrix with its own row sums as
// white and CIE 15's formulas.
TEST_CASE("Lab of sRGB colours agrees with the standard") {
    struct Row {
        std::array<unsigned char, 3> rgb;
        cv::Vec3d lab;
    };
    const std::array<Row, 13> rows{{{{255, 255, 255}, {100, 0, 0}},
                                    {{255, 255, 0}, {97.1382, -21.5608, 94.4877}},
                                    {{0, 255, 255}, {91.1165, -48.0840, -14.1278}},
                                    {{0, 255, 0}, {87.7370, -86.1884, 83.1861}},
                                    {{255, 0, 255}, {60.3199, 98.2497, -60.8330}},
                                    {{255, 0, 0}, {53.2329, 80.1053, 67.2228}},
                                    {{0, 0, 255}, {32.3026, 79.1936, -107.8537}},
                                    {{128, 128, 128}, {53.5850, 0, 0}},
                                    {{200, 200, 200}, {80.6041, 0, 0}},
                                    {{50, 50, 50}, {20.7878, 0, 0}},
                                    {{170, 169, 173}, {69.4261, 1.1160, -1.9290}},
                                    {{184, 134, 11}, {59.2185, 9.8622, 62.7377}},
                                    {{150, 75, 0}, {40.4366, 27.4991, 50.1495}}}};
    for (const Row& row : rows) {
        const cv::Vec3d lab = labFromSrgb(row.rgb[0], row.rgb[1], row.rgb[2]);
        for (int i = 0; i < 3; ++i)
            CHECK(lab[i] == Approx(row.lab[i]).margin(1e-4));
    }
}

TEST_CASE("every grey has no colour") {
    for (int code = 0; code < 256; ++code) {
        const auto grey = static_cast<unsigned char>(code);
        const cv::Vec3d lab = labFromSrgb(grey, grey, grey);
        CHECK(std::abs(lab[1]) < 1e-9);
        CHECK(std::abs(lab[2]) < 1e-9);
    }
}

TEST_CASE("CIEDE2000 gives the 34 published differences, either way round") {
    for (std::size_t i = 0; i < publishedPairs.size(); ++i) {
        INFO("pair " << i + 1);
        const Pair& pair = publishedPairs[i];
        CHECK(std::abs(ciede2000(pair.one, pair.two) - pair.difference) < 1e-4);
        CHECK(std::abs(ciede2000(pair.two, pair.one) - pair.difference) < 1e-4);
    }
}
