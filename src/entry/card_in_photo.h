// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "record/book.h"

#include <optional>
#include <string>

namespace swarfbook {

/// Looks the check bar of a card up in the book, by the serial that the card's code says. The book
/// must outlive it.
BarOfCard barsOf(const Book& book);

/// What is to be done so that the true scale of this card is known: where its code was read and no
/// check bar was found for it. Else "".
/// @param book  null if no book could be opened.
std::string cardCaution(const Book* book, const std::optional<CardFacts>& card);

/// Throws UsageError when the code on the card says another serial than was typed.
/// @param typed  "" when none was.
void requireSameCard(const std::string& photo, const std::optional<CardFacts>& card,
                     const std::string& typed);

} // namespace swarfbook
