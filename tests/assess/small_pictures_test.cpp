// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <cstdlib>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// A small photo of a card with pieces, spoiled in one of many ways.
Photo spoiled(cv::RNG& random) {
    Drawing drawing;
    drawing.layout = layoutNamed(random.uniform(0, 2) == 0 ? "close" : "wide");
    const CardRect& w = drawing.layout.window;
    for (int i = random.uniform(0, 12); i > 0; --i)
        drawing.pieces.push_back({{w.x + random.uniform(-0.1, 1.1) * w.width,
                                   w.y + random.uniform(-0.1, 1.1) * w.height},
                                  random.uniform(0.0, 12.0),
                                  random.uniform(0.0, 3.0),
                                  random.uniform(0.0, 180.0),
                                  cv::Vec3d::all(random.uniform(0.0, 1.0))});
    Camera camera;
    camera.size.width = random.uniform(300, 1300);
    camera.size.height = camera.size.width * 3 / 4;
    camera.focal = camera.size.width * random.uniform(0.7, 1.0);
    camera.aim = {drawing.layout.outer.width / 2, drawing.layout.outer.height / 2};
    camera.distance = drawing.layout.outer.width * random.uniform(0.7, 1.3);
    camera.tilt = random.uniform(0.0, 40.0);
    camera.azimuth = random.uniform(0.0, 360.0);
    camera.roll = random.uniform(0.0, 360.0);
    Exposure exposure;
    exposure.gain = random.uniform(0.2, 1.8);
    exposure.blurAcross = exposure.blurDown = random.uniform(0.2, 1.2);
    exposure.noise = random.uniform(0.0, 8.0);
    exposure.seed = static_cast<std::uint64_t>(random.uniform(1, 1 << 30));
    Photo photo = photograph(drawing, camera, exposure);
    for (int i = random.uniform(0, 4); i > 0; --i) {
        const int top = random.uniform(0, photo.bgr.rows);
        const cv::Point a(random.uniform(0, photo.bgr.cols), top);
        const int bottom = random.uniform(0, photo.bgr.rows);
        const cv::Point b(random.uniform(0, photo.bgr.cols), bottom);
        cv::rectangle(photo.bgr, a, b, cv::Scalar::all(random.uniform(0, 256)), cv::FILLED);
    }
    return photo;
}

bool saysWhy(const Measurement& m) {
    return m.refusal && !m.refusal->detail.empty() && !m.refusal->advice.empty();
}

} // namespace

// Outside truth is not needed: for any picture the answer is a finding with only finite numbers
// (otherwise the document's writer throws) or a refusal that says what to do.
TEST_CASE("any small picture is measured or refused with a reason, never more", "[fuzz]") {
    const AssessData data = loadAssessData();
    cv::RNG random(20260301);
    const int pictures = std::getenv("SWARFBOOK_SHORT_TESTS") != nullptr ? 12 : 60;
    int measured = 0;
    for (int i = 0; i < pictures; ++i) {
        const Photo photo = spoiled(random);
        AssessOptions options;
        options.place = static_cast<Place>(random.uniform(0, 6));
        INFO("picture " << i << ", place " << placeName(options.place));
        const Measurement m = assessPhoto(photo, data, options);
        CHECK((saysWhy(m) || (m.debris && m.card)));
        CHECK_NOTHROW(toJson(m));
        measured += m.refusal ? 0 : 1;
    }
    CHECK(measured > 0); // otherwise the pictures never reached measuring
}

TEST_CASE("pictures of a few pixels and of nothing but noise are refused", "[fuzz]") {
    const AssessData data = loadAssessData();
    cv::RNG random(3);
    for (const cv::Size size : {cv::Size(1, 1), cv::Size(2, 700), cv::Size(700, 2),
                                cv::Size(16, 16), cv::Size(333, 211)}) {
        Photo photo;
        photo.bgr.create(size, CV_8UC3);
        random.fill(photo.bgr, cv::RNG::UNIFORM, 0, 256);
        const Measurement m = assessPhoto(photo, data, {});
        INFO(size.width << " x " << size.height);
        CHECK(saysWhy(m));
    }
}
