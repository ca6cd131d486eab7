// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "entry/finding_words.h"
#include "record/piece_corrections.h"
#include "report/report_words.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/pictures.h"

#include <fmt/format.h>

namespace swarfbook::web {
namespace {

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

std::string photoAndMarks(const StoredPhoto& photo) {
    return fmt::format(
        "<div id=\"photo\" data-photo=\"{0}\"><div id=\"view\" tabindex=\"0\" role=\"group\" "
        "aria-label=\"The photo. Plus and minus zoom, arrows move it.\">"
        "<img id=\"picture\" src=\"/photo/{0}/picture\" alt=\"{1}\" width=\"{2}\" "
        "height=\"{3}\"><svg id=\"marks\" viewBox=\"0 0 {2} {3}\" width=\"{2}\" "
        "height=\"{3}\"></svg></div><ul id=\"legend\"></ul><p class=\"tools\">"
        "<button id=\"closer\" type=\"button\">Closer</button>"
        "<button id=\"farther\" type=\"button\">Farther</button>"
        "<button id=\"hide\" type=\"button\" aria-pressed=\"false\">Hide marks</button>"
        "<button id=\"before\" type=\"button\">Piece before</button>"
        "<button id=\"after\" type=\"button\">Next piece</button>"
        "<button id=\"doubtful\" type=\"button\">Next doubtful</button></p></div>",
        photo.id, escaped(fmt::format("Photo of the place {}", placeWord(photo.place))),
        photo.measurement.photo.widthPx, photo.measurement.photo.heightPx);
}

std::string correctionButtons() {
    std::string buttons = "<button name=\"is\" id=\"right\" hidden></button>";
    for (const std::string& word : correctionWords())
        buttons += fmt::format("<button name=\"is\" value=\"{0}\">{0}</button>", escaped(word));
    return buttons + "<button name=\"is\" value=\"\" id=\"undo\" hidden>Undo: as measured</button>";
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

/// A piece that is tapped: what it is, what a hand says of it, and what became of that. On a phone
/// it is a sheet at the bottom of the screen, on a monitor a column beside the photo.
std::string pieceSheet(std::int64_t photo) {
    return fmt::format(
        "<div id=\"sheet\" role=\"region\" aria-label=\"The piece that is tapped\">"
        "<p id=\"hint\">Tap a piece on the photo: its size and type are shown here, and you can "
        "say what it is.</p><div id=\"kept\"><p id=\"told\" role=\"status\"></p><button "
        "id=\"undo-last\" type=\"button\" hidden>Undo</button></div>{0}<form id=\"piece\" "
        "method=\"post\" action=\"/photo/{1}/piece\" hidden><div id=\"head\"><canvas id=\"crop\" "
        "width=\"240\" height=\"240\" role=\"img\" aria-label=\"The piece enlarged\"></canvas>"
        "<div><h2 id=\"name\" tabindex=\"-1\"></h2><p id=\"size\"></p></div></div><p "
        "class=\"steps\"><button id=\"piece-before\" type=\"button\">Before</button><button "
        "id=\"piece-after\" type=\"button\">Next</button><button id=\"close\" "
        "type=\"button\">Close</button></p><p>What is it? Tap what you see.</p>"
        "<div class=\"buttons\">{2}</div>{3}<dl id=\"facts\"></dl></form></div>",
        joiningButtons(), photo, correctionButtons(), countButtons());
}

std::string measureAgainForm(std::int64_t photo) {
    return fmt::format("<form method=\"post\" action=\"/photo/{}/again\"><p>Measure it again "
                       "after the size of a magnet was filled in, or with a newer program. "
                       "Corrections stay.</p><button>Measure again</button></form>",
                       photo);
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
        body += "<div id=\"bench\">" + photoAndMarks(photo) + pieceSheet(number) + "</div>" +
                "<section id=\"measured\">" + measuredSection(photo.measurement) + "</section>" +
                secondPhotosOffered(photo) + photoElsewhereForm(book, photo) +
                measureAgainForm(number) + withdrawPhotoForm(number);
        return page({fmt::format("{}, photo {}", placeTitle(photo.place), number), body,
                     fmt::format("/visit/{}", photo.visitId),
                     fmt::format("Visit {}", photo.visitId), "photo.js"});
    });
}

Answer photoMarks(Workshop& workshop, std::int64_t number) {
    return workshop.book.read(
        [&](const Book& book) { return json(marksText(book.photo(number))); });
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
        return json(marksText(book.photo(number)));
    });
}

} // namespace swarfbook::web
