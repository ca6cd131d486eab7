// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "entry/finding_words.h"
#include "entry/measure_for_book.h"
#include "record/entry_text.h"
#include "record/photo_date.h"
#include "web/html.h"
#include "web/pages.h"

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

ComingPhoto comingPhoto(const Asked& asked) {
    const std::string size = asked.said("size");
    std::uint64_t bytes = 0;
    const auto [stop, error] = std::from_chars(size.data(), size.data() + size.size(), bytes);
    if (error != std::errc() || stop != size.data() + size.size())
        throw UsageError("The photo was not named with its size, so it was not taken.");
    return {asked.said("sha256"), bytes};
}

std::string text(const nlohmann::json& document) {
    return document.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

HowMeasured howMeasured(const Asked& asked) {
    HowMeasured how;
    how.place = placeAsked(asked);
    const std::string bar = asked.said("bar");
    if (bar.empty())
        return how;
    double value = 0.0;
    const auto [stop, error] = std::from_chars(bar.data(), bar.data() + bar.size(), value);
    if (error != std::errc() || stop != bar.data() + bar.size())
        throw UsageError("The check bar is a number of millimetres, such as 79.6.");
    how.typedBarMm = value;
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

nlohmann::json kept(const StoredPhoto& photo, bool again) {
    return {{"photo", photo.id},
            {"href", fmt::format("/photo/{}", photo.id)},
            {"said", (again ? "Already in the book: " : "") + findingInFull(photo.measurement)},
            {"cautions", photo.measurement.cautions}};
}

/// Measured outside of the book's lock: others go on meanwhile.
Measurement measured(Workshop& workshop, const std::vector<std::byte>& bytes,
                     const std::string& name, const HowMeasured& how) {
    const AssessData& data = workshop.measuringData();
    const std::lock_guard one(workshop.measuring);
    const Book book = Book::openForReading(workshop.book.folder());
    return measureForBook(book, photoFrom(bytes, name), data, how);
}

} // namespace

Answer shootPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    workshop.book.read([&](const Book& book) { return book.visit(visit); });
    std::string choices;
    const std::string chosen = asked.said("place").empty() ? "pad" : asked.said("place");
    for (const Place place : places)
        choices += fmt::format("<label class=\"choice\"><input type=\"radio\" name=\"place\" "
                               "value=\"{0}\"{1}><span>{2}</span></label>",
                               placeName(place), placeName(place) == chosen ? " checked" : "",
                               placeWord(place));
    const std::string body = fmt::format(
        "<form id=\"shoot\" data-visit=\"{}\"><fieldset><legend>Where the debris is</legend>"
        "<div class=\"choices\">{}</div></fieldset>{}"
        "<details><summary>The card has no code</summary>{}</details>"
        "<ul class=\"how\"><li>The whole card in the photo, flat, the phone held straight above "
        "it.</li><li>Even light, no glare on the card, no flash on wet metal.</li>"
        "<li>As near as the card allows, the focus on the card.</li></ul>"
        "<label class=\"button main\" for=\"camera\">Take a photo</label>"
        "<input class=\"file\" id=\"camera\" type=\"file\" accept=\"image/*\" "
        "capture=\"environment\"><label class=\"button\" for=\"files\">Choose photos</label>"
        "<input class=\"file\" id=\"files\" type=\"file\" "
        "accept=\"image/*,.heic,.heif\" multiple></form>"
        "<noscript>{}</noscript><ul id=\"sent\" class=\"rows\" aria-live=\"polite\"></ul>",
        visit, choices,
        field({"sampling", "How the sample was taken", asked.said("sampling"),
               "such as: whole magnet wiped; only like is compared with like"}),
        field({"bar", "Its check bar as callipers read it, mm", "", ""}),
        notice("warning", "Sending photos needs the browser's scripts."));
    return page({"Add photos", body, fmt::format("/visit/{}", visit),
                 fmt::format("Visit {}", visit), "shoot.js"});
}

Answer uploadState(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto photo = comingPhoto(asked);
    nlohmann::json state{{"received", workshop.uploads.received(photo)}};
    if (const auto known = alreadyThere(workshop, visit, placeAsked(asked), photo.sha256))
        state["kept"] = kept(*known, true);
    return json(text(state));
}

Answer takePart(Workshop& workshop, const Asked& asked) {
    const std::string from = asked.said("from");
    std::uint64_t at = 0;
    const auto [stop, error] = std::from_chars(from.data(), from.data() + from.size(), at);
    if (error != std::errc() || stop != from.data() + from.size())
        throw UsageError("The part of the photo does not say where it begins.");
    const std::uint64_t received =
        workshop.uploads.add(comingPhoto(asked), at, std::as_bytes(std::span(asked.body)));
    return json(text({{"received", received}}));
}

Answer finishUpload(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto photo = comingPhoto(asked);
    const HowMeasured how = howMeasured(asked);
    if (const auto known = alreadyThere(workshop, visit, how.place, photo.sha256)) {
        workshop.uploads.forget(photo);
        return json(text(kept(*known, true)));
    }
    const Visit of = workshop.book.read([&](const Book& book) { return book.visit(visit); });
    const std::vector<std::byte> bytes = workshop.uploads.whole(photo);
    const std::string name =
        readableText(asked.said("file").empty() ? "photo" : asked.said("file"));
    const Measurement found = measured(workshop, bytes, name, how);
    if (found.refusal) {
        workshop.uploads.forget(photo);
        return json(text({{"refused", found.refusal->detail}, {"advice", found.refusal->advice}}));
    }
    const PhotoAdded added = workshop.book.write([&](Book& book) {
        return book.addPhoto({visit, how.place, name, asked.said("sampling"),
                              optionsText(how, assessOptions(book, how)), programVersion()},
                             bytes, found);
    });
    workshop.uploads.forget(photo);
    nlohmann::json answer = kept(added.photo, added.alreadyThere);
    if (std::string question = dateQuestion(found.photo.taken, of.date); !question.empty())
        answer["cautions"].push_back(std::move(question));
    return json(text(answer));
}

} // namespace swarfbook::web
