// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "assess/wide_card.h"
#include "cli/run_program.h"
#include "rendered/used_surface.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const AssessData& data() {
    static const AssessData loaded = loadAssessData();
    return loaded;
}

/// A dark bar of debris on a white card with a stain of its own, and the same card without the
/// debris.
Photo pad(bool withDebris, bool withStain, std::uint64_t seed) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    if (withStain)
        drawing.pieces.push_back({{40.0, 40.0}, 1.2, 0.6, 30.0, {0.15, 0.15, 0.15}});
    if (withDebris)
        drawing.pieces.push_back({{60.0, 45.0}, 1.5, 0.6, 10.0});
    Photo photo = photograph(drawing, Camera{}, {1.0, 1.0, 1.5, 1.0, seed});
    photo.facts.sha256 = std::string(64, withDebris ? 'a' : 'b');
    return photo;
}

AssessOptions withCleanReference(PhotoFile cleanReference) {
    AssessOptions options;
    options.cleanReference = std::make_shared<const PhotoFile>(std::move(cleanReference));
    return options;
}

Measurement measuredWith(PhotoFile cleanReference) {
    return assessPhoto(pad(true, true, 1), data(), withCleanReference(std::move(cleanReference)));
}

/// The measurement is the same as without the clean reference, and says why that was not used.
void checkNotUsed(const Measurement& m, const std::string& why) {
    REQUIRE_FALSE(m.refusal);
    CHECK(m.debris->particles.size() == 2);
    CHECK(m.debris->alsoOnCleanReference == 0);
    REQUIRE(m.cleanReference);
    CHECK_FALSE(m.cleanReference->used);
    INFO(m.cleanReference->whyNot);
    CHECK(m.cleanReference->whyNot.find(why) != std::string::npos);
    REQUIRE(m.cautions.size() == 1);
    CHECK(m.cautions[0] == cleanReferenceCaution(*m.cleanReference));
    CHECK(m.cautions[0].find(m.cleanReference->file) != std::string::npos);
    const auto d = toJson(m);
    CHECK(d["blank"]["used"] == false);
    CHECK(d["blank"]["why_not"] == m.cleanReference->whyNot);
    CHECK_FALSE(measurementFromJson(d).cleanReference->used);
}

} // namespace

TEST_CASE("a stain that the clean reference shows is left out, and the document says how",
          "[clean-reference]") {
    const Measurement without = assessPhoto(pad(true, true, 1), data(), {});
    CHECK(without.debris->particles.size() == 2);
    CHECK_FALSE(without.cleanReference);
    CHECK(toJson(without)["blank"].is_null());

    const Measurement m = measuredWith({"blank.jpg", std::string(64, 'b'), pad(false, true, 2)});
    REQUIRE_FALSE(m.refusal);
    REQUIRE(m.debris->particles.size() == 1);
    CHECK(m.debris->particles[0].centre.x == Approx(60.0).margin(0.1));
    CHECK(m.cautions.empty());
    const auto d = toJson(m);
    CHECK(d["blank"]["file"] == "blank.jpg");
    CHECK(d["blank"]["sha256"] == std::string(64, 'b'));
    CHECK(d["blank"]["used"] == true);
    CHECK(d["blank"]["why_not"].is_null());
    CHECK(d["blank"]["laid_by"] == "card");
    CHECK(d["blank"]["likeness"].get<double>() > 0.8);
    CHECK(d["blank"]["covered_share"].get<double>() > 0.98);
    CHECK(d["blank"]["also_on_blank"] == 1);
    CHECK(toJson(measurementFromJson(d)) == d);
}

TEST_CASE("a clean reference that cannot be used does not change the measurement and says why",
          "[clean-reference]") {
    const TemporaryFolder folder;
    SECTION("no photo") {
        std::ofstream(folder.path() / "blank.jpg") << "no photo at all";
        checkNotUsed(measuredWith(readPhoto(folder.path() / "blank.jpg")), "photo");
    }
    SECTION("not there") {
        checkNotUsed(measuredWith(readPhoto(folder.path() / "nowhere.jpg")), "no file");
    }
    SECTION("no card in it") {
        Photo empty;
        empty.bgr = cv::Mat(600, 800, CV_8UC3, cv::Scalar(150, 150, 150));
        checkNotUsed(measuredWith({"blank.jpg", std::string(64, 'c'), empty}), "card");
    }
    SECTION("the same photo") {
        checkNotUsed(measuredWith({"same.jpg", std::string(64, 'a'), pad(true, true, 1)}),
                     "is the same photo");
    }
    SECTION("another sheet, with other stains") {
        Drawing drawing;
        drawing.layout = layoutNamed("close");
        for (int i = 0; i < 5; ++i)
            drawing.pieces.push_back({{28.0 + 11.0 * i, 30.0}, 1.2, 0.6, 0.0, {0.15, 0.15, 0.15}});
        checkNotUsed(measuredWith({"blank.jpg", std::string(64, 'c'),
                                   photograph(drawing, Camera{}, {1.0, 1.0, 1.5, 1.0, 3})}),
                     "do not fit those in this photo");
    }
    SECTION("another card") {
        checkNotUsed(measuredWith({"blank.jpg", std::string(64, 'c'), photoOfBareWideCard()}),
                     "wide card");
    }
}
