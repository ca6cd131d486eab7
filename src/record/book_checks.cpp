// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/stored_values.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

/// Things that can be read lie apart; the same thing read again, by another known size or another
/// check bar, moves by less (our choice).
constexpr double movedMm = 1.0;
/// The readings of one thing differ by less when a known size is typed anew (our choice).
constexpr double readAgainMm = 0.01;

/// Whether two readings of one photo are of the same thing.
bool sameThing(const StoredCheck& a, const StoredCheck& b) {
    if (a.at && b.at)
        return std::hypot(a.at->x - b.at->x, a.at->y - b.at->y) <=
               std::max(movedMm, std::min(a.readingMm, b.readingMm) / 2.0);
    if ((a.thing == "ball") != (b.thing == "ball")) // what is seen as a bar is never read as a ball
        return false;
    return a.knownMm == b.knownMm || std::abs(a.readingMm - b.readingMm) < readAgainMm;
}

StoredCheck checkFrom(const Statement& row, const std::string& where) {
    const StoredRow checked{where, fmt::format("reading {}", row.integer(0))};
    StoredCheck check;
    check.id = row.integer(0);
    check.photoSha256 = checked.sha256(row.text(1));
    check.knownText = row.text(2);
    check.knownMm = checked.lengthMm(row.real(3));
    check.knownUMm = checked.lengthMm(row.real(4));
    check.thing = row.text(5);
    check.readingMm = checked.lengthMm(row.real(6));
    check.readingUMm = checked.lengthMm(row.real(7));
    check.seenBy = row.text(8);
    check.phone = row.text(9);
    check.layout = checked.layout(row.text(10));
    check.serial = row.text(11);
    check.printScaleChecked = row.integer(12) != 0;
    check.programVersion = row.text(13);
    check.checkedAt = checked.moment(row.text(14));
    if (row.real(15) || row.real(16))
        check.at = {checked.coordinateMm(row.real(15)), checked.coordinateMm(row.real(16))};
    return check;
}

} // namespace

double StoredCheck::expandedMm() const {
    return 2.0 * std::hypot(readingUMm, knownUMm);
}

bool StoredCheck::agrees() const {
    return std::abs(offMm()) <= expandedMm();
}

StoredCheck Book::addCheck(const StoredCheck& given) {
    StoredCheck check = given;
    check.seenBy = checkedLine("The name of who took the photo", given.seenBy);
    check.phone = checkedLine("The phone's name", given.phone);
    check.serial = checkedLine("The card's serial number", given.serial, 30);
    check.checkedAt = nowUtc();
    BookTransaction transaction = begin();
    Statement insert = database_->prepare(
        "INSERT INTO thing_check (photo_sha256, known_text, known_mm, known_u_mm, thing, "
        "reading_mm, reading_u_mm, seen_by, phone, layout, serial, print_scale_checked, "
        "program_version, checked_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    insert.with(check.photoSha256, check.knownText, std::optional(check.knownMm),
                std::optional(check.knownUMm), check.thing, std::optional(check.readingMm),
                std::optional(check.readingUMm), check.seenBy, check.phone, check.layout,
                check.serial, check.printScaleChecked, check.programVersion, check.checkedAt);
    insert.run();
    check.id = database_->lastInsertedId();
    if (check.at)
        database_->prepare("INSERT INTO check_place (check_id, x_mm, y_mm) VALUES (?, ?, ?)")
            .with(check.id, std::optional(check.at->x), std::optional(check.at->y))
            .run();
    transaction.commit();
    return check;
}

std::vector<StoredCheck> Book::checks() const {
    Statement query = database_->prepare(
        fmt::format("SELECT id, photo_sha256, known_text, known_mm, known_u_mm, thing, reading_mm, "
                    "reading_u_mm, seen_by, phone, layout, serial, print_scale_checked, "
                    "program_version, checked_at, x_mm, y_mm FROM thing_check LEFT JOIN "
                    "check_place ON check_id = id WHERE id NOT IN {} ORDER BY id DESC",
                    withdrawnCheckNumbers));
    std::map<std::string, std::vector<StoredCheck>> newer; // by photo
    std::vector<StoredCheck> all;
    while (query.step()) {
        const StoredCheck check = checkFrom(query, database_->where());
        auto& ofPhoto = newer[check.photoSha256];
        if (std::none_of(ofPhoto.begin(), ofPhoto.end(),
                         [&](const StoredCheck& one) { return sameThing(one, check); }))
            all.push_back(check);
        ofPhoto.push_back(check);
    }
    std::reverse(all.begin(), all.end());
    return all;
}

} // namespace swarfbook
