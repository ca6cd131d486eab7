// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "entry/measure_for_book.h"
#include "record/photo_date.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/photo_coming.h"
#include "web/sample_fields.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <charconv>

namespace swarfbook::web {
namespace {

HowMeasured howMeasured(const Asked& asked) {
    HowMeasured how;
    how.place = placeAsked(asked);
    how.basis = basisAsked(asked, how.place);
    how.typedBarMm = barTyped(asked);
    return how;
}

/// A photo of the same bytes that the book has already.
std::optional<StoredPhoto> alreadyThere(Workshop& workshop, const std::string& sha256) {
    return workshop.book.read([&](const Book& book) { return book.photoBySha256(sha256); });
}

/// What the script is told of it: where it is of another visit or place, how to put that right.
nlohmann::json keptAlready(const StoredPhoto& photo, std::int64_t visit, Place place) {
    if (photo.visitId == visit && photo.place == place)
        return toldOf(photo, "Already in the book: ");
    return {{"refused", fmt::format("This very photo is in the book already, at visit {}, place "
                                    "{}. Nothing was changed.",
                                    photo.visitId, placeWord(photo.place))},
            {"advice", "If that is wrong, open it and tap Other place or visit."},
            {"href", fmt::format("/photo/{}", photo.id)},
            {"go", "Open that photo"}};
}

} // namespace

Answer shootPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    workshop.book.read([&](const Book& book) { return book.visit(visit); });
    const std::string body =
        fmt::format("<form id=\"shoot\" data-visit=\"{}\">{}{}{}{}{}{}</form>{}", visit,
                    placeChoices(std::nullopt), sampleFields({}), photoButtons(), sentPhotos(),
                    field({"sampling", "How the sample was taken", asked.said("sampling"),
                           "such as: whole magnet wiped; only like is compared with like"}),
                    barField(), howToHold());
    return page({"Add photos", body, fmt::format("/visit/{}", visit),
                 fmt::format("Visit {}", visit), "shoot.js"});
}

Answer uploadState(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto photo = comingPhotoOf(asked);
    (void)barTyped(asked); // what is typed wrong is told before the photo is sent
    nlohmann::json state{{"received", workshop.uploads.received(photo)}};
    // a second photo or one of work, which the book does not list, or one of a flush, which it may
    // have already
    if (!asked.said("of").empty() || !asked.said("flush").empty() || !asked.said("work").empty())
        return json(jsonText(state));
    const HowMeasured how = howMeasured(asked);
    if (const auto known = alreadyThere(workshop, photo.sha256))
        state["kept"] = keptAlready(*known, visit, how.place);
    return json(jsonText(state));
}

Answer takePart(Workshop& workshop, const Asked& asked) {
    const std::string from = asked.said("from");
    std::uint64_t at = 0;
    const auto [stop, error] = std::from_chars(from.data(), from.data() + from.size(), at);
    if (error != std::errc() || stop != from.data() + from.size())
        throw UsageError("The part of the photo does not say where it begins.");
    const std::uint64_t received =
        workshop.uploads.add(comingPhotoOf(asked), at, std::as_bytes(std::span(asked.body)));
    return json(jsonText({{"received", received}}));
}

Answer finishUpload(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    if (!asked.said("of").empty())
        return finishSecondPhoto(workshop, visit, asked);
    if (!asked.said("flush").empty())
        return finishFlushPhoto(workshop, visit, asked);
    if (!asked.said("work").empty())
        return finishWorkPhoto(workshop, visit, asked);
    const ComingPhoto photo = comingPhotoOf(asked);
    HowMeasured how = howMeasured(asked);
    how.visit = visit;
    if (const auto known = alreadyThere(workshop, photo.sha256)) {
        workshop.uploads.forget(photo);
        return json(jsonText(keptAlready(*known, visit, how.place)));
    }
    const Visit of = workshop.book.read([&](const Book& book) { return book.visit(visit); });
    const std::vector<std::byte> bytes = workshop.uploads.whole(photo);
    const std::string name = photoNameOf(asked);
    const Measurement found =
        measuredForPages(workshop, [&](const Book& book, const AssessData& data) {
            return measureForBook(book, photoFrom(bytes, name), data, how);
        });
    if (found.refusal) {
        workshop.uploads.forget(photo);
        return refusedPhoto(*found.refusal);
    }
    const PhotoAdded added = workshop.book.write([&](Book& book) {
        return book.addPhoto({visit, how.place, name, asked.said("sampling"),
                              optionsText(how, assessOptions(book, how)), programVersion()},
                             bytes, found);
    });
    workshop.uploads.forget(photo);
    nlohmann::json answer =
        added.alreadyThere ? keptAlready(added.photo, visit, how.place) : toldOf(added.photo);
    if (std::string question = dateQuestion(found.photo.taken, of.date); !question.empty())
        answer["cautions"].push_back(std::move(question));
    return json(jsonText(answer));
}

} // namespace swarfbook::web
