// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/card_in_photo.h"

#include "base/card_serial.h"
#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

namespace swarfbook {

BarOfCard barsOf(const Book& book) {
    return [&book](const std::string& serial,
                   const std::string& layout) -> std::optional<Millimetres> {
        const auto card = book.card(serial);
        if (!card || card->layout != layout || !card->measuredBarMm)
            return std::nullopt;
        return Millimetres(*card->measuredBarMm);
    };
}

std::string cardCaution(const Book* book, const std::optional<CardFacts>& card) {
    if (!card || card->printScale.checked || !isCodedSerial(card->serial))
        return "";
    const auto known = book == nullptr ? std::nullopt : book->card(card->serial);
    const std::string measure = fmt::format(
        "Measure its check bar with callipers and keep it: swarfbook card --serial {}{} "
        "--measured-bar MM.",
        card->serial, known ? "" : " --layout " + card->layout);
    if (!known)
        return fmt::format("The code on the card says {}, a card that {}, so its "
                           "print scale is not checked. {}",
                           card->serial,
                           book == nullptr ? "no book here knows" : "this book does not know",
                           measure);
    if (known->layout != card->layout)
        return fmt::format("The code on the card says {}, which is a {} card in the book, but the "
                           "photo shows a {} card. Print a new card.",
                           card->serial, known->layout, card->layout);
    return fmt::format("The check bar of card {} is not in the book, so its print scale is not "
                       "checked. {}",
                       card->serial, measure);
}

void requireSameCard(const std::string& photo, const std::optional<CardFacts>& card,
                     const std::string& typed) {
    if (typed.empty() || !card || lowered(card->serial) == lowered(typed))
        return;
    throw UsageError(fmt::format(
        "{} shows card {}, as the code printed on it says, and --serial says {}. Which is it? "
        "Leave --serial away to go by the code, or take the photo with card {}. Nothing was kept.",
        photo, card->serial, typed, typed));
}

} // namespace swarfbook
