// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/detection_limit.h"

#include "base/data_file.h"
#include "base/median.h"
#include "debris/contrast.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace swarfbook {
namespace {

constexpr double leastAim = 0.85; // at the size limit itself: from there up nine of ten are found

constexpr double leastLight = 8.0; // codes: darker surfaces are lost in the photo's own noise
constexpr double hardlyAny = 0.01; // of the window
constexpr int sampled = 4; // px: every fourth pixel shows the noise as well as all pixels do

/// The window as every so many pixels show it, neither blurred nor averaged.
WindowCrop everyFew(const WindowCrop& crop) {
    const int step = std::min(sampled, crop.reducedBy);
    WindowCrop few = crop;
    const cv::Size size(crop.bgr.cols / step, crop.bgr.rows / step);
    few.bgr = few.inside = cv::Mat();
    cv::resize(crop.bgr, few.bgr, size, 0, 0, cv::INTER_NEAREST);
    cv::resize(crop.inside, few.inside, size, 0, 0, cv::INTER_NEAREST);
    if (cv::countNonZero(few.inside) < hardlyAny * static_cast<double>(few.inside.total()))
        few.inside.setTo(255);
    few.pxPerMm = crop.pxPerMm / step;
    few.reducedBy = crop.reducedBy / step;
    return few;
}

} // namespace

double surfaceNoise(const WindowCrop& whole) {
    const WindowCrop crop = everyFew(whole);
    const ContrastField field = contrastField(crop);
    const cv::Mat& light = field.background;
    std::vector<double> shares, everywhere;
    for (int j = 0; j < field.noise.rows; ++j)
        for (int i = 0; i < field.noise.cols; ++i) {
            const int x = std::min(i * field.tile + field.tile / 2, light.cols - 1);
            const int y = std::min(j * field.tile + field.tile / 2, light.rows - 1);
            const double green = std::max<double>(leastLight, light.at<cv::Vec3b>(y, x)[1]);
            everywhere.push_back(field.noise.at<float>(j, i) / green);
            if (crop.inside.at<uchar>(y, x) != 0)
                shares.push_back(everywhere.back());
        }
    return upperMedianOf(shares.empty() ? everywhere : shares);
}

DetectionModel DetectionModel::load(const std::filesystem::path& file) {
    return readDataFile("The detection model", file, [](const nlohmann::json& document) {
        checkFormat(document, "swarfbook detection model 2");
        DetectionModel model;
        model.constant_ = document.at("constant");
        model.most_ = document.at("most");
        model.aim_ = document.at("at_floor");
        model.perLogSize_ = document.at("per_log_size");
        model.perLogNoise_ = document.at("per_log_surface_noise");
        model.perLogUnsure_ = document.at("per_log_unsureness");
        model.usualConstant_ = document.at("usual_unsureness").at("constant");
        model.usualPerLogNoise_ = document.at("usual_unsureness").at("per_log_surface_noise");
        model.usualCounts_ = document.at("usual_unsureness").at("counts_as_pieces");
        model.quietest_ = document.at("quietest_surface");
        model.leastBalance_ = document.at("counted_from_balance");
        if (!(model.aim_ >= leastAim && model.most_ > model.aim_ && model.most_ <= 1.0 &&
              model.perLogSize_ > 0.0 && model.perLogNoise_ <= 0.0 && model.perLogUnsure_ <= 0.0 &&
              model.usualPerLogNoise_ >= 0.0 && model.usualCounts_ > 0.0 &&
              model.leastBalance_ > 0.0 && model.leastBalance_ < 1.0 && model.quietest_ > 0.0))
            throw std::runtime_error("its numbers do not fit together");
        return model;
    });
}

double DetectionModel::ease(const SeeingConditions& conditions) const {
    const double logNoise = std::log(std::max(conditions.surfaceNoise, quietest_));
    const double usual = std::exp(usualConstant_ + usualPerLogNoise_ * logNoise);
    const double unsure = (usualCounts_ * usual + conditions.pieces * conditions.unsureAround) /
                          (usualCounts_ + conditions.pieces);
    return constant_ + perLogNoise_ * logNoise + perLogUnsure_ * std::log(unsure);
}

double DetectionModel::chance(Millimetres longest, const SeeingConditions& conditions) const {
    const double logOdds =
        ease(conditions) + perLogSize_ * std::log(longest / conditions.resolutionLimit);
    return most_ / (1.0 + std::exp(-logOdds));
}

Millimetres DetectionModel::detectionLimit(const SeeingConditions& conditions) const {
    const double logOdds = std::log(aim_ / (most_ - aim_));
    const double times = std::exp((logOdds - ease(conditions)) / perLogSize_);
    return conditions.resolutionLimit * std::max(1.0, times);
}

} // namespace swarfbook
