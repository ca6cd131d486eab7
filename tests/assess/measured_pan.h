// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <cstddef>
#include <limits>
#include <string>

namespace swarfbook::test {

inline Particle sliver() {
    Particle p;
    p.id = 1;
    p.centre = {61.2, 44.03};
    p.maxFeret = {Millimetres(0.84), Millimetres(0.03)};
    p.minFeret = {Millimetres(0.51), Millimetres(0.03)};
    p.area = {SquareMillimetres(0.31), SquareMillimetres(0.02)};
    p.length = Millimetres(0.86);
    p.sizeClass = "J";
    p.type = ParticleType::brightMetal;
    p.debrisProbability = 0.64;
    p.typeProbability = 0.91;
    p.glint = 3.4;
    p.said.photo = TypeSaid{p.type, p.typeProbability};
    p.outline = {{60.9, 43.8}, {61.5, 43.9}, {61.123456, 44.3}};
    return p;
}

inline DebrisFinding someDebris() {
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(0.21);
    debris.resolutionLimit = Millimetres(0.105);
    debris.windowArea = SquareCentimetres(117.0);
    debris.measuredArea = SquareCentimetres(112.4);
    debris.leftOut = {{"glare", {{50.1, 40.2}, {52.0, 40.2}, {51.0, 43.0}}}};
    debris.particles = {sliver()};
    ClassCount j{"J", Micrometres(600), Micrometres(1000), 4, 4.1, 3.6, 1.0, 9.2};
    j.byType[static_cast<std::size_t>(ParticleType::brightMetal)] = 3;
    j.byType[static_cast<std::size_t>(ParticleType::lining)] = 1;
    ClassCount n{"N", Micrometres(3000), Micrometres(std::numeric_limits<double>::infinity())};
    n.complete = false;
    debris.counts = {j, n};
    debris.sizeSampling = SizeSampling{
        40, Millimetres(0.31), Millimetres(0.27), Millimetres(0.35), 1.6, 0.15, 0.62, 377};
    debris.code = "A(J7/N00)";
    return debris;
}

/// A measured pan with every kind of thing that a measurement holds.
inline Measurement measuredPan() {
    Measurement m;
    m.photo = {"pan.jpg", std::string(64, 'a'), 4000, 3000, 6, "2025-03-14T10:12:00", 26.0};
    m.place = Place::pan;
    CardFacts card;
    card.layout = "wide";
    card.printScale = {0.996, 0.0004, true};
    card.markersUsed = 10;
    card.residual = Pixels(0.21);
    card.tilt = Degrees(11.8);
    card.scale = PixelsPerMillimetre(19.4);
    card.scaleUPercent = 0.08;
    card.grid = {{{30.0, 25.0}, {701.2, 498.8}}};
    m.card = card;
    m.edgeWidth = Pixels(2.1);
    m.edgeWidthOnCard = Millimetres(0.11);
    m.cautions = {"The card is bent."};
    m.edgesOverWindow = {{{30.0, 25.0}, Pixels(2.1), Pixels(2.4)}};
    m.debris = someDebris();
    m.debris->alsoOnCleanReference = 12;
    CleanReferenceUse cleanReference;
    cleanReference.file = "pan-clean.jpg";
    cleanReference.sha256 = std::string(64, 'b');
    cleanReference.used = true;
    cleanReference.byTexture = true;
    cleanReference.likeness = 0.83;
    cleanReference.shift = {1.2, -0.4};
    cleanReference.turn = Degrees(0.8);
    cleanReference.coveredShare = 0.97;
    m.cleanReference = cleanReference;
    return m;
}

} // namespace swarfbook::test
