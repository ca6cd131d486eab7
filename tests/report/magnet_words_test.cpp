// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/magnet_words.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_json.h"
#include "report/report_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

Particle sliver(double mm) {
    Particle piece;
    piece.maxFeret = {Millimetres(mm), Millimetres(0.1)};
    return piece;
}

MagnetFinding higherBy(HeightFrom from) {
    MagnetFinding magnet;
    magnet.height = MagnetHeight{{Millimetres(6.0), Millimetres(0.5)}, from};
    return magnet;
}

} // namespace

// 1.96 standard uncertainties: 95 % two-sided, normal distribution.
TEST_CASE("of a piece that shows in part only a least size is given") {
    CHECK(longestSideWords(sliver(1.2)) == "1.20 \u00b1 0.20 mm");
    MagnetFinding magnet;
    magnet.slivers = {sliver(1.2)};
    CHECK_THAT(magnetSentence(magnet), Contains("the longest 1.20 \u00b1 0.20 mm"));
    magnet.slivers[0].leastSize = Millimetres(0.95);
    CHECK(longestSideWords(magnet.slivers[0]) == "at least 0.95 mm");
    CHECK_THAT(magnetSentence(magnet), Contains("the longest at least 0.95 mm"));
}

TEST_CASE("what the height of a magnet rests on is said") {
    CHECK_THAT(magnetHeightSentence(higherBy(HeightFrom::size)),
               Contains("6.0 \u00b1 1.0 mm") && Contains("by its size"));
    CHECK_THAT(magnetHeightSentence(higherBy(HeightFrom::usual)), Contains("estimated"));
    CHECK_THAT(magnetHeightSentence(higherBy(HeightFrom::hole)),
               Contains("estimated") && Contains("hole"));
    CHECK(magnetHeightSentence(MagnetFinding()).empty());
}

TEST_CASE("the fuzz over the visits stands in the workshop's report, in the customer's if it "
          "changed") {
    ReportModel model = handMadeModel();
    CoatAtVisit then, now;
    then.visit = 1;
    then.date = "2024-05-13";
    then.coveredShare = {Share(0.35), Share(0.02)};
    then.overhangMean = Millimetres(0.8);
    then.inWords = "F1, thin";
    now = then;
    now.visit = 4;
    now.date = "2025-06-14";
    now.coveredShare = {Share(0.62), Share(0.02)};
    now.inWords = "F2, covered";
    model.coats = {{then, now}, true, "There is more fuzz on the magnet than before."};
    const auto pages = [&](Reader reader) {
        return readPdf(pdfReport(model, a4Paper, reader)).text;
    };
    CHECK_THAT(pages(Reader::workshop), Contains("Fuzz on the magnet over the visits") &&
                                            Contains("35 \u00b1 4 %") &&
                                            Contains("62 \u00b1 4 %") && Contains("F2, covered"));
    CHECK_THAT(pages(Reader::customer), Contains("more fuzz on the magnet than before") &&
                                            !Contains("Fuzz on the magnet over the visits"));
    CHECK_THAT(reportText(model), Contains("35 \u00b1 4 % of the face under fuzz"));
    CHECK(reportJson(model)["magnet_coats"]["visits"].size() == 2);
    model.coats.changed = false;
    CHECK_THAT(pages(Reader::customer), !Contains("more fuzz on the magnet than before"));
    model.coats.visits[0].notLikeNow = "A magnet was added since.";
    CHECK_THAT(pages(Reader::workshop), Contains("A magnet was added since."));
}
