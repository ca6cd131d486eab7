// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_model.h"

#include "base/errors.h"
#include "network/convolutions.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <mutex>
#include <optional>
#include <utility>

namespace swarfbook {

namespace {

constexpr int inputChannels = 5;  // blue, green, red against the surface; green; surface's green
constexpr int outputChannels = 8; // two answers for each of 2 x 2 pixels
constexpr int cell = 4;           // px a side of what the network sees as one at its coarsest
constexpr float darkestSurface = 16.0F; // codes: darker ones count as that
constexpr double knownEdge = 1.8;       // px, of the photos the model was made from
constexpr double widestEdge = 2.7;
const cv::Size sheetSize(256, 256); // what a core's own memory holds; larger ones are slower
constexpr int mostRunners = 8;      // some 8 MB each

/// Where a box of the window lies on the sheet that the network sees at once.
struct Placed {
    cv::Rect inWindow;
    cv::Rect asked; ///< the part of it that is answered for; what lies around was seen for its sake
    cv::Rect onSheet;
};

/// Boxes and sheets begin and end with a cell.
int upToCell(int n) {
    return (n + cell - 1) / cell * cell;
}

/// What the network sees at once.
using Sheet = std::vector<Placed>;

/// Boxes side by side.
struct Shelf {
    int height = 0, width = 0;
    std::vector<Placed> boxes;
};

/// Highest boxes first, each on the first shelf with room. All fit a sheet.
std::vector<Shelf> shelvesOf(std::vector<Placed> boxes) {
    std::sort(boxes.begin(), boxes.end(), [](const Placed& a, const Placed& b) {
        return std::pair(upToCell(a.onSheet.height), a.onSheet.width) >
               std::pair(upToCell(b.onSheet.height), b.onSheet.width);
    });
    std::vector<Shelf> shelves;
    for (Placed& box : boxes) {
        const int width = upToCell(box.onSheet.width);
        auto shelf = std::find_if(shelves.begin(), shelves.end(), [&](const Shelf& one) {
            return one.width + width <= sheetSize.width;
        });
        if (shelf == shelves.end())
            shelf = shelves.insert(shelf, {upToCell(box.onSheet.height), 0, {}});
        box.onSheet.x = shelf->width;
        shelf->width += width;
        shelf->boxes.push_back(box);
    }
    return shelves;
}

/// Each shelf on the first sheet with room.
std::vector<Sheet> layOut(std::vector<Placed> boxes) {
    std::vector<Sheet> sheets;
    std::vector<int> filled; // from the top
    for (Shelf& shelf : shelvesOf(std::move(boxes))) {
        const auto room = std::find_if(filled.begin(), filled.end(), [&](int height) {
            return height + shelf.height <= sheetSize.height;
        });
        const auto at = static_cast<std::size_t>(room - filled.begin());
        if (at == sheets.size()) {
            sheets.emplace_back();
            filled.push_back(0);
        }
        for (Placed& box : shelf.boxes) {
            box.onSheet.y = filled[at];
            sheets[at].push_back(box);
        }
        filled[at] += shelf.height;
    }
    return sheets;
}

/// One box as the network wants it, written into the sheet's planes.
void writeBox(float* sheet, const Placed& box,
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
    static const auto oneOver = [] {
        std::array<float, 256> table{};
        for (std::size_t code = 0; code < table.size(); ++code)
            table[code] = 1.0F / std::max(static_cast<float>(code), darkestSurface);
        return table;
    }();
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
                const int change = p[x][c] - s[x][c];
                out[static_cast<std::size_t>(c) * plane] =
                    std::clamp(static_cast<float>(change) * oneOver[s[x][c]], -1.0F, 1.5F);
            }
            out[3 * plane] = static_cast<float>(p[x][1]) / 255.0F - 0.5F;
            out[4 * plane] = static_cast<float>(s[x][1]) / 255.0F - 0.5F;
        }
    }
}

/// Parts of a box that fit a sheet, each seen with so much around it that the network answers for
/// it as for the whole box.
std::vector<Placed> partsOf(const cv::Rect& box, double scale, int reach) {
    const auto inWindow = [scale](int px) { return static_cast<int>(px / scale) / cell * cell; };
    const cv::Size most(inWindow(sheetSize.width), inWindow(sheetSize.height));
    if (box.width <= most.width && box.height <= most.height)
        return {{box, box, {}}};
    const int around = upToCell(static_cast<int>(std::ceil(reach / scale)));
    const auto stepOf = [around](int side, int longest) {
        return side <= longest ? side : longest - 2 * around;
    };
    const cv::Size step(stepOf(box.width, most.width), stepOf(box.height, most.height));
    std::vector<Placed> parts;
    for (int y = 0; y < box.height; y += step.height)
        for (int x = 0; x < box.width; x += step.width) {
            const cv::Rect asked = cv::Rect({box.x + x, box.y + y}, step) & box;
            const cv::Rect seen(asked.x - around, asked.y - around, asked.width + 2 * around,
                                asked.height + 2 * around);
            parts.push_back({seen & box, asked, {}});
        }
    return parts;
}

/// The boxes as the network wants them, laid out on sheets.
std::vector<Sheet> sheetsOf(const std::vector<cv::Rect>& boxes, Pixels edgeWidth, int reach) {
    const double scale = edgeWidth.value() > widestEdge ? knownEdge / edgeWidth.value() : 1.0;
    const auto scaled = [scale](int px) {
        return std::max(1, static_cast<int>(std::lround(px * scale)));
    };
    std::vector<Placed> placed;
    for (const cv::Rect& box : boxes)
        for (Placed& part : partsOf(box, scale, reach)) {
            part.onSheet = {0, 0, scaled(part.inWindow.width), scaled(part.inWindow.height)};
            placed.push_back(part);
        }
    return layOut(std::move(placed));
}

