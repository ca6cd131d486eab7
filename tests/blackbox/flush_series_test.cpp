// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "blackbox/truth.h"
#include "particles/flush_series.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cstdlib>
#include <numeric>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

// Source of the truth: path-traced scenes, three rinses into one tray. The bar: the passes are
// ranked rightly and every ratio is within 0.05 of the truth, of all pieces that lie there.
TEST_CASE("three passes of a flush go down as the truth says", "[flush]") {
    const fs::path photos = fs::path(SWARFBOOK_SHARED_DIR) / "photos";
    if (std::getenv("SWARFBOOK_SHORT_TESTS") != nullptr) // the release build does it
        return;
    if (!fs::exists(photos / "tray-pass-3.jpg")) {
        WARN("Passed over: the photos of a wash tray are not here (" << photos.string() << ").");
        return;
    }
    const AssessData data = loadAssessData();
    AssessOptions options;
    options.place = Place::tray;
    std::vector<Measurement> measured;
    std::vector<double> truth;
    for (const int pass : {1, 2, 3}) {
        const std::string name = fmt::format("tray-pass-{}", pass);
        measured.push_back(assessPhotoFile(photos / (name + ".jpg"), data, options));
        REQUIRE(measured.back().debris);
        truth.push_back(
            static_cast<double>(readTruth(photos / "truth" / (name + ".json")).pieces.size()));
    }
    std::vector<PassSeen> passes;
    for (const Measurement& m : measured)
        passes.push_back({FlushStep::wash, &*m.debris});
    const FlushSeries series = flushSeries(passes, nullptr);
    CHECK(series.passes[0].pieces > series.passes[1].pieces);
    CHECK(series.passes[1].pieces > series.passes[2].pieces);
    for (const std::size_t i : {1U, 2U}) {
        const double sum =
            std::accumulate(truth.begin(), truth.begin() + static_cast<std::ptrdiff_t>(i) + 1, 0.0);
        const DecayRatio& ratio = series.decay.ratios[i].value();
        INFO("pass " << i + 1 << ": " << ratio.ratio << " (" << ratio.low << " to " << ratio.high
                     << "), truth " << truth[i] / sum);
        CHECK(std::abs(ratio.ratio - truth[i] / sum) < 0.05);
        CHECK(ratio.low < truth[i] / sum);
        CHECK(ratio.high > truth[i] / sum);
    }
    CHECK(series.decay.metAt == 3);
}
