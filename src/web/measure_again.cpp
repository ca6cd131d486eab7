// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "entry/measured_again.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>

namespace swarfbook::web {

Answer measurePhotoAgain(Workshop& workshop, std::int64_t number) {
    const StoredPhoto photo =
        workshop.book.read([&](const Book& book) { return book.photo(number); });
    MeasuredAgain again;
    measuredForPages(workshop, [&](const Book& book, const AssessData& data) {
        KeptSecondPhotos seconds(book);
        again = measuredAgain(book, data, seconds, photo);
        return again.finding.value_or(Measurement{});
    });
    const KeptAgain became = workshop.book.write([&](Book& book) {
        BookTransaction transaction = book.begin();
        const KeptAgain kept = keepMeasuredAgain(book, again);
        transaction.commit();
        return kept;
    });
    switch (became) {
    case KeptAgain::kept:
        return goTo(fmt::format("/photo/{}", number));
    case KeptAgain::lost:
        throw EvidenceRefused("The photo was not measured again. " + forPages(again.lost));
    case KeptAgain::moved:
        throw EvidenceRefused("The photo was moved while it was measured, so nothing was kept. "
                              "Measure it again.");
    case KeptAgain::worse:
        break;
    }
    throw EvidenceRefused(fmt::format("{} {} The finding from before still counts.",
                                      forPages(again.finding->refusal->detail),
                                      forPages(again.finding->refusal->advice)));
}

} // namespace swarfbook::web
