// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "blackbox/match_score.h"
#include "particles/repeats.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

// Source of all truth here: path-traced scenes whose meshes are known (demo-images/README.md).

/// What must hold of a photo, or a change has made measuring worse. Not a goal: it stands a margin
/// below what held when it was last raised. The finder before this one had learnt most of these
/// photos by heart; on felt, on wet steel, in the tray and in two more it did better than a network
/// that is to know surfaces it never met. Their limits are what that network reaches on them where
/// it was learnt without any of these photos (models/network.md), or what it reaches now where that
/// is less, with 0.015 of recall and two pieces to spare: filter-felt, pad-small-3mp,
/// pad-torch-right, pan-steel-heavy, pan-steel-light, pan-sweep-before, tray-pass-1, tray-pass-3.
/// The network that learnt on from it finds one piece of 30 fewer in pad-light-2 and one false
/// piece more in pan-sweep-after; it is held to more than that one in most of the others.
struct Least {
    double recall = 0.0;
    int falseOnes = 0;
};
const std::map<std::string, Least> least{
    {"card-96-percent", {0.97, 2}}, {"filter-felt", {0.83, 4}},     {"filter-paper", {0.91, 9}},
    {"history-1", {0.92, 2}},       {"history-2", {0.98, 2}},       {"history-3", {0.97, 2}},
    {"history-4", {0.95, 5}},       {"pad-flash-spot", {0.88, 3}},  {"pad-heavy-1", {0.93, 19}},
    {"pad-light-1", {0.98, 3}},     {"pad-light-2", {0.93, 2}},     {"pad-medium-1", {0.96, 5}},
    {"pad-medium-2", {0.88, 2}},    {"pad-repeat-1", {0.97, 4}},    {"pad-repeat-2", {0.96, 3}},
    {"pad-repeat-3", {0.98, 3}},    {"pad-rotated-6", {0.97, 2}},   {"pad-small-3mp", {0.88, 3}},
    {"pad-torch-left", {0.92, 8}},  {"pad-torch-right", {0.92, 9}}, {"pan-steel-heavy", {0.87, 16}},
    {"pan-steel-light", {0.89, 9}}, {"pan-sweep-after", {0.90, 7}}, {"pan-sweep-before", {0.86, 6}},
    {"tray-pass-1", {0.85, 18}},    {"tray-pass-2", {0.96, 10}},    {"tray-pass-3", {0.92, 5}}};

/// Reasons that are right for a defect of the photo.
const std::map<std::string, std::set<RefusalReason>> rightReasons{
    {"blur", {RefusalReason::blurred}},
    {"dark", {RefusalReason::tooDark, RefusalReason::noCard, RefusalReason::blurred}},
    {"glare", {RefusalReason::glare, RefusalReason::clipped}},
    {"clipped", {RefusalReason::clipped, RefusalReason::glare}},
    {"no-card", {RefusalReason::noCard}},
    {"card-cut-off", {RefusalReason::cardCutOff}}};

struct Known {
    fs::path photo;
    Truth truth;
};

void addFolder(std::map<std::string, Known>& all, const fs::path& folder) {
    if (!fs::exists(folder / "truth"))
        return;
    for (const auto& entry : fs::directory_iterator(folder / "truth")) {
        const std::string name = entry.path().stem().string();
        const fs::path photo = folder / (name + ".jpg");
        if (entry.path().extension() == ".json" && fs::exists(photo) && all.count(name) == 0)
            all[name] = {photo, readTruth(entry.path())};
    }
}

