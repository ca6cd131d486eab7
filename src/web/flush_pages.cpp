// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "entry/flush_kept.h"
#include "judgement/flush_words.h"
#include "record/flush_of_visit.h"
#include "report/flush_table.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace swarfbook::web {
namespace {

struct StepWords {
    FlushStep step;
    std::string_view words;
};
constexpr std::array<StepWords, 4> stepWords{{{FlushStep::wash, "washed"},
                                              {FlushStep::demagnetise, "demagnetised, washed"},
                                              {FlushStep::air, "blown out"},
                                              {FlushStep::hot, "washed hot"}}};

FlushStep passStepAsked(const Asked& asked) {
    try {
        return flushStepFromName(asked.said("step"));
    } catch (const std::invalid_argument&) {
        throw UsageError("Say how the part was flushed.");
    }
}

StoredFlush flushAsked(const Book& book, std::int64_t visit, const Asked& asked) {
    StoredFlush flush = book.flush(numberOf(asked.said("flush")));
    if (flush.visitId != visit)
        throw UsageError("That flush is of another visit.");
    return flush;
}

/// A pass with a bar as long as its count.
std::string passItem(const PassInWords& pass) {
    constexpr double barLength = 100.0; // of the drawing; the style stretches it
    return fmt::format("<li><svg viewBox=\"0 0 100 1\" preserveAspectRatio=\"none\" "
                       "aria-hidden=\"true\"><rect width=\"{:.1f}\" height=\"1\"/></svg>{}: "
                       "{}</li>",
                       barLength * pass.ofMost, escaped(pass.pass), escaped(pass.found));
}

std::string flushItem(const StoredFlush& flush, const FlushOfPart& counted) {
    std::string body = fmt::format("<section><h2>{}</h2>", escaped(flush.part));
    if (flush.passes.empty()) {
        body += "<p>No pass was photographed yet.</p>";
    } else {
        body += fmt::format("<p>{}</p><ol class=\"flushed\">", escaped(flushHead(counted)));
        for (const PassInWords& one : passesInWords(counted))
            body += passItem(one);
        body += fmt::format("</ol><p class=\"compared\">{}</p>",
                            escaped(flushVerdictSentence(counted)));
    }
    body += "<p class=\"buttons\">" +
            button(fmt::format("/visit/{}/pass?flush={}", flush.visitId, flush.id),
                   "Photo of a pass", true) +
            "</p>";
    if (flush.passes.empty())
        body += "<details><summary>Withdraw this flush</summary><p>It stays in the book and counts "
                "nowhere. It can be brought back.</p>" +
                actForm(fmt::format("/flush/{}/withdraw", flush.id), "Withdraw it", true) +
                "</details>";
    return body + "</section>";
}

std::string beginForm(std::int64_t visit, const Asked& asked, const std::string& wrong) {
    const std::string sure =
        wrong.empty() ? ""
                      : "<div class=\"field\"><label class=\"choice\"><input type=\"checkbox\" "
                        "name=\"sure\" value=\"1\"><span>It is so: keep it as typed</span></label>"
                        "</div>";
    return fmt::format(
        "<section><h2>Begin a flush</h2>{}<form method=\"post\" action=\"/visit/{}/flush\">{}{}"
        "<p class=\"buttons\"><button class=\"main\" name=\"tray\" value=\"photo\">Photograph "
        "the clean tray first</button><button>Begin without it</button></p></form></section>",
        wrong.empty() ? "" : notice("warning", wrong), visit,
        field({"part", "Part that is flushed", asked.said("part"), "such as: solenoid A"}), sure);
}

/// A form that sends photos of the tray.
std::string trayForm(std::int64_t visit, const std::string& flush, const std::string& fields) {
    return fmt::format(
        "<form id=\"shoot\" data-visit=\"{}\"><input type=\"hidden\" name=\"flush\" "
        "value=\"{}\"><input type=\"hidden\" name=\"place\" value=\"tray\">{}{}{}{}</form>{}",
        visit, escaped(flush), fields, photoButtons(), sentPhotos(), barField(), howToHold());
}

Measurement measuredTray(Workshop& workshop, const PhotoGiven& photo, const HowMeasured& how,
                         std::string_view what) {
    Measurement found = measuredForPages(workshop, [&](const Book& book, const AssessData& data) {
        return measureForBook(
            book,
            photoFrom(std::vector<std::byte>(photo.bytes.begin(), photo.bytes.end()), photo.file),
            data, how);
    });
    requireCounted(found, what);
    return found;
}

HowMeasured howOfTray(const Asked& asked) {
    HowMeasured how;
    how.place = Place::tray;
    how.typedBarMm = barTyped(asked);
    return how;
}

Answer startWithTray(Workshop& workshop, std::int64_t visit, const Asked& asked,
                     const PhotoGiven& photo) {
    NewFlush begun{visit, asked.said("part"), "", std::nullopt};
    begun.tray = measuredTray(workshop, photo, howOfTray(asked), "The photo of the clean tray");
    const StoredFlush flush =
        workshop.book.write([&](Book& book) { return beginFlush(book, std::move(begun), photo); });
    return json(jsonText({{"href", fmt::format("/visit/{}/pass?flush={}", visit, flush.id)},
                          {"go", "Go on to the first pass"},
                          {"said", fmt::format("The flush of {} is begun.", flush.part)}}));
}

Answer addPass(Workshop& workshop, std::int64_t visit, const Asked& asked,
               const PhotoGiven& photo) {
    PassToKeep pass;
    pass.step = passStepAsked(asked);
    pass.how = howOfTray(asked);
    const StoredFlush flush = workshop.book.read([&](const Book& book) {
        StoredFlush of = flushAsked(book, visit, asked);
        pass.how.cleanReference = cleanTrayOf(book, of);
        if (const auto before = measuredForFlush(book, asked.said("sha256"), of)) {
            pass.found = before->measurement;
            pass.measuredBefore = true;
        }
        return of;
    });
    if (!pass.measuredBefore)
        pass.found = measuredTray(workshop, photo, pass.how, "The photo");
    const auto [kept, verdict] = workshop.book.write([&](Book& book) {
        const StoredPhoto of = keepPass(book, flush, photo, pass);
        const FlushOfPart counted = countedFlush(book.flush(flush.id), book.photos(visit));
        return std::pair(of, flushVerdictSentence(counted));
    });
    nlohmann::json told = toldOf(kept);
    told["said"] = told["said"].get<std::string>() + " " + verdict;
    return json(jsonText(told));
}

} // namespace

