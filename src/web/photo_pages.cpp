// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "entry/finding_words.h"
#include "record/piece_corrections.h"
#include "report/magnet_words.h"
#include "report/photo_view.h"
#include "report/report_words.h"
#include "report/type_marks.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/pictures.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook::web {
namespace {

nlohmann::json outlineIn(const PhotoView& view, const std::vector<PointOnCard>& outline) {
    nlohmann::json points = nlohmann::json::array();
    for (const PointOnCard& point : outline) {
        const Spot spot = view.spotOf(point);
        points.push_back({std::round(10.0 * spot.x) / 10.0, std::round(10.0 * spot.y) / 10.0});
    }
    return points;
}

std::string certaintyWords(const Particle& piece) {
    return fmt::format("{:.0f} %", 100.0 * piece.chanceOfType());
}

nlohmann::json markOfPiece(const PhotoView& view, const Particle& piece, const StoredPhoto& photo) {
    const auto corrected =
        std::find_if(photo.corrected.begin(), photo.corrected.end(),
                     [&](const CorrectedPiece& one) { return one.piece == piece.id; });
    const bool byHand = corrected != photo.corrected.end();
    const RegroupedPieces* regrouped = regroupingOf(photo, piece.id);
    return {{"number", piece.id},
            {"outline", outlineIn(view, piece.outline)},
            {"letter", markOf(piece.type).letter},
            {"type", typeWord(piece.type)},
            {"size", longestSideWords(piece)},
            {"width", lengthWords(widthOf(piece))},
            {"class", piece.sizeClass},
            {"glint", fmt::format("{:.1f}", piece.glint)},
            {"certainty", certaintyWords(piece)},
            {"magnetic", ferrousWords(piece.ferrous)},
            {"doubtful", !byHand && piece.mayBeNone()},
            {"several", piece.mayBeSeveral},
            {"corrected", byHand ? correctedSentence(*corrected) : std::string()},
            {"regrouped", regrouped != nullptr ? regroupedSentence(*regrouped) : std::string()}};
}

/// Pieces that a hand took out of every count: they can be brought back.
nlohmann::json takenOut(const PhotoView& view, const StoredPhoto& photo) {
    nlohmann::json all = nlohmann::json::array();
    for (const CorrectedPiece& one : photo.corrected)
        if (one.piece &&
            (one.correction.said == "not debris" || one.correction.said == "left over"))
            all.push_back({{"number", *one.piece},
                           {"at", outlineIn(view, {one.correction.at})[0]},
                           {"said", correctedSentence(one)}});
    return all;
}

nlohmann::json marksOf(const StoredPhoto& photo) {
    const Measurement& m = photo.measurement;
    nlohmann::json marks{{"width", m.photo.widthPx},
                         {"height", m.photo.heightPx},
                         {"finding", forPages(findingInFull(m))},
                         {"pieces", nlohmann::json::array()},
                         {"takenOut", nlohmann::json::array()}};
    if (!m.debris || !m.card)
        return marks;
    const cv::Mat none(1, 1, CV_8UC3); // only places are asked for
    const PhotoView view(none, *m.card);
    for (const Particle& piece : m.debris->particles)
        marks["pieces"].push_back(markOfPiece(view, piece, photo));
    marks["takenOut"] = takenOut(view, photo);
    for (const GridPoint& point : m.card->grid) // over the card's window, which is shown first
        marks["window"].push_back({point.inPhoto.u, point.inPhoto.v});
    return marks;
}

/// Where the piece of that number lies, also one that counts no more.
PointOnCard placeOfPiece(const StoredPhoto& photo, std::int64_t number) {
    for (const CorrectedPiece& one : photo.corrected)
        if (one.piece == number)
            return one.correction.at;
    if (photo.measurement.debris)
        for (const Particle& piece : photo.measurement.debris->particles)
            if (piece.id == number)
                return piece.centre;
    throw UsageError("The photo has no such piece.");
}

/// The centre of the piece of that number, among those that count.
PointOnCard centreOfPiece(const StoredPhoto& photo, const std::string& number) {
    const std::int64_t wanted = numberOf(number);
    if (photo.measurement.debris)
        for (const Particle& piece : photo.measurement.debris->particles)
            if (piece.id == wanted)
                return piece.centre;
    throw UsageError("The photo has no such piece.");
}

/// Keeps what a tap says of a piece as the command line's corrections are kept.
void keepSaid(Book& book, const StoredPhoto& photo, const Asked& asked, const ChangeReason& by) {
    const std::string is = asked.said("is"), number = asked.said("number");
    if (is == "one")
        book.regroupPieces(
            photo.id,
            {{centreOfPiece(photo, number), centreOfPiece(photo, asked.said("with"))}, by, ""});
    else if (is == "two")
        book.regroupPieces(photo.id, {{centreOfPiece(photo, number)}, by, ""});
    else if (is == "as found")
        book.undoRegrouping(photo.id, centreOfPiece(photo, number), by);
    else
        book.correctPiece(photo.id, {placeOfPiece(photo, numberOf(number)), is, by, ""});
}

/// Taps that say how many pieces it is; the script asks which other piece is the same one.
std::string countButtons() {
    return "<p>How many pieces is it?</p><div class=\"buttons\">"
           "<button name=\"is\" value=\"one\" id=\"one\">Part of another</button>"
           "<button name=\"is\" value=\"two\" id=\"two\">Two pieces</button>"
           "<button name=\"is\" value=\"as found\" id=\"apart\" hidden>Undo: as found</button>"
           "</div>";
}

/// What is shown while the other part of a piece is looked for.
std::string joiningButtons() {
    return "<div id=\"joining\" hidden><p id=\"other\"></p><p class=\"buttons\">"
           "<button id=\"join\" type=\"button\" class=\"main\">These are one</button>"
           "<button id=\"leave\" type=\"button\">Leave them as they are</button></p></div>";
}

std::string correctionButtons() {
    std::string buttons;
    for (const std::string& word : correctionWords())
        buttons += fmt::format("<button name=\"is\" value=\"{0}\">{0}</button>", escaped(word));
    return buttons + "<button name=\"is\" value=\"\" id=\"undo\" hidden>Undo: as measured</button>";
}

/// Second photos that would tell more of this one.
std::string secondPhotosOffered(const StoredPhoto& photo) {
    if (!mayHaveSecond(photo))
        return {};
    const auto to = [&](const char* as) {
        return fmt::format("/visit/{}/second?of={}&as={}", photo.visitId, photo.id, as);
    };
    std::string buttons;
    const bool swept = photo.measurement.afterMagnet.has_value();
    const bool inTwoLights = photo.measurement.secondLight.has_value();
    if (!swept && !inTwoLights)
        buttons += button(to("second-light"), "Photo in a second light");
    if (!swept && !inTwoLights)
        buttons += button(to("after-magnet"), "Photo after a magnet");
    if (!photo.measurement.cleanReference)
        buttons += button(to("cleaned"), "Photo of the place cleaned");
    return buttons.empty() ? ""
                           : "<section><h2>A second photo shows more</h2><p class=\"buttons\">" +
                                 buttons + "</p></section>";
}

} // namespace

