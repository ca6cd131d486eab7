// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What is done to a part in one pass of a flush.
enum class FlushStep { wash, demagnetise, air, hot };
/// "wash", "demagnetise", "air", "hot".
std::string_view flushStepName(FlushStep step);
/// Inverse of flushStepName; throws std::invalid_argument.
FlushStep flushStepFromName(std::string_view name);

/// What a pass washed out as a share of all that the passes so far washed out, 0 to 1, with its
/// 95 % interval.
struct DecayRatio {
    double ratio = 0.0, low = 0.0, high = 0.0;
};

enum class FlushVerdict {
    notKnown,     ///< a pass was not counted, or there is none
    nothingCame,  ///< no pass washed out anything that counts
    goOn,         ///< the last pass washed out more than a tenth of all
    clean,        ///< the last pass washed out a tenth of all or less
    changeMethod, ///< not reached within six passes
};

/// How a flush goes down.
struct FlushDecay {
    std::vector<std::optional<DecayRatio>>
        ratios; ///< after each pass; none while nothing came, and from a pass not counted on
    FlushVerdict verdict = FlushVerdict::notKnown;
    std::optional<std::size_t> metAt; ///< the first pass, from 1 on, at a tenth or less
};

/// The decline test of ISO 16232: the last pass over the sum of all so far; complete at 10 % or
/// less. Where six passes do not reach it, the way of flushing is to be changed and the test begun
/// anew, so later passes of the same kind do not complete it. A pass after the first that met it
/// may be above it again, as after demagnetising: then the verdict is to go on.
///
/// @param counts  of pieces that each pass washed out, over 0 or 0; nothing where a pass was not
///                counted. Throws std::logic_error for a negative count.
/// Interval: Wilson's (base/share_interval.h), of the last pass's pieces among all.
/// Source: ISO 16232 (declining test). Checked: tests/particles/flush_decay_test.cpp (published
/// rule, worked series).
FlushDecay flushDecay(std::span<const std::optional<double>> counts);

/// Whether one pass washed out more than another.
enum class PassAgainstPass { more, less, notToldApart };

/// Given both counts, one of them is binomial among their sum when both passes wash out as much
/// (Przyborowski and Wilenski 1940): they differ if Wilson's 95 % interval leaves out one half.
/// Throws std::logic_error for a negative count. Checked: tests/particles/flush_decay_test.cpp.
PassAgainstPass comparePasses(double pass, double before);

/// The size classes in which the clean tray shows more than a tenth of what a pass washed out: the
/// blank value of ISO 16232, 10 % in every class. A tray that holds so much cannot prove a part
/// clean. The blank is compared and never taken away from the count.
///
/// @param pass, tray  counts by class, side by side. Throws std::logic_error for different numbers
///                    of classes.
/// @return their places, 0, 1, ...; none: the tray is clean enough.
/// Source: ISO 16232. Checked: tests/particles/flush_decay_test.cpp (worked rows).
std::vector<std::size_t> classesOverBlank(std::span<const long> pass, std::span<const long> tray);

} // namespace swarfbook
