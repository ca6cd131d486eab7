// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/check_known_thing.h"

#include "assess/card_facts.h"
#include "debris/measure_debris.h"

namespace swarfbook {

ThingCheck checkKnownThing(const Photo& photo, const KnownThing& thing, const AssessData& data,
                           const AssessOptions& options) {
    ThingCheck check;
    check.photo = photo.facts;
    check.thing = thing;
    auto calibrated = calibratePhoto(photo, data.layouts, options.measuredBar);
    if (!calibrated) {
        check.refusal = calibrated.error();
        return check;
    }
    if (options.windowCutOut.value_or(false))
        *calibrated = underFrame(*calibrated);
    check.card = cardFactsOf(*calibrated, options.serial);
    check.cautions = calibrated->cautions;
    ThingSearch search = readKnownThing(*calibrated, thing);
    if (auto* none = std::get_if<NoThing>(&search)) {
        check.noThing = std::move(*none);
        return check;
    }
    check.reading = std::get<ThingReading>(std::move(search));
    check.agreement = agreementOf(*check.reading, thing);
    return check;
}

ThingCheck checkKnownThing(const PhotoFile& read, const KnownThing& thing, const AssessData& data,
                           const AssessOptions& options) {
    ThingCheck check;
    check.photo.file = read.file;
    check.thing = thing;
    if (read.photo)
        return checkKnownThing(*read.photo, thing, data, options);
    check.refusal = read.photo.error();
    return check;
}

} // namespace swarfbook
