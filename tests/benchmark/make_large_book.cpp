// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "benchmark/make_large_book.h"

#include "base/sha256.h"
#include "bench/observation.h"
#include "record/book.h"
#include "record/database.h"
#include "record/finding_text.h"

#include <fmt/format.h>

#include <cmath>
#include <random>
#include <span>

namespace swarfbook::test {
namespace {

/// A finding of a white card with some thirty pieces.
Measurement plausibleFinding(std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    Measurement finding;
    finding.photo = {"pan.jpg", std::string(64, '0'), 4000, 3000, 1, "2025-03-14T10:12:00", 26.0};
    finding.place = Place::pad;
    CardFacts card;
    card.layout = "close";
    card.serial = "C0001";
    card.printScale = {0.995, 0.001, true};
    card.markersUsed = 10;
    card.residual = Pixels(0.25);
    card.scale = PixelsPerMillimetre(38.5);
    card.mapping.h = cv::Matx33d(0.01, 0.001, 0.2, -0.002, 0.011, 0.3, 1e-5, 2e-5, 1.0);
    card.mapping.focal = 3200.0;
    finding.card = card;
    finding.edgeWidth = Pixels(2.0);
    finding.edgeWidthOnCard = Millimetres(0.05);
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(0.21);
    debris.windowArea = SquareCentimetres(24.0);
    debris.measuredArea = SquareCentimetres(23.0);
    const int pieces = static_cast<int>(between(15.0, 45.0));
    for (int id = 1; id <= pieces; ++id) {
        Particle piece;
        piece.id = id;
        piece.centre = {between(22.0, 80.0), between(20.0, 60.0)};
        const double size = between(0.2, 2.0);
        piece.maxFeret = {Millimetres(size), Millimetres(0.03)};
        piece.minFeret = {Millimetres(0.6 * size), Millimetres(0.03)};
        for (int corner = 0; corner < 12; ++corner)
            piece.outline.push_back({piece.centre.x + size * std::cos(0.52 * corner) / 2.0,
                                     piece.centre.y + size * std::sin(0.52 * corner) / 2.0});
        debris.particles.push_back(piece);
    }
    finding.debris = debris;
    return finding;
}

/// The sum that a photo of this number is said to have.
std::string sumOf(int photo) {
    const std::string text = fmt::format("photo {}", photo);
    return sha256Hex(std::as_bytes(std::span(text)));
}

/// Sixty findings as stored, each to stand for many photos.
std::vector<FindingText> someFindings() {
    std::mt19937 random(20260801);
    std::vector<FindingText> all;
    for (int i = 0; i < 60; ++i)
        all.push_back(findingText(plausibleFinding(random)));
    return all;
}

void addVehicles(Database& book, const LargeBook& size) {
    for (int i = 0; i < size.vehicles; ++i)
        book.prepare("INSERT INTO vehicle (label, plate, vin, note, unit, added_at) "
                     "VALUES (?, '', '', 'invented', 'Demo 5', '2025-01-01T00:00:00Z')")
            .with(fmt::format("DEMO-{:05}", i + 1))
            .run();
}

void addObservations(Database& book, std::int64_t visit) {
    const auto add = [&](const Observation& observation) {
        book.prepare("INSERT INTO observation (visit_id, kind, json, recorded_at) "
                     "VALUES (?, ?, ?, '2025-03-14T10:00:00Z')")
            .with(visit, observationKind(observation), toJson(observation).dump())
            .run();
    };
    Codes codes;
    codes.codes = {"P0733"};
    add(codes);
    SolenoidReadings solenoid;
    solenoid.name = "A";
    solenoid.resistance = Typed<Ohms>{Ohms(12.6), "12.6 ohm"};
    add(solenoid);
    RepairResult outcome;
    outcome.held = Held::fixed;
    if (visit % 20 == 0)
        add(outcome);
}

void addVisits(Database& book, const LargeBook& size) {
    for (int visit = 0; visit < size.visits(); ++visit) {
        const int vehicle = visit % size.vehiclesWithHistory + 1;
        const int round = visit / size.vehiclesWithHistory;
        book.prepare("INSERT INTO visit (vehicle_id, date, odometer_km, odometer_replaced, "
                     "complaint, looked_by, since_clean_km, last_clean, added_at) "
                     "VALUES (?, ?, ?, 0, 'slips when warm', 'A. Example', 15000, '', "
                     "'2025-03-14T10:00:00Z')")
            .with(static_cast<std::int64_t>(vehicle), fmt::format("20{:02}-03-14", 20 + round),
                  std::optional<double>(60000.0 + 20000.0 * round))
            .run();
        addObservations(book, visit + 1);
    }
}

void addPhotos(Database& book, const LargeBook& size) {
    const std::vector<FindingText> findings = someFindings();
    for (int photo = 0; photo < size.photos; ++photo) {
        const std::string sum = sumOf(photo);
        book.prepare("INSERT INTO photo (visit_id, place, sha256, extension, byte_count, "
                     "file_name, sampling, added_at) VALUES (?, 'pad', ?, 'jpg', 4000000, "
                     "'pan.jpg', 'floor wiped', '2025-03-14T10:00:00Z')")
            .with(static_cast<std::int64_t>(photo % size.visits() + 1), sum)
            .run();
        const FindingText& finding = findings[static_cast<std::size_t>(photo) % findings.size()];
        std::string measurement = finding.measurement;
        measurement.replace(measurement.find(std::string(64, '0')), 64, sum);
        book.prepare("INSERT INTO finding (photo_id, measurement, mapping, options, "
                     "program_version, measured_at) VALUES (?, ?, ?, '{\"place\":\"pad\"}', "
                     "'0.1.0', '2025-03-14T10:00:00Z')")
            .with(book.lastInsertedId(), measurement, finding.mapping)
            .run();
    }
}

} // namespace

void makeLargeBook(const std::filesystem::path& folder, const LargeBook& size) {
    { const Book made = Book::open(folder, IfNoBook::startOne); }
    Database book(folder / "book.db", "the large book");
    BookTransaction transaction(book);
    addVehicles(book, size);
    addVisits(book, size);
    addPhotos(book, size);
    transaction.commit();
}

} // namespace swarfbook::test
