// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/after_magnet.h"
#include "blackbox/truth.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

fs::path photos() {
    return fs::path(SWARFBOOK_SHARED_DIR) / "photos";
}

/// False, with a message, if the photos with truth are not here.
bool haveThem() {
    if (fs::exists(photos() / "pan-sweep-after.jpg"))
        return true;
    WARN("Passed over: the photos before and after a magnet are not here (" << photos().string()
                                                                            << ").");
    return false;
}

Measurement measured(const std::string& before, const std::string& after, Place place) {
    AssessOptions options;
    options.place = place;
    const AssessData data = loadAssessData();
    Measurement m = assessPhotoFile(photos() / before, data, options);
    assessAfterMagnet(m, readPhoto(photos() / after), data, options);
    return m;
}

/// The true piece for a find: the nearest within 0.15 mm or 0.35 of its size and a size ratio of
/// 2.5, as in match_score.h; nullptr if there is none, as with touching pieces found as one.
const TruePiece* trueOf(const Particle& found, const Truth& truth) {
    const double size = found.maxFeret.value.value();
    const TruePiece* nearest = nullptr;
    double least = 1e9;
    for (const TruePiece& p : truth.pieces) {
        const double apart = std::hypot(p.at.x - found.centre.x, p.at.y - found.centre.y);
        if (apart < std::max(0.15, 0.35 * std::max(size, p.maxFeret)) && apart < least &&
            std::abs(std::log(size / p.maxFeret)) < std::log(2.5)) {
            nearest = &p;
            least = apart;
        }
    }
    return nearest;
}

} // namespace

// Source of the truth: path-traced scenes; a piece that went has no entry after the magnet.
// Required: the share by count within 5 points of the truth, and 95 of 100 judged pieces right.
TEST_CASE("the magnetic share of a swept pan agrees with the truth, piece by piece", "[sweep]") {
    if (!haveThem())
        return;
    const Truth before = readTruth(photos() / "truth" / "pan-sweep-before.json");
    const Truth after = readTruth(photos() / "truth" / "pan-sweep-after.json");
    std::set<int> stayed;
    for (const TruePiece& p : after.pieces)
        stayed.insert(p.id);
    const Measurement m = measured("pan-sweep-before.jpg", "pan-sweep-after.jpg", Place::pan);
    REQUIRE(m.afterMagnet);
    INFO(m.afterMagnet->whyNot);
    REQUIRE(m.afterMagnet->sweep);
    const MagnetSweep& sweep = *m.afterMagnet->sweep;
    const double trueShare =
        1.0 - double(after.pieces.size()) / double(before.pieces.size()); // 98 of 200 went
    REQUIRE(sweep.pieces.byCount);
    CHECK(std::abs(sweep.pieces.byCount->share - trueShare) < 0.05);
    CHECK(sweep.pieces.byCount->low < trueShare);
    CHECK(sweep.pieces.byCount->high > trueShare);
    int right = 0, wrong = 0;
    for (const Particle& found : m.debris->particles)
        if (const TruePiece* known = trueOf(found, before);
            known != nullptr && found.ferrous != Ferrous::notKnown)
            ((found.ferrous == Ferrous::yes) != (stayed.count(known->id) > 0) ? right : wrong) += 1;
    CHECK(right + wrong > 80);
    CHECK(right >= 0.95 * (right + wrong));
}

// Nothing was taken between these photos, so any piece called magnetic is wrong.
TEST_CASE("a magnet that took nothing leaves nothing magnetic", "[sweep]") {
    if (!haveThem())
        return;
    const Measurement m = measured("pad-repeat-1.jpg", "pad-repeat-2.jpg", Place::pad);
    REQUIRE(m.afterMagnet);
    INFO(m.afterMagnet->whyNot);
    REQUIRE(m.afterMagnet->sweep);
    CHECK(m.afterMagnet->sweep->pieces.left > 60);
    CHECK(m.afterMagnet->sweep->pieces.byCount->share < 0.05);
}
