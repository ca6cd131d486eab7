// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed.h"
#include "entry/measure_for_book.h"
#include "record/book.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// What it takes to keep the log of a part that is flushed, for verbs and pages.
/// Checked: tests/cli/flush_test.cpp, tests/web/flush_pages_test.cpp.
namespace swarfbook {

/// A photo as it came: its name and its bytes.
struct PhotoGiven {
    std::string file;
    std::span<const std::byte> bytes{};
};

/// The part as the unit's chart calls it. UsageError for one that the chart does not have and that
/// is not meant as typed.
std::string partToFlush(const Book& book, const Visit& visit, const std::string& typed, Sure sure);

/// EvidenceRefused, with the photo's own advice, where a photo of the tray cannot be counted.
/// @param what  begins the sentence: "The photo of the clean tray".
void requireCounted(const Measurement& tray, std::string_view what);

/// Begins a flush. `begun.tray` is what the photo of the clean tray shows by itself, if there is
/// one. One transaction. UsageError where a flush of the part was begun at this visit that has no
/// pass yet, and there is no photo of the clean tray to begin anew with.
StoredFlush beginFlush(Book& book, NewFlush begun, const PhotoGiven& tray);

/// The clean tray of the flush, as a photo of the cleaned place; null if the flush has none.
std::shared_ptr<const PhotoFile> cleanTrayOf(const Book& book, const StoredFlush& flush);

/// A photo of these bytes that the book has already and that was measured as this flush measures;
/// nothing otherwise.
std::optional<StoredPhoto> measuredForFlush(const Book& book, const std::string& sha256,
                                            const StoredFlush& flush);

/// A pass as it is to be kept.
struct PassToKeep {
    FlushStep step = FlushStep::wash;
    HowMeasured how{}; ///< how the photo was measured
    Measurement found{};
    bool measuredBefore = false; ///< it is that of measuredForFlush
};

/// Keeps a pass with its photo, in one transaction. UsageError where an earlier pass has a card of
/// another layout: counts are compared, so every pass has to show as much of the tray. @return the
/// photo.
StoredPhoto keepPass(Book& book, const StoredFlush& flush, const PhotoGiven& photo,
                     const PassToKeep& pass);

} // namespace swarfbook