/// Every photo with truth, by name. One alone where tests are to be short.
std::map<std::string, Known> knownPhotos() {
    std::map<std::string, Known> all;
    addFolder(all, fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images");
    REQUIRE(all.size() >= 7);
    if (std::getenv("SWARFBOOK_SHORT_TESTS") != nullptr)
        return {*all.find("history-1")};
    const fs::path more = fs::path(SWARFBOOK_SHARED_DIR) / "photos";
    if (fs::exists(more))
        addFolder(all, more);
    else
        WARN("Passed over: the further photos with truth are not here (" << more.string() << ").");
    return all;
}

Measurement measure(const Known& known) {
    AssessOptions options;
    options.place = placeFromName(known.truth.place);
    if (known.truth.printScale != 1.0)
        options.measuredBar =
            Millimetres(known.truth.printScale * (known.truth.layout == "close" ? 80.0 : 150.0));
    return assessPhotoFile(known.photo, loadAssessData(), options);
}

void checkRefused(const Known& known, const Measurement& m) {
    REQUIRE(m.refusal);
    bool right = false;
    for (const std::string& defect : known.truth.defects)
        if (const auto reasons = rightReasons.find(defect); reasons != rightReasons.end())
            right = right || reasons->second.count(m.refusal->reason) > 0;
    INFO("refused as " << reasonName(m.refusal->reason));
    CHECK(right);
    CHECK_FALSE(m.refusal->advice.empty());
    CHECK_FALSE(m.debris);
}

bool mustBeRefused(const Truth& truth) {
    for (const std::string& defect : truth.defects)
        if (rightReasons.count(defect) > 0)
            return true;
    return false;
}

/// Pieces said to be perhaps none are so far more often than the others. Their probabilities expect
/// about half of the false ones that there are: too few, and more on photos like those learnt from.
void checkDoubts(const MatchScore& all) {
    const int sure = all.found + all.falseOnes - all.doubted;
    const int falseSure = all.falseOnes - all.falseDoubted;
    const std::string figures = fmt::format(
        "{} of {} doubted are false, {} of {} others; {} false ones, expected {:.1f}",
        all.falseDoubted, all.doubted, falseSure, sure, all.falseOnes, all.expectedFalse);
    INFO(figures);
    if (std::getenv("SWARFBOOK_SHOW_FIGURES") != nullptr)
        WARN(figures);
    CHECK(falseSure <= 0.07 * sure);
    CHECK(all.falseDoubted >= 0.3 * all.doubted);
    CHECK(all.falseDoubted <= 0.7 * all.doubted);
    CHECK(all.expectedFalse >= 0.4 * all.falseOnes);
    CHECK(all.expectedFalse <= 1.5 * all.falseOnes);
}

/// What the photos with truth show together.
struct PhotoFigures {
    MatchScore all;
    AtFloor near; ///< pieces just above the size floor
    std::string text;
};

/// Checks the pieces of a photo without a magnet, and adds them to the figures.
void checkPieces(const std::string& name, const Known& known, const Measurement& m,
                 PhotoFigures& figures) {
    const MatchScore a = matchScoreOf(known.truth, *m.debris);
    figures.text += fmt::format("{:18} scale {:.3f} %  asked {:3}  recall {:.3f}  false {:2}  "
                                "inside {}/{}\n",
                                name, scaleErrorPercent(known.truth, m.card->grid), a.asked,
                                a.recall(), a.falseOnes, a.inside, a.sized);
    INFO("recall " << a.recall() << ", false " << a.falseOnes);
    const auto limit = least.find(name);
    REQUIRE(limit != least.end());
    CHECK(a.recall() >= limit->second.recall);
    CHECK(a.falseOnes <= limit->second.falseOnes);
    CHECK(a.asked >= 10);
    const AtFloor here = atFloor(known.truth, *m.debris);
    figures.near.asked += here.asked;
    figures.near.found += here.found;
    figures.all += a;
}

} // namespace

