// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "particles/repeats.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// The measurement document "swarfbook measurement 2", one object a photo.
///
/// Lengths are true millimetres (4 decimals), places in the photo pixels (2 decimals). A refused
/// photo has `refusal` and nothing after it: no `particles`, no `counts`. `to_um` of the open class
/// and everything not known are null. `window.cut_out` is false on a pad, and then `per_100_cm2`
/// counts the whole sample. From `size_floor_mm` up nine of ten pieces are found; particles
/// between `seen_from_mm` and there are marked `below_floor` (slivers on a
/// magnet are a lower bound whatever their size), and a class that reaches there has
/// `counts[].complete` false: a lower bound. `shown_only` is null, or says why the particles are
/// shown and not counted, and what to do: then `counts` is empty. `sharpness.over_window` holds the
/// edge widths at the window's corners and in its middle where they differ beyond their scatter,
/// else null; `seen_from_mm` is that of the widest. `sample` (sample_basis_json.h) is null where
/// nothing was typed of it. `blank` is null where no photo of the cleaned place was given,
/// `after_magnet` (after_magnet_json.h) where none after a magnet was; without one every
/// `particles[].ferrous` is null. `second_light` (second_light_json.h) is null where no photo in a
/// second light was given; with one, pieces that both show have `second_light` too: what each photo
/// says of the type. File names that are no UTF-8 are written with the replacement character.
/// Throws std::logic_error for a number that is not finite. Checked:
/// tests/assess/measurement_json_test.cpp.
nlohmann::ordered_json toJson(const Measurement& measurement);
/// The decimals of a length in the document.
inline constexpr int lengthDecimals = 4;

/// How sure the sizes are, as the documents have it under `size_certainty`.
nlohmann::ordered_json toJson(const SizeSampling& sampling);

/// Several photos of one sample as one finding: the document "swarfbook repeats 1".
nlohmann::ordered_json toJson(const RepeatedFinding& finding);

/// Reads the document back, and one of format 1 (measurement_format_1.h). The mapping is not part
/// of the document: see mappingToJson. Throws std::invalid_argument naming what is missing or
/// wrong.
Measurement measurementFromJson(const nlohmann::json& document);

/// The mapping from card to photo, kept beside a stored finding so that its outlines can be drawn.
nlohmann::json toJson(const PlaneMapping& mapping);
PlaneMapping mappingFromJson(const nlohmann::json& document);

} // namespace swarfbook
