// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/serial_code.h"

#include "base/card_serial.h"
#include "photo/linear_light.h"

#define ZX_USE_UTF8 1
#include <opencv2/imgproc.hpp>

#include <ZXing/ReadBarcode.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <qrencode.h>
#include <stdexcept>

namespace swarfbook {
namespace {

struct FreeCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

std::unique_ptr<QRcode, FreeCode> codeOf(const std::string& serial) {
    std::unique_ptr<QRcode, FreeCode> code(
        QRcode_encodeString(serial.c_str(), 1, QR_ECLEVEL_H, QR_MODE_8, 1));
    if (!code || code->width != codeModules)
        throw std::logic_error("the serial " + serial + " does not fit into its code");
    return code;
}

/// A place on the card by modules from the code's upper left corner.
PointOnCard atModule(const CardRect& code, double across, double down) {
    const double module = code.width / codeModules;
    return {code.x + across * module, code.y + down * module};
}

/// Mean linear light of 3 x 3 pixels; nullopt outside the photo.
std::optional<double> lightNear(const cv::Mat& bgr, const CardSighting& card, PointOnCard p) {
    const PointInPhoto at = card.mapping.photoFromCard(p);
    const int u = static_cast<int>(std::lround(at.u)), v = static_cast<int>(std::lround(at.v));
    if (u < 1 || v < 1 || u + 1 >= bgr.cols || v + 1 >= bgr.rows)
        return std::nullopt;
    double sum = 0.0;
    for (int y = v - 1; y <= v + 1; ++y)
        for (int x = u - 1; x <= u + 1; ++x)
            sum += static_cast<double>(linearFromSrgb()[bgr.at<cv::Vec3b>(y, x)[1]]);
    return sum / 9.0;
}

constexpr int pixelsPerModule = 6; // of the picture that the code is read in

/// The code and its white surround as seen from straight above; empty where it reaches out of the
/// photo.
cv::Mat codeFromAbove(const cv::Mat& bgr, const CardSighting& card) {
    constexpr int side = (codeModules + 2 * codeQuietModules) * pixelsPerModule;
    cv::Mat_<cv::Vec2f> places(side, side);
    float left = 1e9F, top = 1e9F, right = -1.0F, bottom = -1.0F;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            const PointInPhoto p = card.mapping.photoFromCard(
                atModule(card.layout.serialCode, (x + 0.5) / pixelsPerModule - codeQuietModules,
                         (y + 0.5) / pixelsPerModule - codeQuietModules));
            places(y, x) = {static_cast<float>(p.u), static_cast<float>(p.v)};
            left = std::min(left, places(y, x)[0]);
            right = std::max(right, places(y, x)[0]);
            top = std::min(top, places(y, x)[1]);
            bottom = std::max(bottom, places(y, x)[1]);
        }
    if (left < 2.0F || top < 2.0F || right > static_cast<float>(bgr.cols - 3) ||
        bottom > static_cast<float>(bgr.rows - 3))
        return {};
    const cv::Rect part(cv::Point(static_cast<int>(left) - 2, static_cast<int>(top) - 2),
                        cv::Point(static_cast<int>(right) + 3, static_cast<int>(bottom) + 3));
    cv::subtract(places, cv::Scalar(part.x, part.y), places);
    cv::Mat grey, seen;
    cv::cvtColor(bgr(part), grey, cv::COLOR_BGR2GRAY);
    cv::remap(grey, seen, places, cv::noArray(), cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    return seen;
}

} // namespace

void drawSerialCode(cairo_t* pen, const CardLayout& layout, const std::string& serial) {
    const CardRect& place = layout.serialCode;
    if (place.width <= 0.0 || !isCodedSerial(serial))
        return;
    const auto code = codeOf(serial);
    const auto isDark = [&](int x, int y) { return (code->data[y * codeModules + x] & 1) != 0; };
    const double module = place.width / codeModules;
    for (int y = 0; y < codeModules; ++y)
        for (int from = 0; from < codeModules;) {
            int to = from;
            while (to < codeModules && isDark(to, y))
                ++to;
            if (to > from) {
                const PointOnCard corner = atModule(place, from, y);
                cairo_rectangle(pen, corner.x, corner.y, (to - from) * module, module);
            }
            from = to + 1;
        }
    cairo_set_source_rgb(pen, 0.0, 0.0, 0.0);
    cairo_fill(pen); // one path of all runs, so that no seams show between modules
}

bool showsSerialCode(const cv::Mat& bgr, const CardSighting& card) {
    const CardRect& code = card.layout.serialCode;
    if (code.width <= 0.0)
        return false;
    constexpr double mark = 3.5, far = codeModules - mark; // middles of the corner marks, modules
    constexpr double beside = 2.0;                         // modules into the white surround
    constexpr double asDark = 0.5;                         // of the paper's light
    constexpr std::array<std::array<double, 4>, 3> pairs{
        {{mark, mark, mark, -beside}, {far, mark, far, -beside}, {mark, far, -beside, far}}};
    return std::all_of(pairs.begin(), pairs.end(), [&](const std::array<double, 4>& p) {
        const auto dark = lightNear(bgr, card, atModule(code, p[0], p[1]));
        const auto white = lightNear(bgr, card, atModule(code, p[2], p[3]));
        return dark && white && *dark < asDark * *white;
    });
}

std::optional<std::string> readSerialCode(const cv::Mat& bgr, const CardSighting& card) {
    if (!showsSerialCode(bgr, card))
        return std::nullopt;
    const cv::Mat seen = codeFromAbove(bgr, card);
    if (seen.empty())
        return std::nullopt;
    const ZXing::ImageView view(seen.data, seen.cols, seen.rows, ZXing::ImageFormat::Lum,
                                static_cast<int>(seen.step));
    for (const ZXing::Binarizer by :
         {ZXing::Binarizer::LocalAverage, ZXing::Binarizer::GlobalHistogram}) {
        ZXing::DecodeHints hints;
        hints.setFormats(ZXing::BarcodeFormat::QRCode).setBinarizer(by).setTryRotate(false);
        const ZXing::Result read = ZXing::ReadBarcode(view, hints);
        if (read.isValid() && isCodedSerial(read.text()))
            return read.text();
    }
    return std::nullopt;
}

} // namespace swarfbook
