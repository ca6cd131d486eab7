// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "record/book.h"

#include <optional>
#include <string>

namespace swarfbook::cli {

/// Looks the check bar of a card up in the book, by the serial that the card's code says. The book
/// must outlive it.
BarOfCard barsOf(const Book& book);

/// The book that --book names, else the usual one if it exists and can be read. A photo can be
/// measured without a book, so a usual book that cannot be read counts as no book. Throws as
/// bookToRead does for a book that was named.
std::optional<Book> bookIfThere(const std::optional<std::string>& named);

/// The same as barsOf in the book of bookIfThere. It is opened when a code is read. Without a book
/// no bar is known.
BarOfCard barsOfBookThere(const std::optional<std::string>& named);

/// What is to be done so that the true scale of this card is known: where its code was read and no
/// check bar was found for it. Else "".
/// @param book  null if no book could be opened.
std::string cardCaution(const Book* book, const std::optional<CardFacts>& card);

/// Throws UsageError when the code on the card says another serial than was typed.
/// @param typed  "" when none was.
void requireSameCard(const std::string& photo, const std::optional<CardFacts>& card,
                     const std::string& typed);

} // namespace swarfbook::cli
