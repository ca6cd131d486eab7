// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/qr_code.h"

#include <catch2/catch.hpp>

#define ZX_USE_UTF8 1 // text() is then UTF-8
#include <ZXing/ReadBarcode.h>
#include <algorithm>
#include <cstdint>
#include <sstream>
#include <string>
#include <vector>

using namespace swarfbook::web;

namespace {

/// The text that another library reads in a picture of these modules, four pixels each.
std::string textIn(const std::vector<std::string>& rows) {
    constexpr int pixels = 4;
    const int width = static_cast<int>(rows.front().size()) * pixels;
    const int height = static_cast<int>(rows.size()) * pixels;
    std::vector<std::uint8_t> picture;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            picture.push_back(
                rows[static_cast<std::size_t>(y / pixels)][static_cast<std::size_t>(x / pixels)] ==
                        '#'
                    ? 0
                    : 255);
    ZXing::DecodeHints hints;
    hints.setFormats(ZXing::BarcodeFormat::QRCode);
    return ZXing::ReadBarcode({picture.data(), width, height, ZXing::ImageFormat::Lum}, hints)
        .text();
}

/// The modules of a terminal's lines, two above one another in each character.
std::vector<std::string> modulesIn(const std::string& lines) {
    std::vector<std::string> rows;
    std::istringstream in(lines);
    for (std::string line; std::getline(in, line);) {
        std::string upper, lower;
        line = line.substr(line.find('m') + 1);
        line = line.substr(0, line.find('\x1b'));
        for (std::size_t at = 0; at < line.size();) {
            const std::string block = line.substr(at, 3);
            const bool both = block == "\u2588";
            const bool wide = both || block == "\u2580" || block == "\u2584";
            upper += both || block == "\u2580" ? '#' : ' ';
            lower += both || block == "\u2584" ? '#' : ' ';
            at += wide ? 3 : 1;
        }
        rows.push_back(upper);
        rows.push_back(lower);
    }
    return rows;
}

/// The modules of the SVG's path, "M4 5h1v1h-1z" each.
std::vector<std::string> modulesInSvg(const std::string& svg) {
    const auto size = static_cast<std::size_t>(std::stoi(svg.substr(svg.find("0 0 ") + 4)));
    std::vector<std::string> rows(size, std::string(size, ' '));
    for (std::size_t at = svg.find('M'); at != std::string::npos; at = svg.find('M', at + 1)) {
        std::size_t used = 0;
        const int x = std::stoi(svg.substr(at + 1), &used);
        const int y = std::stoi(svg.substr(at + 1 + used));
        rows.at(static_cast<std::size_t>(y)).at(static_cast<std::size_t>(x)) = '#';
    }
    return rows;
}

} // namespace

// Read by ZXing, which shares no code with the library that draws.
TEST_CASE("a phone reads the address in the code") {
    const std::string address = "https://192.168.1.20:8420/pair?code=" + std::string(64, 'b');
    CHECK(textIn(modulesIn(qrForTerminal(address))) == address);
    CHECK(textIn(modulesInSvg(qrAsSvg(address))) == address);
}
