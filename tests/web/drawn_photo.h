// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "rendered/rendered_card.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

#include <string>
#include <vector>

namespace swarfbook::test {

/// A small photo of the white card with three bars, or of nothing.
inline std::string smallPhoto(bool ofCard) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (const double x : {30.0, 44.0, 58.0})
        drawing.pieces.push_back({{x, 36.0}, 1.5, 0.8, 20.0});
    Camera camera;
    camera.size = {1400, 1050};
    camera.focal = 1050.0;
    const cv::Mat picture = ofCard ? photograph(drawing, camera, {1.0, 1.0, 1.2, 1.0, 1}).bgr
                                   : cv::Mat(1050, 1400, CV_8UC3, cv::Scalar::all(90));
    std::vector<unsigned char> png;
    REQUIRE(cv::imencode(".png", picture, png));
    return {png.begin(), png.end()};
}

/// Photo 1 of the trial's visit, with a finding of two pieces.
inline void addPhoto(const TrialWorkshop& trial, const std::string& file) {
    const auto bytes = bytesOf(file);
    Book book = Book::open(trial.book);
    REQUIRE(book.addPhoto(newPhoto(trial.visit), bytes, findingWithWindow(bytes)).photo.id == 1);
}

} // namespace swarfbook::test
