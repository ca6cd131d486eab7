// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/stored_values.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {

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
    transaction.commit();
    return check;
}

std::vector<StoredCheck> Book::checks() const {
    Statement query = database_->prepare(
        "SELECT id, photo_sha256, known_text, known_mm, known_u_mm, thing, reading_mm, "
        "reading_u_mm, seen_by, phone, layout, serial, print_scale_checked, program_version, "
        "checked_at FROM thing_check AS one WHERE id = (SELECT max(id) FROM thing_check AS other "
        "WHERE other.photo_sha256 = one.photo_sha256 AND (other.known_mm = one.known_mm OR "
        "abs(other.reading_mm - one.reading_mm) < 0.01)) " // ours: read twice, off by less
        "ORDER BY id");
    std::vector<StoredCheck> all;
    while (query.step()) {
        const StoredRow checked{database_->where(), fmt::format("check {}", query.integer(0))};
        StoredCheck check;
        check.id = query.integer(0);
        check.photoSha256 = checked.sha256(query.text(1));
        check.knownText = query.text(2);
        check.knownMm = checked.lengthMm(query.real(3));
        check.knownUMm = checked.lengthMm(query.real(4));
        check.thing = query.text(5);
        check.readingMm = checked.lengthMm(query.real(6));
        check.readingUMm = checked.lengthMm(query.real(7));
        check.seenBy = query.text(8);
        check.phone = query.text(9);
        check.layout = checked.layout(query.text(10));
        check.serial = query.text(11);
        check.printScaleChecked = query.integer(12) != 0;
        check.programVersion = query.text(13);
        check.checkedAt = checked.moment(query.text(14));
        all.push_back(std::move(check));
    }
    return all;
}

} // namespace swarfbook
