// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_model.h"

#include "base/errors.h"

#include <fmt/format.h>
#include <opencv2/dnn.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numeric>

namespace swarfbook {

struct PieceModel::Network {
    cv::dnn::Net net;
    std::mutex busy;
};

namespace {

constexpr int inputChannels = 5;  // blue, green, red against the surface; green; surface's green
constexpr int outputChannels = 8; // two answers for each of 2 x 2 pixels
constexpr int cell = 4;           // px a side of what the network sees as one at its coarsest
constexpr double knownEdge = 1.8; // px, of the photos the model was made from
constexpr double widestEdge = 2.7;
constexpr int sheetWidth = 1024;
constexpr int sheetHeight = 192; // more at once takes more memory and is no quicker

/// Where a box of the window lies on the sheet that the network sees at once.
struct Placed {
    cv::Rect inWindow;
    cv::Rect onSheet;
};

/// Boxes and sheets begin and end with a cell.
int upToCell(int n) {
    return (n + cell - 1) / cell * cell;
}

/// What the network sees at once: boxes side by side in shelves.
struct Sheet {
    cv::Size size;
    std::vector<Placed> boxes;
};

/// Highest boxes first, so that shelves waste little.
std::vector<Sheet> layOut(std::vector<Placed> boxes) {
    std::sort(boxes.begin(), boxes.end(),
              [](const Placed& a, const Placed& b) { return a.onSheet.height > b.onSheet.height; });
    std::vector<Sheet> sheets;
    cv::Point at;
    int shelf = 0;
    for (Placed& p : boxes) {
        const int width = upToCell(p.onSheet.width);
        const int height = upToCell(p.onSheet.height);
        const bool newShelf = sheets.empty() || at.x + width > sheets.back().size.width;
        if (newShelf)
            at = {0, at.y + shelf};
        if (sheets.empty() || (newShelf && at.y + height > sheetHeight)) {
            sheets.push_back({{std::max(sheetWidth, width), 0}, {}});
            at = {0, 0};
        }
        shelf = newShelf ? height : shelf;
        p.onSheet.x = at.x;
        p.onSheet.y = at.y;
        at.x += width;
        Sheet& sheet = sheets.back();
        sheet.size.height = std::max(sheet.size.height, at.y + height);
        sheet.boxes.push_back(p);
    }
    return sheets;
}

/// One box as the network wants it, written into the sheet's planes.
void writeBox(float* sheet, cv::Size sheetSize, const Placed& box,
              std::pair<const cv::Mat&, const cv::Mat&> photoAndSurface) {
    cv::Mat photo = photoAndSurface.first(box.inWindow);
    cv::Mat surface = photoAndSurface.second(box.inWindow);
    if (box.onSheet.size() != box.inWindow.size()) {
        cv::Mat smallPhoto, smallSurface;
        cv::resize(photo, smallPhoto, box.onSheet.size(), 0, 0, cv::INTER_AREA);
        cv::resize(surface, smallSurface, box.onSheet.size(), 0, 0, cv::INTER_AREA);
        photo = smallPhoto;
        surface = smallSurface;
    }
    const auto plane = static_cast<std::size_t>(sheetSize.area());
    for (int y = 0; y < photo.rows; ++y) {
        const auto* p = photo.ptr<cv::Vec3b>(y);
        const auto* s = surface.ptr<cv::Vec3b>(y);
        float* out = sheet +
                     static_cast<std::size_t>(box.onSheet.y + y) *
                         static_cast<std::size_t>(sheetSize.width) +
                     box.onSheet.x;
        for (int x = 0; x < photo.cols; ++x, ++out) {
            for (int c = 0; c < 3; ++c) {
                const auto of = static_cast<float>(s[x][c]);
                const float change = (static_cast<float>(p[x][c]) - of) / std::max(of, 16.0F);
                out[static_cast<std::size_t>(c) * plane] = std::clamp(change, -1.0F, 1.5F);
            }
            out[3 * plane] = static_cast<float>(p[x][1]) / 255.0F - 0.5F;
            out[4 * plane] = static_cast<float>(s[x][1]) / 255.0F - 0.5F;
        }
    }
}

/// The boxes as the network wants them, laid out on sheets.
std::vector<Sheet> sheetsOf(const std::vector<cv::Rect>& boxes, Pixels edgeWidth) {
    const double scale = edgeWidth.value() > widestEdge ? knownEdge / edgeWidth.value() : 1.0;
    const auto scaled = [scale](int px) {
        return std::max(1, static_cast<int>(std::lround(px * scale)));
    };
    std::vector<Placed> placed;
    for (const cv::Rect& box : boxes)
        placed.push_back({box, cv::Rect(0, 0, scaled(box.width), scaled(box.height))});
    return layOut(std::move(placed));
}

cv::Mat ask(cv::dnn::Net& net, const Sheet& sheet,
            std::pair<const cv::Mat&, const cv::Mat&> photoAndSurface) {
    const int size[] = {1, inputChannels, sheet.size.height, sheet.size.width};
    cv::Mat planes(4, size, CV_32F, cv::Scalar(0));
    cv::parallel_for_(cv::Range(0, static_cast<int>(sheet.boxes.size())), [&](const cv::Range& r) {
        for (int i = r.start; i < r.end; ++i)
            writeBox(planes.ptr<float>(), sheet.size, sheet.boxes[static_cast<std::size_t>(i)],
                     photoAndSurface);
    });
    net.setInput(planes);
    return net.forward();
}

uchar share(float logit) {
    constexpr float sureEnough = 6.3F; // beyond it the answer rounds to 0 or 255
    if (logit < -sureEnough)
        return 0;
    if (logit > sureEnough)
        return 255;
    return static_cast<uchar>(std::lround(255.0F / (1.0F + std::exp(-logit))));
}

/// One answer of one box back in the window: the network answers for 2 x 2 pixels at once.
void readBox(const cv::Mat& answer, int which, const Placed& box, cv::Mat& map) {
    cv::Mat part(box.onSheet.size(), CV_8U);
    const auto plane =
        static_cast<std::size_t>(answer.size[2]) * static_cast<std::size_t>(answer.size[3]);
    for (int y = 0; y < part.rows; ++y) {
        const int sheetY = box.onSheet.y + y;
        const float* even =
            answer.ptr<float>(0, 4 * which + 2 * (sheetY % 2)) +
            static_cast<std::size_t>(sheetY / 2) * static_cast<std::size_t>(answer.size[3]);
        auto* out = part.ptr<uchar>(y);
        for (int x = 0; x < part.cols; ++x) {
            const int sheetX = box.onSheet.x + x;
            out[x] =
                share(even[(sheetX % 2 == 0 ? 0 : plane) + static_cast<std::size_t>(sheetX / 2)]);
        }
    }
    if (part.size() != box.inWindow.size())
        cv::resize(part, part, box.inWindow.size(), 0, 0, cv::INTER_LINEAR);
    cv::Mat target = map(box.inWindow);
    cv::max(target, part, target);
}

} // namespace

PieceModel::PieceModel(std::unique_ptr<Network> network) : network_(std::move(network)) {}
PieceModel::PieceModel(PieceModel&&) noexcept = default;
PieceModel& PieceModel::operator=(PieceModel&&) noexcept = default;
PieceModel::~PieceModel() = default;

PieceModel PieceModel::load(const std::filesystem::path& file) {
    auto network = std::make_unique<Network>();
    std::error_code unreadable;
    if (!std::filesystem::is_regular_file(file, unreadable))
        throw ToolError(fmt::format("The piece model {} is missing.", file.string()));
    try {
        network->net = cv::dnn::readNetFromONNX(file.string());
        network->net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
        const int size[] = {1, inputChannels, 16, 16};
        network->net.setInput(cv::Mat(4, size, CV_32F, cv::Scalar(0)));
        const cv::Mat answer = network->net.forward();
        if (answer.dims != 4 || answer.size[1] != outputChannels || answer.size[2] != 8 ||
            answer.size[3] != 8)
            throw std::runtime_error("it answers in another shape");
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The piece model {} is damaged: {}.", file.string(), wrong.what()));
    }
    return PieceModel(std::move(network));
}

PieceMap PieceModel::judge(const WindowCrop& crop, const ContrastField& field,
                           const std::vector<cv::Rect>& boxes, Pixels edgeWidth) const {
    PieceMap map{cv::Mat::zeros(crop.bgr.size(), CV_8U), cv::Mat::zeros(crop.bgr.size(), CV_8U)};
    const std::lock_guard lock(network_->busy);
    for (const Sheet& sheet : sheetsOf(boxes, edgeWidth)) {
        const cv::Mat answer = ask(network_->net, sheet, {crop.bgr, field.background});
        cv::parallel_for_(cv::Range(0, 2), [&](const cv::Range& which) {
            for (int i = which.start; i < which.end; ++i)
                for (const Placed& p : sheet.boxes)
                    readBox(answer, i, p, i == 0 ? map.piece : map.seam);
        });
    }
    return map;
}

} // namespace swarfbook
