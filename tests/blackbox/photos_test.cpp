// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "blackbox/agreement.h"
#include "particles/repeats.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
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
/// below what held when it was last raised.
struct Least {
    double recall = 0.0;
    int falseOnes = 0;
};
const std::map<std::string, Least> least{
    {"card-96-percent", {0.95, 4}}, {"filter-felt", {0.84, 5}},
    {"filter-paper", {0.84, 11}},   {"history-1", {0.90, 3}},
    {"history-2", {0.96, 4}},       {"history-3", {0.93, 7}},
    {"history-4", {0.93, 6}},       {"pad-flash-spot", {0.86, 4}},
    {"pad-heavy-1", {0.89, 29}},    {"pad-light-1", {0.93, 4}},
    {"pad-medium-1", {0.96, 14}},   {"pad-medium-2", {0.85, 3}},
    {"pad-repeat-1", {0.96, 4}},    {"pad-repeat-2", {0.95, 4}},
    {"pad-repeat-3", {0.96, 4}},    {"pad-rotated-6", {0.96, 6}},
    {"pad-small-3mp", {0.90, 6}},   {"pan-steel-heavy", {0.85, 14}},
    {"pan-steel-light", {0.85, 5}}, {"pan-sweep-before", {0.82, 8}},
    {"tray-pass-1", {0.82, 8}},     {"tray-pass-2", {0.88, 10}},
    {"tray-pass-3", {0.85, 4}},     {"pad-light-2", {0.96, 140}},
    {"pad-torch-left", {0.90, 14}}, {"pad-torch-right", {0.92, 14}},
    {"pan-sweep-after", {0.87, 6}}};

/// Photos that this program is known to measure badly, left out of what is said of all of them:
/// pad-light-2 is a card of flecked paper, and the models that count its flecks as pieces never met
/// such paper.
const std::set<std::string> knownFailures{"pad-light-2"};

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

/// Pieces said to be perhaps none are so far more often than the others, and their probabilities
/// tell how many there are.
void checkDoubts(const Agreement& all) {
    const int sure = all.found + all.falseOnes - all.doubted;
    const int falseSure = all.falseOnes - all.falseDoubted;
    const std::string figures = fmt::format(
        "{} of {} doubted are false, {} of {} others; {} false ones, expected {:.1f}",
        all.falseDoubted, all.doubted, falseSure, sure, all.falseOnes, all.expectedFalse);
    INFO(figures);
    if (std::getenv("SWARFBOOK_SHOW_FIGURES") != nullptr)
        WARN(figures);
    if (all.found < 500)
        return; // few photos say little
    CHECK(falseSure <= 0.04 * sure);
    CHECK(all.falseDoubted >= 0.3 * all.doubted);
    CHECK(all.falseDoubted <= 0.7 * all.doubted);
    CHECK(all.expectedFalse >= 0.5 * all.falseOnes);
    CHECK(all.expectedFalse <= 1.5 * all.falseOnes);
}

} // namespace

TEST_CASE("Photos with truth: scale, pieces, sizes and refusals hold", "[blackbox]") {
    Agreement all;
    AtFloor near;
    std::string figures;
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
        const double scale = scaleErrorPercent(known.truth, m.card->grid);
        CHECK(scale <= 0.15);
        if (known.truth.hasMagnet)
            continue; // what lies on a magnet's coat is another measurement
        const Agreement a = agreementOf(known.truth, *m.debris);
        figures += fmt::format("{:18} scale {:.3f} %  asked {:3}  recall {:.3f}  false {:2}  "
                               "inside {}/{}\n",
                               name, scale, a.asked, a.recall(), a.falseOnes, a.inside, a.sized);
        INFO("recall " << a.recall() << ", false " << a.falseOnes);
        const auto limit = least.find(name);
        REQUIRE(limit != least.end());
        CHECK(a.recall() >= limit->second.recall);
        CHECK(a.falseOnes <= limit->second.falseOnes);
        CHECK(a.asked >= 10);
        if (knownFailures.contains(name))
            continue;
        const AtFloor here = atFloor(known.truth, *m.debris);
        near.asked += here.asked;
        near.found += here.found;
        all += a;
    }
    INFO(figures);
    if (std::getenv("SWARFBOOK_SHOW_FIGURES") != nullptr)
        WARN(figures);
    REQUIRE(all.sized > 0);
    CHECK(double(all.inside) / all.sized >= 0.85);
    INFO(near.found << " of " << near.asked << " found just above the size floor");
    CHECK(near.asked > 0);
    CHECK(near.found >= 0.9 * near.asked); // what the floor says
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
            return p.usable && p.maxFeret >= together.sizeFloor.value();
        });
    INFO("found " << together.count.mean << " +- " << together.count.between << ", there " << there
                  << " from " << together.sizeFloor.value() << " mm");
    CHECK(together.count.low <= double(there));
    CHECK(together.count.high >= double(there));
    CHECK(together.count.between <= 0.05 * together.count.mean); // counting alone scatters by 9 %
}
