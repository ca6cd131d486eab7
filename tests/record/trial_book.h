// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/sha256.h"
#include "record/book.h"

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

/// Invented entries for the tests of the book.
namespace swarfbook::test {

inline std::vector<std::byte> bytesOf(const std::string& text) {
    const auto* first = reinterpret_cast<const std::byte*>(text.data());
    return {first, first + text.size()};
}

/// Bytes that begin like a JPEG file and are different for every number.
inline std::vector<std::byte> photoBytes(int number, std::size_t size = 20000) {
    std::vector<std::byte> bytes = bytesOf("\xFF\xD8\xFF\xE0");
    auto state = static_cast<unsigned>(number) * 2654435761U + 1U;
    while (bytes.size() < size) {
        state = state * 1664525U + 1013904223U;
        bytes.push_back(static_cast<std::byte>(state >> 24U));
    }
    return bytes;
}

/// A finding with a card, two particles and their counts, for these bytes.
inline Measurement findingOf(const std::vector<std::byte>& bytes, Place place = Place::pan) {
    Measurement finding;
    finding.photo = {"pan.jpg", sha256Hex(bytes), 4000, 3000, 6, "2025-03-14T10:12:00", 26.0};
    finding.place = place;
    CardFacts card;
    card.layout = "close";
    card.serial = "C0001";
    card.printScale = {0.995, 0.001, true};
    card.markersUsed = 10;
    card.residual = Pixels(0.25);
    card.tilt = Degrees(11.5);
    card.scale = PixelsPerMillimetre(38.5);
    card.scaleUPercent = 0.08;
    card.mapping.h = cv::Matx33d(0.01, 0.001, 0.2, -0.002, 0.011, 0.3, 1e-5, 2e-5, 1.0);
    card.mapping.focal = 3200.0;
    card.mapping.centre = {1999.5, 1499.5};
    card.mapping.k1 = -0.0123456789012345;
    card.mapping.k2 = 0.002;
    finding.card = card;
    finding.edgeWidth = Pixels(2.0);
    finding.edgeWidthOnCard = Millimetres(0.05);
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(0.21);
    debris.windowArea = SquareCentimetres(24.0);
    debris.measuredArea = SquareCentimetres(23.0);
    for (const int id : {1, 2}) {
        Particle particle;
        particle.id = id;
        particle.centre = {30.0 + id, 20.0};
        particle.maxFeret = {Millimetres(0.9 / id), Millimetres(0.03)};
        particle.minFeret = {Millimetres(0.5 / id), Millimetres(0.03)};
        particle.outline = {{30.0, 20.0}, {31.0, 20.0}, {31.0, 21.0}};
        debris.particles.push_back(particle);
    }
    finding.debris = debris;
    return finding;
}

/// The finding in a card's window of 60 mm x 40 mm, which its counts rest on.
inline Measurement inWindow(Measurement finding) {
    for (const double x : {0.0, 60.0})
        for (const double y : {0.0, 40.0})
            finding.card->grid.push_back({{x, y}, {}});
    return finding;
}

inline NewPhoto newPhoto(std::int64_t visitId, Place place = Place::pan) {
    return {visitId, place, "pan.jpg", "floor wiped", R"({"place":"pan"})", "0.1.0"};
}

inline Visit visitOn(std::int64_t vehicleId, const std::string& date,
                     std::optional<double> odometerKm = std::nullopt) {
    Visit visit;
    visit.vehicleId = vehicleId;
    visit.date = date;
    visit.odometerKm = odometerKm;
    return visit;
}

inline Vehicle labelled(const std::string& label) {
    Vehicle vehicle;
    vehicle.label = label;
    return vehicle;
}

} // namespace swarfbook::test
