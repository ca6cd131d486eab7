// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "files/temporary_folder.h"
#include "record/trial_book.h"
#include "web/html.h"
#include "web/pages.h"

#include <string>
#include <vector>

/// A book with one invented vehicle and visit, and its pages.
namespace swarfbook::test {

inline /// A finding of a card whose window is 48 mm x 40 mm.
    Measurement
    findingWithWindow(const std::vector<std::byte>& bytes) {
    Measurement finding = findingOf(bytes);
    for (int row = 0; row < 5; ++row)
        for (int column = 0; column < 5; ++column)
            finding.card->grid.push_back({{20.0 + 12.0 * column, 15.0 + 10.0 * row}, {}});
    return finding;
}

struct TrialWorkshop {
    TemporaryFolder folder;
    std::filesystem::path book = folder / "book";
    std::int64_t visit = 0;
    std::vector<std::string> told;
    std::optional<web::Workshop> workshop;

    explicit TrialWorkshop(const std::string& label = "DEMO-01",
                           const std::string& complaint = "slips in 3") {
        {
            Book made = Book::open(book);
            const Vehicle vehicle = made.addVehicle({0, label, "", "", "", "Demo 5"});
            Visit one;
            one.vehicleId = vehicle.id;
            one.date = "2025-03-14";
            one.odometerKm = 120000.0;
            one.complaint = complaint;
            visit = made.addVisit(one).id;
        }
        workshop.emplace(book, [this](const std::string& sentence) { told.push_back(sentence); });
        workshop->address = {"http://127.0.0.1:8420", ""};
    }

    web::Answer get(const std::string& path, const std::string& query = "") {
        return web::answerPaired(*workshop, {"GET", path, web::fieldsOf(query), {}, "", "1"});
    }
    web::Answer post(const std::string& path, const std::string& form) {
        return web::answerPaired(*workshop, {"POST", path, {}, web::fieldsOf(form), form, "1"});
    }
    /// The address of a page of the visit.
    [[nodiscard]] std::string at(const std::string& page) const {
        return "/visit/" + std::to_string(visit) + page;
    }
    std::vector<StoredObservation> observed() {
        return workshop->book.read([&](const Book& read) { return read.observations(visit); });
    }
    StoredPhoto addTrialPhoto() {
        Book open = Book::open(book);
        return open.addPhoto(newPhoto(visit), photoBytes(1), findingWithWindow(photoBytes(1)))
            .photo;
    }
};

} // namespace swarfbook::test
