// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "bench/observation.h"
#include "entry/work_photo_words.h"
#include "record/evidence_of_visit.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook::web {
namespace {

/// The line of work that the photos belong to.
StoredObservation workAsked(const Book& book, std::int64_t visit, const Asked& asked) {
    const std::int64_t number = numberOf(asked.said("work"));
    const std::vector<StoredObservation> all = standing(book.observations(book.visit(visit).id));
    const auto work = std::find_if(all.begin(), all.end(), [&](const StoredObservation& one) {
        return one.id == number && takesWorkPhotos(one.kind);
    });
    if (work == all.end())
        throw UsageError("Photos of work belong to a line of work of this visit. Say first what "
                         "was done.");
    return *work;
}

WorkMoment momentAsked(const Asked& asked) {
    for (const WorkMoment moment : {WorkMoment::before, WorkMoment::after})
        if (asked.said("moment") == workMomentWord(moment))
            return moment;
    throw UsageError("Say whether the photo shows the part before or after the work.");
}

std::string observedAddress(std::int64_t visit) {
    return fmt::format("/visit/{}/observed", visit);
}

} // namespace

Answer workPhotoPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    return workshop.book.read([&](const Book& book) {
        const StoredObservation work = workAsked(book, visit, asked);
        const auto readable = observationIfReadable(book, work);
        const std::string body = fmt::format(
            "<p>{}</p><p>These photos need no card and are not measured. The customer's report "
            "shows them side by side.</p><form id=\"shoot\" data-visit=\"{}\"><input "
            "type=\"hidden\" name=\"work\" value=\"{}\"><fieldset><legend>What the photo shows"
            "</legend><div class=\"choices\">{}{}</div></fieldset>{}</form>{}",
            readable ? escaped(describe(*readable)) : "", visit, work.id,
            answerToTap("moment", workMomentWord(WorkMoment::before), "before the work", true),
            answerToTap("moment", workMomentWord(WorkMoment::after), "after the work", false),
            photoButtons(), sentPhotos());
        return page(
            {"Photos of the work", body, observedAddress(visit), "All observations", "shoot.js"});
    });
}

Answer finishWorkPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto coming = comingPhotoOf(asked);
    const WorkMoment moment = momentAsked(asked);
    const std::string name = photoNameOf(asked);
    const std::vector<std::byte> bytes = workshop.uploads.whole(coming);
    return answeredOnce(workshop, coming, [&] {
        if (const PhotoFile photo = photoFrom(bytes, name); !photo.photo)
            return refusedPhoto(photo.photo.error());
        workshop.book.write([&](Book& book) {
            BookTransaction transaction = book.begin();
            book.addWorkPhoto({workAsked(book, visit, asked).id, moment, name}, bytes);
            transaction.commit();
        });
        return json(jsonText(
            {{"said", fmt::format("Kept with this line of work: {} it.", workMomentWord(moment))},
             {"href", observedAddress(visit)},
             {"go", "All observations"}}));
    });
}

} // namespace swarfbook::web
