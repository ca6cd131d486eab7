// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/card_facts.h"
#include "base/errors.h"
#include "base/shown_units.h"
#include "judgement/coat_history.h"
#include "judgement/visit_samples.h"
#include "record/evidence_of_visit.h"
#include "report/report_history.h"
#include "report/report_words.h"
#include "report/trend_chart.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace swarfbook::web {
namespace {

/// Places whose photos show pieces in the card's window, in the order of the work.
constexpr std::array<Place, 5> comparedPlaces{Place::pan, Place::pad, Place::strained, Place::tray,
                                              Place::filter};
/// The chart's size and that of its letters in pixels. On a phone it is shown a third to a half as
/// wide, so it is drawn with larger letters for that.
struct ChartSize {
    int width, height;
    double letter;
};
constexpr ChartSize wideChart{960, 420, 22.0}, narrowChart{600, 520, 24.0};

/// Newest first.
std::vector<Visit> earlierVisits(const Book& book, const Visit& now) {
    std::vector<Visit> earlier;
    for (const Visit& one : book.visits(now.vehicleId)) {
        if (one.id == now.id)
            break;
        earlier.insert(earlier.begin(), one);
    }
    return earlier;
}

/// The newest photo of the place whose pieces can be shown from above.
std::optional<StoredPhoto> photoOf(const std::vector<StoredPhoto>& photos, Place place) {
    std::optional<StoredPhoto> newest;
    for (const StoredPhoto& one : photos)
        if (one.place == place && canBeSeenFromAbove(one))
            newest = one;
    return newest;
}

/// Two visits of a vehicle beside each other.
struct TwoVisits {
    Visit before, now;
    std::vector<StoredPhoto> photosBefore, photosNow;
    std::vector<Place> places{};  ///< of which both have a photo
    std::optional<Place> place{}; ///< the one that is shown
    [[nodiscard]] std::string address(std::int64_t with, Place of) const {
        return fmt::format("/visit/{}/compare?with={}&place={}", now.id, with, placeName(of));
    }
};

TwoVisits twoVisits(const Book& book, const Visit& now, const Visit& before, const Asked& asked) {
    TwoVisits two{before, now, book.photos(before.id), book.photos(now.id)};
    for (const Place place : comparedPlaces)
        if (photoOf(two.photosBefore, place) && photoOf(two.photosNow, place))
            two.places.push_back(place);
    for (const Place place : two.places)
        if (!two.place || placeName(place) == asked.said("place"))
            two.place = place;
    return two;
}

std::string choice(const std::string& address, const std::string& words, bool chosen) {
    return fmt::format("<a class=\"button{}\" href=\"{}\"{}>{}</a>", chosen ? " main" : "",
                       escaped(address), chosen ? " aria-current=\"true\"" : "", escaped(words));
}

std::string choices(const TwoVisits& two, const std::vector<Visit>& earlier) {
    std::string body = "<nav aria-label=\"Which visit and place\"><p class=\"buttons\">";
    for (const Visit& one : earlier)
        body += choice(two.address(one.id, two.place.value_or(Place::pan)),
                       fmt::format("With visit {}, {}", one.id, dateWords(one.date)),
                       one.id == two.before.id);
    body += "</p>";
    if (two.places.size() > 1) {
        body += "<p class=\"buttons\">";
        for (const Place place : two.places)
            body += choice(two.address(two.before.id, place), std::string(placeTitle(place)),
                           place == two.place);
        body += "</p>";
    }
    return body + "</nav>";
}

std::string pane(const StoredPhoto& photo, const Visit& visit, std::string_view when) {
    const SeenFromAbove seen = seenFromAbove(photo);
    return fmt::format(
        "<figure><figcaption><strong>{0}</strong>: visit {1}, {2} <a class=\"button\" "
        "href=\"/photo/{3}\">Photo "
        "{3}</a></figcaption><div class=\"pane\" tabindex=\"0\" role=\"group\" aria-label=\"{0}, "
        "seen from above. Plus and minus zoom both photos, arrows move them.\" "
        "data-width=\"{4:.3f}\" data-height=\"{5:.3f}\"><div class=\"layers\"><img "
        "src=\"/photo/{3}/above\" alt=\"{6}\" width=\"{7}\" "
        "height=\"{8}\">{9}</div></div></figure>",
        when, visit.id, escaped(dateWords(visit.date)), photo.id, seen.area.width, seen.area.height,
        escaped(fmt::format("The card's window at visit {}", visit.id)), seen.widthPx,
        seen.heightPx, outlinesFromAbove(photo));
}

std::string photosOf(const TwoVisits& two) {
    if (!two.place)
        return notice("note", "The two visits have no photo of the same place that can be laid "
                              "side by side.");
    return fmt::format(
        "<section><h2>Photos at the same scale</h2><p class=\"tools\"><button id=\"closer\" "
        "type=\"button\">Closer</button><button id=\"farther\" type=\"button\">Farther</button>"
        "<button id=\"hide\" type=\"button\" aria-pressed=\"false\">Hide marks</button></p>"
        "<div id=\"panes\" data-scale=\"{}\">{}{}</div><p class=\"scale\"><span "
        "id=\"scalebar\"></span> "
        "<span id=\"barwords\"></span></p></section>",
        fromAbove.value(), pane(*photoOf(two.photosBefore, *two.place), two.before, "Then"),
        pane(*photoOf(two.photosNow, *two.place), two.now, "Now"));
}

std::string countsOf(const VisitComparison& compared) {
    std::string rows;
    for (const TypeChange& change : compared.changes)
        rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>",
                            change.type ? escaped(typeWord(*change.type)) : "all pieces",
                            change.before.count, change.after.count,
                            change.proven ? "proven" : "not proven");
    return fmt::format(
        "<p class=\"compared\">{}</p><table><caption>Pieces of {:.2f} mm and larger, "
        "{}</caption><thead><tr><th scope=\"col\">type</th><th scope=\"col\">then"
        "</th><th scope=\"col\">now</th><th scope=\"col\">difference</th></tr>"
        "</thead><tbody>{}</tbody></table>",
        escaped(compared.sentence), compared.detectionLimit.value(),
        escaped(placeWord(compared.place)), rows);
}

