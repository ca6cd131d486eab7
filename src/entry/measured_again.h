// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "entry/measured_before.h"

#include <optional>
#include <string>

namespace swarfbook {

/// A photo of the book that this program measured again.
struct MeasuredAgain {
    StoredPhoto photo; ///< with its finding from before
    std::string options;
    std::optional<Measurement> finding; ///< nothing where its original is lost
    std::string lost;                   ///< why
    /// It is refused now and was not before.
    [[nodiscard]] bool isWorse() const { return finding->refusal && !photo.measurement.refusal; }
};

/// Measures a photo again as it was measured before, with what the visit says of its magnets now.
/// Keeps nothing.
MeasuredAgain measuredAgain(const Book& book, const AssessData& data, KeptSecondPhotos& seconds,
                            const StoredPhoto& photo);

/// What became of it in the book.
enum class KeptAgain {
    kept,
    lost,  ///< the original
    moved, ///< to another visit or place meanwhile; nothing was kept
    worse  ///< the finding from before still counts
};

/// Keeps the finding beside the old ones unless something speaks against it.
/// Checked: tests/web/measure_again_test.cpp, tests/cli/magnet_test.cpp.
KeptAgain keepMeasuredAgain(Book& book, const MeasuredAgain& again);

} // namespace swarfbook
