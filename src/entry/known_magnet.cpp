// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/known_magnet.h"

#include "base/errors.h"
#include "bench/debris_words.h"
#include "bench/typed.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

std::optional<MagnetShape> shapeOf(MagnetForm form) {
    switch (form) {
    case MagnetForm::ring:
        return MagnetShape::ring;
    case MagnetForm::disc:
        return MagnetShape::disc;
    case MagnetForm::block:
        return MagnetShape::block;
    case MagnetForm::notSaid:
        break;
    }
    return std::nullopt;
}

} // namespace

KnownMagnet knownMagnetOf(const Book& book, std::int64_t visit) {
    KnownMagnet known;
    for (const StoredObservation& stored : standing(book.observations(visit))) {
        if (stored.kind != "magnets")
            continue;
        const auto observation = observationIfReadable(book, stored);
        if (!observation)
            continue;
        const auto& magnets = std::get<MagnetsFitted>(*observation);
        known = {};
        known.shape = shapeOf(magnets.form);
        if (magnets.size)
            known.size = magnets.size->value;
    }
    return known;
}

KnownMagnet knownMagnetTyped(const std::optional<std::string>& form,
                             const std::optional<std::string>& size, Place place) {
    KnownMagnet known;
    if (!form && !size)
        return known;
    if (place != Place::magnet)
        throw UsageError("Form and size of a magnet go with a photo of it: add --place magnet.");
    if (form)
        known.shape = shapeOf(fromWord<MagnetForm>(*form));
    if (size) {
        const Millimetres length = parseSmallLength(*size).value;
        if (length < smallestMagnet || length > largestMagnet)
            throw UsageError(fmt::format("A magnet of {} is not measured here: {:.0f} to {:.0f} mm "
                                         "fit the card's window. Type its diameter, or a block's "
                                         "longer side, such as 37mm.",
                                         *size, smallestMagnet.value(), largestMagnet.value()));
        known.size = length;
    }
    return known;
}

} // namespace swarfbook
