// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "scenario.h"

/// Photos of debris as a measured visit has them.
namespace swarfbook::test {

inline Particle debrisPiece(double mm, ParticleType type, double probability = 0.95) {
    Particle p;
    p.maxFeret = {Millimetres(mm), Millimetres(0.02)};
    p.type = type;
    p.typeProbability = probability;
    return p;
}

inline DebrisSample debrisPhoto(Place place, std::vector<Particle> particles) {
    DebrisSample sample;
    sample.place = place;
    sample.sampling = "whole floor";
    sample.photoName = "pan.jpg";
    sample.finding.emplace();
    sample.finding->onWhiteCard = true;
    sample.finding->detectionLimit = Millimetres(0.2);
    sample.finding->measuredArea = SquareCentimetres(28);
    sample.finding->particles = std::move(particles);
    return sample;
}

inline Suggestion suggestionWith(std::vector<DebrisSample> samples,
                                 std::vector<Observation> observations) {
    Evidence evidence = evidenceOf(std::move(observations));
    evidence.now.samples = std::move(samples);
    return suggest(evidence, suggestionModel());
}

inline Observation drivesWell() {
    return observed("complaint", R"({"symptom": "good"})");
}

} // namespace swarfbook::test
