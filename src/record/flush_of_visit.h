// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "record/book.h"

#include <optional>
#include <string_view>
#include <vector>

namespace swarfbook {

/// A flush of the book with all its passes counted together. `photos` are those of its visit, as
/// Book::photos gives them: pieces as corrected by hand.
FlushOfPart countedFlush(const StoredFlush& flush, const std::vector<StoredPhoto>& photos);

/// All flushes of a visit that have a pass, oldest first.
/// Checked: tests/record/book_flushes_test.cpp.
std::vector<FlushOfPart> flushesOfVisit(const Book& book, std::int64_t visitId,
                                        const std::vector<StoredPhoto>& photos);

/// What the clean tray showed, as the book stores it; nothing where that is damaged.
std::optional<Measurement> cleanTrayFromText(std::string_view stored);

} // namespace swarfbook
