// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/sha256.h"
#include "bench/observation.h"
#include "files/temporary_folder.h"
#include "particles/size_sampling.h"
#include "record/book.h"
#include "report/hand_made.h"
#include "report/picture_bytes.h"
#include "report/report_from_book.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook::test {

inline const std::string plate = "INVENTED 7", vin = "NOTAREALVIN000007";

inline std::vector<std::byte> photoFile(const HandMadeCamera& camera, int lightness) {
    const std::vector<unsigned char> bytes = pngBytes(greyPhoto(camera, lightness));
    std::vector<std::byte> file;
    for (const unsigned char byte : bytes)
        file.push_back(static_cast<std::byte>(byte));
    return file;
}

/// A book on disk with one invented vehicle; visits are added by the tests.
class TrialBook {
  public:
    TrialBook() : book_(Book::open(folder_.path())) {
        Vehicle vehicle;
        vehicle.label = "DEMO-07";
        vehicle.plate = plate;
        vehicle.vin = vin;
        vehicle_ = book_.addVehicle(vehicle).id;
    }
    std::int64_t visit(const std::string& date, double km, std::optional<double> sinceClean) {
        Visit visit;
        visit.vehicleId = vehicle_;
        visit.date = date;
        visit.odometerKm = km;
        visit.sinceCleanKm = sinceClean;
        return book_.addVisit(visit).id;
    }
    /// A photo of the white card with `pieces` of bright metal, 0.6 mm across.
    void photo(std::int64_t visit, int pieces, const std::string& sampling = "all of the pan") {
        std::vector<Particle> particles;
        for (int i = 0; i < pieces; ++i)
            particles.push_back(
                roundParticle(i + 1, placeOfPiece(i), 0.3, ParticleType::brightMetal));
        photo(visit, std::move(particles), sampling);
    }
    void photo(std::int64_t visit, std::vector<Particle> pieces,
               const std::string& sampling = "all of the pan") {
        const HandMadeCamera camera;
        const std::vector<std::byte> file = photoFile(camera, 100 + static_cast<int>(visit));
        Measurement measurement = emptyMeasurement(camera);
        measurement.debris->particles = std::move(pieces);
        countParticles(measurement);
        measurement.debris->sizeSampling = sizeSampling(measurement.debris->particles, true);
        measurement.photo.sha256 = sha256Hex(file);
        book_.addPhoto({visit, Place::pad, "pad.png", sampling, "{}", "9.9.9"}, file, measurement);
    }
    /// Places side by side, without overlap, for pieces up to 2 mm across.
    static PointOnCard placeOfPiece(int i) {
        return {24.0 + 2.0 * (i % 28), 22.0 + 3.0 * (i / 28)};
    }
    /// Corrects the piece at a place of the visit's only photo; "" takes the correction back.
    void correct(std::int64_t visit, PointOnCard at, const std::string& said) {
        book_.correctPiece(book_.photos(visit).front().id, {at, said, {"M.", ""}, ""});
    }
    void observe(std::int64_t visit, const Observation& observation) {
        StoredObservation stored;
        stored.visitId = visit;
        stored.kind = observationKind(observation);
        stored.json = toJson(observation).dump();
        book_.addObservation(stored);
    }
    [[nodiscard]] const Book& book() const { return book_; }
    [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

  private:
    TemporaryFolder folder_;
    Book book_;
    std::int64_t vehicle_ = 0;
};

inline ReportOptions options() {
    return {SWARFBOOK_SOURCE_DIR "/models", "9.9.9", "Kestrel Lane Transmissions", false};
}

} // namespace swarfbook::test
