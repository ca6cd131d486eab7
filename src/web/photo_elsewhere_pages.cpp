// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "entry/photo_elsewhere.h"
#include "report/report_words.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/photo_coming.h"
#include "web/sample_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace swarfbook::web {
namespace {

constexpr std::size_t mostVisitsOffered = 100;

/// Where a photo may belong: the visits of its vehicle first, then the others, newest first.
std::vector<Visit> visitsOffered(const Book& book, const Visit& now) {
    std::vector<Visit> all = book.allVisits();
    std::stable_partition(all.begin(), all.end(),
                          [&](const Visit& one) { return one.vehicleId == now.vehicleId; });
    if (all.size() > mostVisitsOffered)
        all.resize(mostVisitsOffered);
    return all;
}

std::string visitOptions(const Book& book, const Visit& now) {
    std::map<std::int64_t, std::string> labels;
    for (const Vehicle& one : book.vehicles())
        labels[one.id] = one.label;
    std::string options;
    for (const Visit& one : visitsOffered(book, now))
        options += fmt::format("<option value=\"{}\"{}>{}</option>", one.id,
                               one.id == now.id ? " selected" : "",
                               escaped(fmt::format("{}, visit {}, {}", labels[one.vehicleId],
                                                   one.id, dateWords(one.date))));
    return options;
}

PhotoBelongs belongsAsked(const Asked& asked) {
    PhotoBelongs to;
    to.visit = numberOf(asked.said("visit"));
    to.place = placeAsked(asked);
    to.basis = basisAsked(asked, to.place);
    return to;
}

[[noreturn]] void refuse(const MeasuredAgain& there) {
    throw EvidenceRefused(fmt::format("As a photo of that place it cannot be measured, so nothing "
                                      "was changed. {} {}",
                                      forPages(there.finding->refusal->detail),
                                      forPages(there.finding->refusal->advice)));
}

} // namespace

std::string photoElsewhereForm(const Book& book, const StoredPhoto& photo) {
    return fmt::format(
        "<details id=\"elsewhere\"><summary>Other place or visit</summary><p>Say where this photo "
        "belongs. It is measured again as a photo of that place; what was said of it before stays "
        "in the book.</p><form method=\"post\" action=\"/photo/{}/elsewhere\">{}{}<div "
        "class=\"field\"><label for=\"visit\">Visit</label><select id=\"visit\" name=\"visit\">{}"
        "</select></div><button class=\"main\">Put it there and measure again</button></form>"
        "</details>",
        photo.id, placeChoices(photo.place), sampleFields(photo.measurement.basis),
        visitOptions(book, book.visit(photo.visitId)));
}

Answer putPhotoElsewhere(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const PhotoBelongs to = belongsAsked(asked);
    const StoredPhoto from =
        workshop.book.read([&](const Book& book) { return book.photo(number); });
    MeasuredAgain there;
    measuredForPages(workshop, [&](const Book& book, const AssessData& data) {
        KeptSecondPhotos seconds(book);
        there = measuredElsewhere(book, data, seconds, from, to);
        return there.finding.value_or(Measurement{});
    });
    switch (workshop.book.write([&](Book& book) { return keepElsewhere(book, from, there); })) {
    case KeptAgain::kept:
        return goTo(fmt::format("/photo/{}", number));
    case KeptAgain::lost:
        throw EvidenceRefused("The photo was not measured, so nothing was changed. " +
                              forPages(there.lost));
    case KeptAgain::moved:
        throw EvidenceRefused("The photo was put elsewhere meanwhile, so nothing was changed.");
    case KeptAgain::worse:
        break;
    }
    refuse(there);
}

} // namespace swarfbook::web
