// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "record/book.h"

#include <optional>
#include <string>

namespace swarfbook::cli {

/// The book that --book names, else the usual one if it exists and can be read. A photo can be
/// measured without a book, so a usual book that cannot be read counts as no book. Throws as
/// bookToRead does for a book that was named.
std::optional<Book> bookIfThere(const std::optional<std::string>& named);

/// The same as barsOf in the book of bookIfThere. It is opened when a code is read. Without a book
/// no bar is known.
BarOfCard barsOfBookThere(const std::optional<std::string>& named);

} // namespace swarfbook::cli
