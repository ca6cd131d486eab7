// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/candidate.h"
#include "debris/cut_model.h"
#include "debris/drawn_window.h"
#include "debris/shipped_models.h"
#include "files/temporary_folder.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>

using namespace swarfbook;
using namespace swarfbook::test;
using nlohmann::json;

namespace {

/// A model without hidden layer whose answers are logs of probabilities, whatever it sees, but for
/// one feature that speaks for the second outcome.
json handMadeCuts(const std::vector<double>& probabilities) {
    json model;
    model["format"] = "swarfbook cut model 1";
    for (const auto name : cutFeatureNames())
        model["features"].push_back(std::string(name));
    model["mean"] = std::vector<double>(cutFeatureCount, 0.0);
    model["scale"] = std::vector<double>(cutFeatureCount, 1.0);
    std::vector<double> weights(4 * cutFeatureCount, 0.0);
    weights[cutFeatureCount + static_cast<std::size_t>(CutFeature::gap)] = 1.0;
    std::vector<double> bias;
    for (const double p : probabilities)
        bias.push_back(std::log(p));
    model["layers"] = json::array({json{{"weights", weights}, {"bias", bias}}});
    model["probability"] = 0.6;
    return model;
}

CutModel loaded(const json& model) {
    const TemporaryFile file(model.dump());
    return CutModel::load(file.path());
}

double longestOf(const Candidate& c) {
    std::vector<PointOnCard> outline;
    for (const auto& p : c.outline)
        outline.push_back({p.x, p.y});
    return measureShape(outline).maxFeret;
}

/// What the shipped model makes of a drawn photo all of whose figures the piece map joins.
std::vector<Candidate> cutUp(const cv::Mat& drawn, const cv::Mat& joined) {
    cv::Mat seen;
    cv::GaussianBlur(drawn, seen, {0, 0}, 0.7);
    const WindowCrop crop = windowOf(seen);
    const cv::Rect window(crop.origin, crop.bgr.size());
    const PieceMap map{joined(window), cv::Mat::zeros(window.size(), CV_8U)};
    return candidatesOf(crop, contrastField(crop), map, {shippedModels().cuts, Pixels(1.8)});
}

} // namespace

TEST_CASE("The cut model answers with probabilities", "[debris]") {
    const CutModel model = loaded(handMadeCuts({0.1, 0.2, 0.6, 0.1}));
    CutFeatures features{};
    CHECK(model.judge(features).parts == Approx(0.9));
    CHECK(model.judge(features).outcome == CutOutcome::smallIsNone);
    features[static_cast<std::size_t>(CutFeature::gap)] = static_cast<float>(std::log(10.0));
    CHECK(model.judge(features).parts == Approx(2.7 / 2.8));
    CHECK(model.judge(features).outcome == CutOutcome::betweenPieces);
    CHECK(model.threshold() == Approx(0.6));
}

TEST_CASE("A cut model that was not loaded never cuts", "[debris]") {
    const CutModel none;
    CHECK(none.judge({}).parts < none.threshold());
}

TEST_CASE("A damaged cut model is refused, with what is wrong", "[debris]") {
    const json good = handMadeCuts({0.7, 0.1, 0.1, 0.1});
    const auto refusal = [&](const std::function<void(json&)>& spoil) {
        json model = good;
        spoil(model);
        const TemporaryFile file(model.dump());
        try {
            CutModel::load(file.path());
        } catch (const ToolError& wrong) {
            return std::string(wrong.what());
        }
        return std::string();
    };
    using Catch::Contains;
    CHECK_THAT(refusal([](json& m) { m["format"] = "another 2"; }), Contains("another format"));
    CHECK_THAT(refusal([](json& m) { m["features"].erase(3); }),
               Contains("features are not those"));
    CHECK_THAT(refusal([](json& m) { m["mean"].erase(0); }), Contains("do not fit together"));
    CHECK_THAT(refusal([](json& m) { m["layers"][0]["weights"].erase(0); }),
               Contains("do not fit together"));
    CHECK_THAT(refusal([](json& m) { m["layers"] = json::array(); }),
               Contains("do not fit together"));
    CHECK_THAT(refusal([](json& m) { m.erase("probability"); }), Contains("probability"));
    CHECK_THROWS_AS(CutModel::load("/nowhere/cuts.json"), ToolError);
    const TemporaryFile broken(good.dump().substr(0, 200));
    CHECK_THROWS_AS(CutModel::load(broken.path()), ToolError);
}

// Drawn scenes: what lies on either side is plain to any eye.

TEST_CASE("Pieces of two colours that touch are parted where they meet", "[debris]") {
    cv::Mat drawn = plainSurface({600, 400}, {200, 200, 200}, 1.0);
    cv::Mat joined(drawn.size(), CV_8U, cv::Scalar(0));
    drawDisc(drawn, {200, 200}, 18, {30, 33, 38});
    drawDisc(drawn, {233, 200}, 16, {70, 150, 190});
    for (const cv::Point at : {cv::Point(200, 200), cv::Point(233, 200)})
        cv::circle(joined, at, at.x == 200 ? 18 : 16, cv::Scalar(250), cv::FILLED, cv::LINE_AA);
    const auto found = cutUp(drawn, joined);
    REQUIRE(found.size() == 2);
    const auto [small, large] = std::minmax({longestOf(found[0]), longestOf(found[1])});
    CHECK(small == Approx(33.0).margin(3.0));
    CHECK(large == Approx(37.0).margin(3.0));
}

TEST_CASE("One round piece stays one", "[debris]") {
    cv::Mat drawn = plainSurface({600, 400}, {200, 200, 200}, 1.0);
    cv::Mat joined(drawn.size(), CV_8U, cv::Scalar(0));
    drawDisc(drawn, {300, 200}, 22, {40, 42, 45});
    cv::circle(joined, {300, 200}, 22, cv::Scalar(250), cv::FILLED, cv::LINE_AA);
    CHECK(cutUp(drawn, joined).size() == 1);
}
