// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

using Millilitres = Quantity<struct MillilitresTag>;

/// Which side of an opened filter the debris lies on. What lies on the dirty side was stopped; what
/// lies on the clean side went through or past the media, towards pump and valve body.
enum class FilterSide { dirty, clean };
/// "dirty", "clean".
std::string_view filterSideName(FilterSide side);
/// Inverse of filterSideName; throws std::invalid_argument.
FilterSide filterSideFromName(std::string_view name);

/// What was typed of a sample that its photo cannot show.
struct SampleBasis {
    std::optional<FilterSide> side;             ///< place filter only
    std::optional<SquareCentimetres> mediaArea; ///< place filter only: of the whole opened media
    std::optional<Millilitres> volume; ///< place strained only: of the fluid that was strained

    bool operator==(const SampleBasis&) const = default;
    [[nodiscard]] bool isEmpty() const { return *this == SampleBasis(); }
};

/// "filter, clean side", else as placeWord.
std::string placeWords(Place place, const SampleBasis& basis);

/// How the sample was taken as comparisons use it: the typed words, with the side of the filter and
/// the volume strained, so that only like is compared with like.
std::string samplingOf(const std::string& typed, const SampleBasis& basis);

/// Standard uncertainty, relative, of an area typed as measured with a rule over opened pleats, and
/// of a volume read from a workshop's jug. Common practice, no source.
inline constexpr double typedAreaRelativeU = 0.05, typedVolumeRelativeU = 0.025;

/// One size class's count on another basis than the photo's window.
struct ScaledCount {
    std::string sizeClass;
    Micrometres from, to;                      ///< `to` is +infinity for the open class
    int seen = 0;                              ///< pieces in the photo
    double count = 0.0, low = 0.0, high = 0.0; ///< scaled, with its 95 % interval
    bool complete = true;                      ///< false: a lower bound
};

/// Counts of a frame, scaled to the whole of the opened media: count x media area / measured area.
/// The interval joins that of the count (exact Poisson) with the uncertainties of both areas, as
/// factors that are independent; that the debris is spread evenly over the media is taken for
/// granted and is to be said beside it.
/// @param measuredAreaRelativeU  standard, of the area in the window, 0 or more
/// Nothing where the finding is of a white card, has no counts, or the media is smaller than what
/// was measured of it. Checked: tests/particles/sample_basis_test.cpp.
std::vector<ScaledCount> countsOnWholeMedia(const DebrisFinding& finding, SquareCentimetres media,
                                            double measuredAreaRelativeU);

/// Counts of a whole sample on white paper per 100 ml of the fluid it was strained from, by
/// ISO 16232 size class. The interval joins that of the count with the volume's uncertainty.
/// Nothing where the finding is of a frame (its pieces are a part of the sample) or has no counts.
/// Throws std::logic_error for a volume that is not positive. Checked:
/// tests/particles/sample_basis_test.cpp.
std::vector<ScaledCount> countsPer100Ml(const DebrisFinding& finding, Millilitres volume);

/// Why the media that was typed cannot be the one in the photo, "" where it can.
std::string mediaProblem(const DebrisFinding& finding, SquareCentimetres media);

} // namespace swarfbook
