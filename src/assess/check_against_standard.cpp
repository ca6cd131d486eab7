// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/check_against_standard.h"

#include "assess/card_facts.h"
#include "debris/measure_debris.h"

namespace swarfbook {

StandardCheck checkAgainstStandard(const Photo& photo, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options) {
    StandardCheck check;
    check.photo = photo.facts;
    check.thing = thing;
    auto calibrated =
        calibratePhoto(photo, data.layouts, KnownBars{options.measuredBar, options.barOfCard});
    if (!calibrated) {
        check.refusal = calibrated.error();
        return check;
    }
    if (options.windowCutOut.value_or(false))
        *calibrated = underFrame(*calibrated);
    check.card = cardFactsOf(*calibrated, options.serial);
    check.cautions = calibrated->cautions;
    StandardSearch search = readCheckStandard(*calibrated, thing);
    if (auto* none = std::get_if<StandardNotRead>(&search)) {
        check.notRead = std::move(*none);
        return check;
    }
    check.reading = std::get<StandardReading>(std::move(search));
    check.conformity = conformityOf(*check.reading, thing);
    return check;
}

StandardCheck checkAgainstStandard(const PhotoFile& read, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options) {
    StandardCheck check;
    check.photo.file = read.file;
    check.thing = thing;
    if (read.photo)
        return checkAgainstStandard(*read.photo, thing, data, options);
    check.refusal = read.photo.error();
    return check;
}

} // namespace swarfbook
