// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/report_words.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("distances are grouped by thousands") {
    CHECK(distanceWords(0.0) == "0 km");
    CHECK(distanceWords(999.4) == "999 km");
    CHECK(distanceWords(1000.0) == "1,000 km");
    CHECK(distanceWords(128400.0) == "128,400 km");
    CHECK(distanceWords(1234567.0) == "1,234,567 km");
}

// 1.96 standard uncertainties: the two-sided 95 % point of the normal distribution.
TEST_CASE("a length is given with its 95 % half-width") {
    CHECK(lengthWords({Millimetres(1.789), Millimetres(0.03)}) == "1.79 \u00b1 0.06 mm");
    CHECK(lengthWords({Millimetres(4.0), Millimetres(0.1)}) == "4.00 \u00b1 0.20 mm");
    // No length is claimed to be better than the last digit shown.
    CHECK(lengthWords({Millimetres(0.5), Millimetres(0.0)}) == "0.50 \u00b1 0.01 mm");
}

// Class limits of ISO 16232 (2018).
TEST_CASE("a size class is given in plain millimetres") {
    ClassCount row;
    row.from = Micrometres(200.0);
    row.to = Micrometres(400.0);
    CHECK(sizeWords(row) == "0.2 to 0.4 mm");
    row.from = Micrometres(3000.0);
    row.to = Micrometres(std::numeric_limits<double>::infinity());
    CHECK(sizeWords(row) == "3 mm and more");
}

TEST_CASE("doubtful pieces are counted, called doubtful and never named as the longest") {
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(0.2);
    Particle piece;
    piece.type = ParticleType::lining;
    piece.maxFeret = {Millimetres(1.0), Millimetres(0.03)};
    piece.debrisProbability = 0.8;
    debris.particles = {piece, piece};
    CHECK(doubtSentence(debris).empty());
    debris.particles.front().debrisProbability = 0.79;
    debris.particles.front().maxFeret.value = Millimetres(1.5);
    CHECK(doubtSentence(debris) == "1 of these is doubtful.");
    ReportedSample sample;
    sample.debris = debris;
    const std::string told = sampleSentence(sample);
    CHECK(told == "2 pieces of 0.20 mm or more. Longest piece: 1.00 \u00b1 0.06 mm (lining). 1 of "
                  "these is doubtful.");
}

TEST_CASE("a change without a ratio states its limit") {
    ReportedChange change;
    change.ratio = 2.4;
    change.low = 1.9;
    change.high = 3.0;
    CHECK(ratioWords(change) == "2.4 (1.9 to 3)");
    change.ratio.reset();
    change.high = std::numeric_limits<double>::infinity();
    CHECK(ratioWords(change) == "at least 1.9");
    change.low = 0.0;
    CHECK(ratioWords(change) == "no ratio can be given");
}

TEST_CASE("every outcome has a verdict of one or two sentences, and no evidence has none") {
    for (const swarfbook::Recommendation outcome :
         {swarfbook::Recommendation::outsideTheUnit, swarfbook::Recommendation::cleanAndRefit,
          swarfbook::Recommendation::replaceSolenoids, swarfbook::Recommendation::repairBores,
          swarfbook::Recommendation::replaceValveBody,
          swarfbook::Recommendation::openTheTransmission,
          swarfbook::Recommendation::notEnoughEvidence}) {
        Suggestion suggestion;
        suggestion.outcome = outcome;
        const std::string verdict = verdictSentence(suggestion);
        CHECK(verdict.size() > 20);
        CHECK(verdict.back() == '.');
    }
    CHECK(verdictSentence(std::nullopt).find("No verdict") == 0);
    Suggestion solenoids;
    solenoids.outcome = swarfbook::Recommendation::replaceSolenoids;
    solenoids.which = {"A", "C"};
    CHECK(verdictSentence(solenoids).find("solenoids A and C") != std::string::npos);
}

TEST_CASE("a sample names its longest piece and, separately, its longest thread") {
    const HandMadeCamera camera;
    ReportedSample sample;
    sample.debris = *emptyMeasurement(camera).debris;
    CHECK(sampleSentence(sample) ==
          "No piece found. The photo is complete down to 0.20 mm; smaller pieces may be there.");
    sample.debris.particles = {roundParticle(1, {}, 2.0, ParticleType::fibre),
                               roundParticle(2, {}, 0.5, ParticleType::lining)};
    CHECK(sampleSentence(sample) ==
          "2 pieces of 0.20 mm or more. Longest piece: 1.00 \u00b1 0.04 mm (lining). Longest "
          "thread: 4.00 \u00b1 0.04 mm.");
    sample.place = Place::magnet;
    CHECK(sampleSentence(sample).find("fuzz on the magnet itself was not measured.") !=
          std::string::npos);
    sample.refusal = Refusal{RefusalReason::tooDark, "it is dark", "switch the lamp on"};
    CHECK(sampleSentence(sample) == "Could not be measured: It is dark. Switch the lamp on.");
}

TEST_CASE("a place that was not looked at is named once") {
    ReportModel model = handMadeModel();
    model.notKnown = {"whether the bright metal is magnetic", ""};
    const std::vector<std::string> expected{"Not inspected: converter drain.",
                                            "Whether the bright metal is magnetic."};
    CHECK(notLookedAt(model) == expected);
}

TEST_CASE("pieces below the size limit are called a minimum count") {
    DebrisFinding debris = *emptyMeasurement(HandMadeCamera{}).debris;
    debris.particles = {roundParticle(1, {}, 0.5, ParticleType::lining),
                        roundParticle(2, {}, 0.08, ParticleType::lining)};
    CHECK(piecesWords(debris) == "1 piece of 0.20 mm or more and at least 1 smaller");
}