TEST_CASE("Photos with truth: scale, pieces, sizes and refusals hold", "[blackbox]") {
    PhotoFigures figures;
    for (const auto& [name, known] : knownPhotos()) {
        INFO(name);
        const Measurement m = measure(known);
        if (mustBeRefused(known.truth)) {
            checkRefused(known, m);
            continue;
        }
        if (m.refusal)
            FAIL_CHECK("refused as " << reasonName(m.refusal->reason) << " though usable");
        if (!m.card || !m.debris)
            continue;
        CHECK(scaleErrorPercent(known.truth, m.card->grid) <= 0.15);
        if (!known.truth.hasMagnet) // what lies on a magnet's coat is another measurement
            checkPieces(name, known, m, figures);
    }
    INFO(figures.text);
    if (std::getenv("SWARFBOOK_SHOW_FIGURES") != nullptr)
        WARN(figures.text);
    const MatchScore& all = figures.all;
    REQUIRE(all.sized > 0);
    CHECK(double(all.inside) / all.sized >= 0.85);
    INFO(figures.near.found << " of " << figures.near.asked << " found just above the size floor");
    CHECK(figures.near.asked > 0);
    CHECK(figures.near.found >= 0.9 * figures.near.asked); // what the floor says
    const int sure = all.found + all.falseOnes - all.doubted;
    CHECK(all.falseOnes - all.falseDoubted <= 0.04 * sure);
}

// Every third of the rendered photos is never learnt from: what is stated must hold there.
TEST_CASE("On photos never learnt from, sizes, doubts and the size floor hold", "[blackbox]") {
    const fs::path folder = fs::path(SWARFBOOK_SHARED_DIR) / "rendered";
    if (std::getenv("SWARFBOOK_SHORT_TESTS") != nullptr || !fs::exists(folder)) {
        WARN("Passed over: short tests, or " << folder.string() << " is not here.");
        return;
    }
    std::map<std::string, Known> photos;
    addFolder(photos, folder);
    MatchScore all;
    int asked = 0, found = 0;
    for (int seed = 201; seed < 244; seed += 3) {
        const Known& known = photos.at(fmt::format("made-{}", seed));
        const Measurement m = measure(known);
        INFO(known.truth.name);
        REQUIRE(m.debris);
        if (m.debris->shownOnly)
            continue;
        const MatchScore a = matchScoreOf(known.truth, *m.debris);
        asked += a.asked;
        found += static_cast<int>(std::lround(a.recall() * a.asked));
        all += a;
    }
    INFO(found << " of " << asked << " found, " << all.inside << " of " << all.sized << " inside");
    if (std::getenv("SWARFBOOK_SHOW_FIGURES") != nullptr)
        WARN(found << " of " << asked << " found, " << all.inside << " of " << all.sized
                   << " inside");
    CHECK(found >= 0.73 * asked);
    CHECK(double(all.inside) / all.sized >= 0.93);
    CHECK(double(all.inside) / all.sized <= 0.97);
    checkDoubts(all);
}

TEST_CASE("Three poses of one sample repeat, and hold the true count between them", "[blackbox]") {
    std::vector<DebrisFinding> poses;
    std::optional<Truth> truth;
    for (const auto& [name, known] : knownPhotos()) {
        if (name.rfind("pad-repeat-", 0) != 0)
            continue;
        const Measurement m = measure(known);
        INFO(name);
        REQUIRE(m.debris);
        poses.push_back(*m.debris);
        truth = known.truth;
    }
    if (poses.size() < 2) {
        WARN("Passed over: the photos of one sample in several poses are not here.");
        return;
    }
    const RepeatedFinding together = combineRepeats(poses);
    const auto there =
        std::count_if(truth->pieces.begin(), truth->pieces.end(), [&](const TruePiece& p) {
            return p.usable && p.maxFeret >= together.detectionLimit.value();
        });
    INFO("found " << together.count.mean << " +- " << together.count.between << ", there " << there
                  << " from " << together.detectionLimit.value() << " mm");
    CHECK(together.count.low <= double(there));
    CHECK(together.count.high >= double(there));
    CHECK(together.count.between <= 0.05 * together.count.mean); // counting alone scatters by 9 %
}
