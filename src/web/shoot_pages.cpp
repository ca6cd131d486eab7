// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "entry/measure_for_book.h"
#include "entry/sample_typed.h"
#include "record/photo_date.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <array>
#include <charconv>

namespace swarfbook::web {
namespace {

constexpr std::array<Place, 6> places{Place::pan,  Place::magnet, Place::filter,
                                      Place::tray, Place::pad,    Place::strained};

Place placeAsked(const Asked& asked) {
    try {
        return placeFromName(asked.said("place"));
    } catch (const std::invalid_argument&) {
        throw UsageError("Say where the debris was.");
    }
}

/// What was said of the sample, where it belongs to the place: the fields of other places may still
/// be filled in.
std::optional<std::string> ofPlace(const Asked& asked, const char* name, Place place, Place own) {
    const std::string said = asked.said(name);
    return place == own && !said.empty() ? std::optional(said) : std::nullopt;
}

HowMeasured howMeasured(const Asked& asked) {
    HowMeasured how;
    how.place = placeAsked(asked);
    how.basis = sampleBasisTyped({ofPlace(asked, "side", how.place, Place::filter),
                                  ofPlace(asked, "media-area", how.place, Place::filter),
                                  ofPlace(asked, "volume", how.place, Place::strained)},
                                 how.place);
    how.typedBarMm = barTyped(asked);
    return how;
}

/// A photo of the same bytes that the book has already; UsageError where it is of another visit or
/// place.
std::optional<StoredPhoto> alreadyThere(Workshop& workshop, std::int64_t visit, Place place,
                                        const std::string& sha256) {
    const auto known =
        workshop.book.read([&](const Book& book) { return book.photoBySha256(sha256); });
    if (known && (known->visitId != visit || known->place != place))
        throw UsageError(fmt::format("This very photo is in the book already, for visit {}, place "
                                     "{}. Nothing was changed.",
                                     known->visitId, placeWord(known->place)));
    return known;
}

nlohmann::json keptAlready(const StoredPhoto& photo) {
    return toldOf(photo, "Already in the book: ");
}

/// What the photo of a filter or of strained fluid cannot show; the script shows it with its place.
std::string sampleFields() {
    return "<div data-place=\"filter\" hidden><fieldset><legend>Which side of the filter</legend>"
           "<div class=\"choices\">" +
           answerToTap("side", "dirty", "dirty side", false) +
           answerToTap("side", "clean", "clean side", false) +
           answerToTap("side", "", "not known", true) + "</div></fieldset>" +
           field({"media-area", "Area of the whole media, pleats spread out", "",
                  "such as 40x30cm or 1200cm2; leave it empty where it was not measured"}) +
           "</div><div data-place=\"strained\" hidden>" +
           field({"volume", "Fluid that went through the paper", "",
                  "such as 100ml; leave it empty where it was not measured"}) +
           "</div>";
}

} // namespace

Answer shootPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    workshop.book.read([&](const Book& book) { return book.visit(visit); });
    std::string choices;
    const std::string chosen = asked.said("place").empty() ? "pad" : asked.said("place");
    for (const Place place : places)
        choices +=
            answerToTap("place", placeName(place), placeWord(place), placeName(place) == chosen);
    const std::string body = fmt::format(
        "<form id=\"shoot\" data-visit=\"{}\"><fieldset><legend>Where the debris is</legend>"
        "<div class=\"choices\">{}</div></fieldset>{}{}{}{}</form>{}",
        visit, choices, sampleFields(),
        field({"sampling", "How the sample was taken", asked.said("sampling"),
               "such as: whole magnet wiped; only like is compared with like"}),
        barField(), howToHold(), sentPhotos());
    return page({"Add photos", body, fmt::format("/visit/{}", visit),
                 fmt::format("Visit {}", visit), "shoot.js"});
}

Answer uploadState(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto photo = comingPhotoOf(asked);
    nlohmann::json state{{"received", workshop.uploads.received(photo)}};
    // a second photo or one of work, which the book does not list, or one of a flush, which it may
    // have already
    if (!asked.said("of").empty() || !asked.said("flush").empty() || !asked.said("work").empty())
        return json(jsonText(state));
    if (const auto known = alreadyThere(workshop, visit, placeAsked(asked), photo.sha256))
        state["kept"] = keptAlready(*known);
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
    if (const auto known = alreadyThere(workshop, visit, how.place, photo.sha256)) {
        workshop.uploads.forget(photo);
        return json(jsonText(keptAlready(*known)));
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
    nlohmann::json answer = added.alreadyThere ? keptAlready(added.photo) : toldOf(added.photo);
    if (std::string question = dateQuestion(found.photo.taken, of.date); !question.empty())
        answer["cautions"].push_back(std::move(question));
    return json(jsonText(answer));
}

} // namespace swarfbook::web