Answer flushesPage(Workshop& workshop, std::int64_t visit, const Asked& asked,
                   const std::string& wrong) {
    return workshop.book.read([&](const Book& book) {
        const std::vector<StoredPhoto> photos = book.photos(book.visit(visit).id);
        std::string body;
        for (const StoredFlush& flush : book.flushes(visit))
            body += flushItem(flush, countedFlush(flush, photos));
        body += beginForm(visit, asked, wrong);
        if (const auto withdrawn = book.withdrawnFlushes(visit); !withdrawn.empty())
            body += "<details><summary>Withdrawn flushes</summary>" +
                    withdrawnList("flush", withdrawn) + "</details>";
        return page(
            {"Flush passes", body, fmt::format("/visit/{}", visit), fmt::format("Visit {}", visit)},
            wrong.empty() ? 200 : 400);
    });
}

Answer startFlush(Workshop& workshop, std::int64_t number, const Asked& asked) {
    try {
        const std::string part = workshop.book.read([&](const Book& book) {
            if (asked.said("part").find_first_not_of(' ') == std::string::npos)
                throw UsageError("Say which part is flushed.");
            return partToFlush(book, book.visit(number), asked.said("part"),
                               asked.said("sure") == "1" ? Sure::meant : Sure::ask);
        });
        if (asked.said("tray") == "photo")
            return goTo(fmt::format("/visit/{}/tray?part={}", number, encoded(part)));
        const StoredFlush flush = workshop.book.write([&](Book& book) {
            return beginFlush(book, {number, part, "", std::nullopt}, {});
        });
        return goTo(fmt::format("/visit/{}/pass?flush={}", number, flush.id));
    } catch (const UsageError& error) {
        return flushesPage(workshop, number, asked, error.what());
    }
}

Answer withdrawFlushOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const std::int64_t visit = workshop.book.write([&](Book& book) {
        const std::int64_t of = book.flush(number).visitId;
        book.withdrawFlush(number, {deviceName(workshop, asked), asked.said("why")});
        return of;
    });
    return goTo(fmt::format("/visit/{}/flush", visit));
}

Answer bringFlushBack(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const std::int64_t visit = workshop.book.write([&](Book& book) {
        book.bringBackFlush(number, {deviceName(workshop, asked), ""});
        return book.flush(number).visitId;
    });
    return goTo(fmt::format("/visit/{}/flush", visit));
}

Answer cleanTrayPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const std::string part = asked.said("part");
    workshop.book.read([&](const Book& book) { return book.visit(visit); });
    if (part.empty())
        throw UsageError("Say which part is flushed.");
    return page(
        {"Clean tray",
         "<p>Wipe the tray and lay the card in it. What this photo shows is not counted in "
         "any pass.</p>" +
             trayForm(visit, "new",
                      "<input type=\"hidden\" name=\"part\" value=\"" + escaped(part) + "\">"),
         fmt::format("/visit/{}/flush", visit), "Flush passes", "shoot.js"});
}

Answer passPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const StoredFlush flush =
        workshop.book.read([&](const Book& book) { return flushAsked(book, visit, asked); });
    std::string choices;
    for (const StepWords& one : stepWords)
        choices +=
            answerToTap("step", flushStepName(one.step), one.words, one.step == FlushStep::wash);
    return page({fmt::format("{}, pass {}", flush.part, flush.passes.size() + 1),
                 "<p>Photograph the tray after the pass, the card on the same spot and the same "
                 "card for every pass. Empty and wipe the tray before the next one.</p>" +
                     trayForm(visit, std::to_string(flush.id),
                              "<fieldset><legend>How the part was flushed</legend><div "
                              "class=\"choices\">" +
                                  choices + "</div></fieldset>"),
                 fmt::format("/visit/{}/flush", visit), "Flush passes", "shoot.js"});
}

Answer finishFlushPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto coming = comingPhotoOf(asked);
    workshop.book.read([&](const Book& book) { return book.visit(visit); });
    const std::vector<std::byte> bytes = workshop.uploads.whole(coming);
    const PhotoGiven photo{photoNameOf(asked), bytes};
    return answeredOnce(workshop, coming, [&] {
        return asked.said("flush") == "new" ? startWithTray(workshop, visit, asked, photo)
                                            : addPass(workshop, visit, asked, photo);
    });
}

} // namespace swarfbook::web