Answer photoPage(Workshop& workshop, std::int64_t number) {
    return workshop.book.read([&](const Book& book) {
        const StoredPhoto photo = book.photo(number);
        std::string body = fmt::format("<p id=\"finding\">{}</p>",
                                       escaped(forPages(findingInFull(photo.measurement))));
        for (const std::string& caution : photo.measurement.cautions)
            body += notice("caution", caution);
        body += fmt::format(
            "<div id=\"photo\" data-photo=\"{0}\"><div id=\"view\" tabindex=\"0\" role=\"group\" "
            "aria-label=\"The photo. Plus and minus zoom, arrows move it.\">"
            "<img id=\"picture\" src=\"/photo/{0}/picture\" alt=\"{1}\" width=\"{2}\" "
            "height=\"{3}\"><svg id=\"marks\" viewBox=\"0 0 {2} {3}\" width=\"{2}\" "
            "height=\"{3}\"></svg></div><p class=\"tools\">"
            "<button id=\"closer\" type=\"button\">Closer</button>"
            "<button id=\"farther\" type=\"button\">Farther</button>"
            "<button id=\"hide\" type=\"button\" aria-pressed=\"false\">Hide marks</button>"
            "<button id=\"before\" type=\"button\">Piece before</button>"
            "<button id=\"after\" type=\"button\">Next piece</button>"
            "<button id=\"doubtful\" type=\"button\">Next doubtful</button></p></div>"
            "<form id=\"piece\" method=\"post\" action=\"/photo/{0}/piece\" hidden>"
            "<h2 id=\"name\" tabindex=\"-1\"></h2><canvas id=\"crop\" width=\"240\" "
            "height=\"240\" role=\"img\" aria-label=\"The piece enlarged\"></canvas>"
            "<dl id=\"facts\"></dl><p>What is it? Tap what you see.</p>"
            "<div class=\"buttons\">{4}</div>{6}</form>{7}<p id=\"told\" role=\"status\"></p>{5}"
            "<form method=\"post\" action=\"/photo/{0}/again\"><p>Measure it again after the size "
            "of a magnet was filled in, or with a newer program. Corrections stay.</p>"
            "<button>Measure again</button></form>{8}",
            number, escaped(fmt::format("Photo of the place {}", placeWord(photo.place))),
            photo.measurement.photo.widthPx, photo.measurement.photo.heightPx, correctionButtons(),
            secondPhotosOffered(photo), countButtons(), joiningButtons(),
            withdrawPhotoForm(number));
        return page({fmt::format("{}, photo {}", placeTitle(photo.place), number), body,
                     fmt::format("/visit/{}", photo.visitId),
                     fmt::format("Visit {}", photo.visitId), "photo.js"});
    });
}

Answer photoMarks(Workshop& workshop, std::int64_t number) {
    return workshop.book.read([&](const Book& book) {
        return json(marksOf(book.photo(number))
                        .dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
    });
}

Answer photoPicture(Workshop& workshop, std::int64_t number, PhotoShown shown) {
    const auto [photo, bytes] = workshop.book.read([&](const Book& book) {
        StoredPhoto of = book.photo(number);
        std::vector<std::byte> original = book.originalBytes(of.sha256);
        return std::pair(std::move(of), std::move(original));
    });
    switch (shown) {
    case PhotoShown::small:
        return smallPicture(photo, bytes);
    case PhotoShown::fromAbove:
        return pictureFromAbove(photo, bytes);
    case PhotoShown::original:
        break;
    }
    return originalPicture(photo, bytes);
}

Answer correctPieceOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    return workshop.book.write([&](Book& book) {
        BookTransaction transaction = book.begin();
        const StoredPhoto photo = book.photo(number);
        keepSaid(book, photo, asked, {deviceName(workshop, asked), ""});
        transaction.commit();
        return json(marksOf(book.photo(number))
                        .dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
    });
}

} // namespace swarfbook::web