/// What a logit comes to, 0 to 255: looked up, off by one code at the most.
uchar share(float logit) {
    constexpr float sureEnough = 6.3F; // beyond it the answer rounds to 0 or 255
    constexpr int steps = 4096;
    static const auto table = [] {
        std::array<uchar, steps> shares{};
        for (int i = 0; i < steps; ++i) {
            const double at = sureEnough * ((i + 0.5) / steps * 2.0 - 1.0);
            shares[static_cast<std::size_t>(i)] =
                static_cast<uchar>(std::lround(255.0 / (1.0 + std::exp(-at))));
        }
        return shares;
    }();
    if (!(logit > -sureEnough))
        return 0;
    if (logit >= sureEnough)
        return 255;
    return table[static_cast<std::size_t>((logit + sureEnough) * (0.5 * steps / sureEnough))];
}

/// One answer of one box, of the size of what was asked.
cv::Mat readBox(const Answers& answers, int which, const Placed& box) {
    cv::Mat part(box.onSheet.size(), CV_8U);
    for (int y = 0; y < part.rows; ++y) {
        const int sheetY = box.onSheet.y + y;
        const float* row =
            answers.numbers +
            static_cast<std::ptrdiff_t>(sheetY / 2) * (sheetSize.width / 2) * answers.lanes +
            4 * which + 2 * (sheetY % 2);
        auto* out = part.ptr<uchar>(y);
        for (int x = 0; x < part.cols; ++x) {
            const int sheetX = box.onSheet.x + x;
            out[x] = share(row[sheetX / 2 * answers.lanes + sheetX % 2]);
        }
    }
    if (part.size() != box.inWindow.size())
        cv::resize(part, part, box.inWindow.size(), 0, 0, cv::INTER_LINEAR);
    return part(box.asked - box.inWindow.tl());
}

/// What the model says of one box.
struct Answer {
    cv::Rect box;
    cv::Mat piece, seam;
};

std::vector<Answer> ask(ConvolutionRunner& runner, const Sheet& sheet,
                        std::pair<const cv::Mat&, const cv::Mat&> photoAndSurface) {
    float* planes = runner.input();
    std::fill_n(planes, inputChannels * sheetSize.area(), 0.0F);
    for (const Placed& box : sheet)
        writeBox(planes, box, photoAndSurface);
    const Answers answers = runner.run();
    std::vector<Answer> all;
    for (const Placed& box : sheet)
        all.push_back({box.asked, readBox(answers, 0, box), readBox(answers, 1, box)});
    return all;
}

} // namespace

struct PieceModel::Network {
    ConvolutionNetwork network;
    std::vector<std::optional<ConvolutionRunner>> runners; ///< made when first asked for
    std::mutex busy;
};

PieceModel::PieceModel(std::unique_ptr<Network> network) : network_(std::move(network)) {}
PieceModel::PieceModel(PieceModel&&) noexcept = default;
PieceModel& PieceModel::operator=(PieceModel&&) noexcept = default;
PieceModel::~PieceModel() = default;

PieceModel PieceModel::load(const std::filesystem::path& file) {
    auto own = std::make_unique<Network>();
    std::error_code unreadable;
    if (!std::filesystem::is_regular_file(file, unreadable))
        throw ToolError(fmt::format("The piece model {} is missing.", file.string()));
    try {
        own->network = ConvolutionNetwork::read(file, inputChannels);
        const auto& answer = own->network.answer();
        if (answer.channels != outputChannels || answer.cell != 2)
            throw std::runtime_error("it answers in another shape");
        own->runners.resize(
            static_cast<std::size_t>(std::clamp(cv::getNumThreads(), 1, mostRunners)));
        own->runners.front().emplace(own->network, sheetSize);
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The piece model {} is damaged: {}.", file.string(), wrong.what()));
    }
    return PieceModel(std::move(own));
}

PieceMap PieceModel::judge(const WindowCrop& crop, const ContrastField& field,
                           const std::vector<cv::Rect>& boxes, Pixels edgeWidth) const {
    PieceMap map{cv::Mat::zeros(crop.bgr.size(), CV_8U), cv::Mat::zeros(crop.bgr.size(), CV_8U)};
    const std::lock_guard lock(network_->busy);
    const ConvolutionNetwork& network = network_->network;
    const auto sheets = sheetsOf(boxes, edgeWidth, network.answer().reach);
    std::vector<std::vector<Answer>> answers(sheets.size());
    std::atomic<std::size_t> next = 0;
    const auto work = [&](const cv::Range& some) {
        for (int i = some.start; i < some.end; ++i) {
            auto& runner = network_->runners[static_cast<std::size_t>(i)];
            for (std::size_t at = next++; at < sheets.size(); at = next++) {
                if (!runner)
                    runner.emplace(network, sheetSize);
                answers[at] = ask(*runner, sheets[at], {crop.bgr, field.background});
            }
        }
    };
    cv::parallel_for_(cv::Range(0, static_cast<int>(network_->runners.size())), work);
    for (const auto& ofSheet : answers)
        for (const Answer& answer : ofSheet) {
            cv::Mat piece = map.piece(answer.box), seam = map.seam(answer.box);
            cv::max(piece, answer.piece, piece);
            cv::max(seam, answer.seam, seam);
        }
    return map;
}

} // namespace swarfbook
