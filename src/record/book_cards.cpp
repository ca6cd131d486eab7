// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/card_serial.h"
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/stored_values.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

PrintedCard cardFrom(const Statement& row, const Database& database) {
    const StoredRow checked{database.where(), fmt::format("card {:.30}", row.text(0))};
    const auto bar = row.real(2);
    if (bar)
        (void)checked.lengthMm(bar);
    return {checked.key(row.text(0), 100), checked.layout(row.text(1)), bar,
            checked.moment(row.text(3))};
}

PrintedCard checkedCard(const PrintedCard& given) {
    PrintedCard card = given;
    card.serial = checkedLine("The card's serial number", given.serial, 30);
    if (card.serial.empty())
        throw UsageError("A printed card needs its serial number, such as K7Q-M4X.");
    if (card.measuredBarMm && !(std::isfinite(*card.measuredBarMm) && *card.measuredBarMm > 0.0))
        throw UsageError(fmt::format("A check bar of {} mm is impossible. Give the length that "
                                     "callipers read, such as 79.6.",
                                     *card.measuredBarMm));
    return card;
}

} // namespace

PrintedCard Book::saveCard(const PrintedCard& given) {
    PrintedCard card = checkedCard(given);
    BookTransaction transaction = begin();
    if (const auto known = this->card(card.serial)) {
        if (!card.layout.empty() && card.layout != known->layout)
            throw UsageError(fmt::format("Card {} is in the book as a {} card, not a {} one. Check "
                                         "the serial number printed on it.",
                                         known->serial, known->layout, card.layout));
        card.serial = known->serial;
        card.layout = known->layout;
        card.printedAt = known->printedAt;
        if (!card.measuredBarMm)
            card.measuredBarMm = known->measuredBarMm;
    }
    if (card.layout.empty())
        throw UsageError(fmt::format("There is no card {} in the book. Say which layout it is with "
                                     "--layout close or --layout wide.",
                                     card.serial));
    if (card.printedAt.empty())
        card.printedAt = nowUtc();
    database_
        ->prepare("INSERT INTO card (serial, layout, measured_bar_mm, printed_at) "
                  "VALUES (?, ?, ?, ?) ON CONFLICT (serial) DO UPDATE "
                  "SET measured_bar_mm = excluded.measured_bar_mm")
        .with(card.serial, card.layout, card.measuredBarMm, card.printedAt)
        .run();
    transaction.commit();
    return card;
}

std::optional<PrintedCard> Book::card(const std::string& serial) const {
    Statement query = database_->prepare(
        "SELECT serial, layout, measured_bar_mm, printed_at FROM card WHERE serial = ?");
    if (!query.with(checkedLine("The card's serial number", serial)).step())
        return std::nullopt;
    return cardFrom(query, *database_);
}

std::vector<PrintedCard> Book::cards() const {
    Statement query = database_->prepare(
        "SELECT serial, layout, measured_bar_mm, printed_at FROM card ORDER BY printed_at, rowid");
    std::vector<PrintedCard> all;
    while (query.step())
        all.push_back(cardFrom(query, *database_));
    return all;
}

std::string Book::nextSerial() const {
    std::string serial = newCardSerial();
    while (card(serial))
        serial = newCardSerial();
    return serial;
}

} // namespace swarfbook