/// What the counts of both say, or why they cannot be compared.
std::string comparedCounts(const Evidence& evidence, const TwoVisits& two) {
    const auto before =
        std::find_if(evidence.earlier.begin(), evidence.earlier.end(),
                     [&](const VisitEvidence& v) { return v.visitId == two.before.id; });
    if (before == evidence.earlier.end())
        return notice("note", "The earlier visit has nothing that can be compared.");
    try {
        return countsOf(compareVisits(*before, evidence.now, two.place));
    } catch (const EvidenceRefused& why) {
        return notice("note", why.what());
    }
}

ReportModel trendOf(const Evidence& evidence) {
    ReportModel model;
    addTrend(model, evidence, loadWearScoreModel(dataFolder() / "models" / "wear-score.json"));
    return model;
}

std::string trendSection(const Evidence& evidence, std::int64_t visit) {
    const ReportModel model = trendOf(evidence);
    std::vector<std::string> scores;
    for (const ReportedTrendPoint& point : model.trend)
        scores.push_back(
            fmt::format("{}{}: {}", dateWords(point.date),
                        point.odometerKm ? ", " + distanceWords(*point.odometerKm) : "",
                        wearWords(point.score)));
    const std::string chart =
        scoredVisits(model.trend) < 2
            ? ""
            : fmt::format("<picture><source media=\"(max-width: 40rem)\" "
                          "srcset=\"/visit/{0}/trend.png?narrow=1\" width=\"{1}\" height=\"{2}\">"
                          "<img class=\"chart\" src=\"/visit/{0}/trend.png\" width=\"{3}\" "
                          "height=\"{4}\" alt=\"Wear scores over the odometer, as listed below\">"
                          "</picture>",
                          visit, narrowChart.width, narrowChart.height, wideChart.width,
                          wideChart.height);
    return "<section><h2>Trend</h2><p>" + escaped(model.trendSentence) + "</p>" + chart +
           "</section>" + listUnder("Wear score at each visit", scores);
}

std::string coatSection(const Evidence& evidence) {
    const CoatHistory coats =
        coatHistory(evidence, loadSuggestionModel(dataFolder() / "models" / "suggestion.json"));
    if (coats.sentence.empty())
        return "";
    return "<section><h2>Fuzz on the magnet</h2><p>" + escaped(coats.sentence) + "</p></section>" +
           listUnder("Fuzz at each visit", coatLines(coats));
}

Visit chosenVisit(const std::vector<Visit>& earlier, const Asked& asked) {
    const std::string with = asked.said("with");
    if (with.empty())
        return earlier.front();
    for (const Visit& one : earlier)
        if (one.id == numberOf(with))
            return one;
    throw UsageError(fmt::format("Visit {} is not an earlier visit of this vehicle.", with));
}

} // namespace

Answer comparePage(Workshop& workshop, std::int64_t number, const Asked& asked) {
    return workshop.book.read([&](const Book& book) {
        const Visit now = book.visit(number);
        const std::vector<Visit> earlier = earlierVisits(book, now);
        const std::string back = fmt::format("/visit/{}", number);
        const std::string title = "Then and now";
        if (earlier.empty())
            return page({title,
                         notice("note", "This is the vehicle's first visit in the book: "
                                        "there is nothing to compare it with yet."),
                         back, fmt::format("Visit {}", number)});
        const TwoVisits two = twoVisits(book, now, chosenVisit(earlier, asked), asked);
        const Evidence evidence = evidenceOfVisit(book, number);
        return page({title,
                     choices(two, earlier) + photosOf(two) + "<section><h2>Counts</h2>" +
                         comparedCounts(evidence, two) + "</section>" + coatSection(evidence) +
                         trendSection(evidence, number),
                     back, fmt::format("Visit {}", number), "compare.js"});
    });
}

Answer trendPicture(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const ChartSize size = asked.said("narrow") == "1" ? narrowChart : wideChart;
    return workshop.book.read([&](const Book& book) {
        const ReportModel model = trendOf(evidenceOfVisit(book, book.visit(number).id));
        if (scoredVisits(model.trend) < 2)
            throw EvidenceRefused("A trend needs two visits with a wear score.");
        const Picture picture(size.width, size.height);
        drawTrendChart(picture.pen(),
                       {{12.0, 12.0}, {size.width - 24.0, size.height - 24.0}, size.letter},
                       model.trend);
        return pngPicture(picture.bgr());
    });
}

} // namespace swarfbook::web
