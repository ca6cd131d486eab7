// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/contact_trust.h"
#include "debris/drawn_maps.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

// The maps are drawn; the expected values are closed forms of squares.

using namespace swarfbook;
using namespace swarfbook::test;
using nlohmann::json;

namespace {

constexpr auto indexOf(ContactFeature which) {
    return static_cast<std::size_t>(which);
}

/// Two squares of 10 and 20 px that touch along the whole side of the smaller one.
struct TwoSquares {
    cv::Mat labels = cv::Mat::zeros(60, 60, CV_32S);
    PieceMaps maps{cv::Mat::zeros(60, 60, CV_8U), cv::Mat::zeros(60, 60, CV_8U), {}};
    const cv::Rect small{10, 10, 10, 10}, large{20, 5, 20, 20};

    TwoSquares() {
        labels(small).setTo(2);
        labels(large).setTo(1);
        maps.piece(small).setTo(204);
        maps.piece(large).setTo(255);
        maps.seam(cv::Rect(19, 10, 1, 10)).setTo(102);
        maps.seam.at<uchar>(12, 20) = 255;
        for (cv::Mat& type : maps.types)
            type = cv::Mat::zeros(30, 30, CV_8U);
        maps.types[0](cv::Rect(5, 5, 5, 5)).setTo(200);
        maps.types[2](cv::Rect(10, 2, 10, 11)).setTo(200);
    }
};

/// A trust by hand: two pieces where they touch along little of the smaller one, and by 0.4 at a
/// neck of 0.
json contactsByNeck() {
    const std::size_t count = contactFeatureCount;
    json trust;
    trust["format"] = "swarfbook contact trust 1";
    for (const auto name : contactFeatureNames())
        trust["features"].push_back(std::string(name));
    std::vector<double> weights(count, 0.0);
    weights[indexOf(ContactFeature::neck)] = -4.0;
    trust["two_pieces"] = {{"mean", std::vector<double>(count, 0.0)},
                           {"scale", std::vector<double>(count, 1.0)},
                           {"layers", {{{"weights", weights}, {"bias", {std::log(0.4 / 0.6)}}}}}};
    trust["two_pieces_probability"] = 0.4;
    return trust;
}

ContactTrust trustFrom(const json& document) {
    const TemporaryFile file(document.dump());
    return ContactTrust::load(file.path());
}

} // namespace

TEST_CASE("The features of two touching squares have closed forms", "[debris]") {
    const TwoSquares drawn;
    const auto contacts = contactsOf(drawn.labels, drawn.maps, 20.0);
    REQUIRE(contacts.size() == 1);
    CHECK(contacts[0].first == 1);
    CHECK(contacts[0].second == 2);
    const auto has = [&](ContactFeature which, double expected) {
        INFO(contactFeatureNames().at(indexOf(which)));
        CHECK(double(contacts[0].features.at(indexOf(which))) == Approx(expected).margin(1e-5));
    };
    has(ContactFeature::logLength, std::log(10.0));
    has(ContactFeature::meanSeam, (9 * 0.4 + 1.0) / 10.0);
    has(ContactFeature::greatestSeam, 1.0);
    has(ContactFeature::meanAnswer, 0.8);
    has(ContactFeature::logSmaller, std::log(100.0));
    has(ContactFeature::logLarger, std::log(400.0));
    has(ContactFeature::neck, 0.0);
    has(ContactFeature::acrossSmaller, 0.0);
    // A hull through pixels' centres: (n - 1) squared, and half its rim.
    has(ContactFeature::soliditySmaller, 1.0);
    has(ContactFeature::solidityLarger, 1.0);
    // Both: 19 x 19, and the trapezium of 10 px from the rim of the one to that of the other.
    const double slant = std::hypot(10.0, 5.0);
    has(ContactFeature::solidityTogether,
        500.0 / (19.0 * 19.0 + 10.0 * (9.0 + 19.0) / 2.0 + 0.5 * (3 * 19.0 + 9.0 + 2 * slant) + 1));
    has(ContactFeature::typeDifference, 2.0);
    has(ContactFeature::logScale, std::log(20.0));
    has(ContactFeature::answerSmaller, 0.8);
    has(ContactFeature::answerLarger, 1.0);
}

TEST_CASE("Parts that touch by a corner alone, or not at all, have no contact", "[debris]") {
    TwoSquares drawn;
    drawn.labels.setTo(0);
    drawn.labels(cv::Rect(10, 10, 10, 10)).setTo(1);
    drawn.labels(cv::Rect(20, 20, 10, 10)).setTo(2);
    drawn.labels(cv::Rect(40, 40, 10, 10)).setTo(3);
    CHECK(contactsOf(drawn.labels, drawn.maps, 20.0).empty());
}

TEST_CASE("A contact with less than the limit's probability of two pieces joins the parts",
          "[debris]") {
    const ContactTrust trust = trustFrom(contactsByNeck());
    CHECK(
        trust.twoPieces(contactsOf(TwoSquares().labels, TwoSquares().maps, 20.0).at(0).features) ==
        Approx(0.4));
    CHECK(trust.threshold() == Approx(0.4));
    // Two discs: at first they touch along little, then along most of the smaller one.
    for (const auto& [away, pieces] : {std::pair{38, 2}, std::pair{24, 1}}) {
        DrawnMaps drawn;
        drawn.disc({200, 200}, 20);
        drawn.disc({200 + away, 200}, 20);
        cv::line(drawn.seam, {200 + away / 2, 180}, {200 + away / 2, 220}, cv::Scalar(90), 3);
        INFO(away << " px apart");
        CHECK(findPieces(drawn.maps(), drawn.crop, trust).size() == std::size_t(pieces));
    }
}

TEST_CASE("Of three parts in a row only those that belong together are joined", "[debris]") {
    DrawnMaps drawn;
    drawn.piece(cv::Rect(110, 100, 40, 30)).setTo(255);
    drawn.piece(cv::Rect(150, 112, 60, 6)).setTo(255);
    drawn.seam(cv::Rect(129, 100, 2, 30)).setTo(120);
    drawn.seam(cv::Rect(150, 100, 2, 30)).setTo(120);
    CHECK(findPieces(drawn.maps(), drawn.crop, trustFrom(contactsByNeck())).size() == 2);
}

TEST_CASE("A contact trust file with other features or numbers is refused", "[debris]") {
    json other = contactsByNeck();
    other["features"][0] = "another";
    CHECK_THROWS_AS(trustFrom(other), ToolError);
    json short_ = contactsByNeck();
    short_["two_pieces"]["mean"].erase(0);
    CHECK_THROWS_AS(trustFrom(short_), ToolError);
    json sure = contactsByNeck();
    sure["two_pieces_probability"] = 1.0;
    CHECK_THROWS_AS(trustFrom(sure), ToolError);
    CHECK_NOTHROW(ContactTrust::load(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                                     "models/contact-trust.json"));
}
