// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "entry/keep_observation.h"
#include "entry/repair_done.h"
#include "entry/work_photo_words.h"
#include "record/evidence_of_visit.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/row_form.h"
#include "web/visit_rows.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook::web {
namespace {

std::string addressOf(std::int64_t visit, const SheetRow& row, std::size_t step) {
    return fmt::format("/visit/{}/row?name={}&other={}&n={}", visit, encoded(row.name()),
                       row.unnamed ? 1 : 0, step);
}

std::string hiddenFields(const SheetRow& row, std::size_t step) {
    return fmt::format("<input type=\"hidden\" name=\"name\" value=\"{}\"><input type=\"hidden\" "
                       "name=\"other\" value=\"{}\"><input type=\"hidden\" name=\"n\" "
                       "value=\"{}\">",
                       escaped(row.name()), row.unnamed ? 1 : 0, step);
}

std::string rowItem(std::int64_t visit, const VisitRows& rows, const SheetRow& row,
                    std::size_t step) {
    std::string said;
    for (const std::string& line : rows.said(row))
        said += "<br><small>" + escaped(line) + "</small>";
    const bool answered = !row.unnamed && rows.isAnswered(row);
    const std::string leave =
        answered || row.unnamed
            ? ""
            : fmt::format("<form method=\"post\" action=\"/visit/{}/row\">{}<button "
                          "name=\"left-out\" value=\"1\" aria-label=\"{}: not inspected\">Not "
                          "inspected</button></form>",
                          visit, hiddenFields(row, step), escaped(row.title()));
    const std::string photos =
        !said.empty() && takesWorkPhotos(observationForm(row.block->form).kind)
            ? button(fmt::format("/visit/{}/observed", visit), "Photos of this work")
            : "";
    return fmt::format("<li class=\"row{}\"><a class=\"item\" href=\"{}\"><strong>{}</strong>{}"
                       "</a>{}{}</li>",
                       !answered             ? ""
                       : rows.isLeftOut(row) ? " left"
                                             : " done",
                       escaped(addressOf(visit, row, step)), escaped(row.title()), said, leave,
                       photos);
}

std::size_t stepAsked(const Asked& asked, const VisitRows& rows) {
    const auto step = static_cast<std::size_t>(numberOf(asked.said("n")));
    if (step > rows.steps().size())
        throw UsageError("There is no such page.");
    return step;
}

std::string stepAddress(std::int64_t visit, const Asked& asked) {
    return fmt::format("/visit/{}/step?n={}", visit, numberOf(asked.said("n")));
}

/// The observations that the form means, the first of them that of the row.
std::vector<ToKeep> entriesOf(const SheetRow& row, const Asked& asked, const std::string& by) {
    if (asked.said("left-out") == "1")
        return {{NotInspected{row.name()}, by, {}}};
    const Sure sure = asked.said("sure") == "1" ? Sure::meant : Sure::ask;
    Observation whole = rowFilledIn(row, asked, sure);
    completeObservation(whole, sure);
    std::vector<ToKeep> entries;
    for (Observation& one : withWorkRead(whole, WorkAsked::partsAlone, sure))
        entries.push_back({std::move(one), by, {}, sure});
    return entries;
}

/// The remarks that the page of the step does not show already.
std::vector<std::string> withoutShown(std::vector<std::string> remarks, const SheetSection& step) {
    std::erase_if(remarks, [&](const std::string& remark) {
        return std::any_of(step.cautions.begin(), step.cautions.end(),
                           [&](const std::string& caution) { return remark.ends_with(caution); });
    });
    return remarks;
}

} // namespace

std::string deviceName(const Workshop& workshop, const Asked& asked) {
    for (const PairedDevice& one : workshop.devices.all())
        if (one.number == asked.device)
            return one.name;
    return {};
}

Answer stepPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    return workshop.book.read([&](const Book& book) {
        const VisitRows rows(book, book.visit(visit));
        const std::size_t step = stepAsked(asked, rows);
        const SheetSection& section = rows.steps()[step - 1];
        std::string body;
        for (const std::string& caution : section.cautions)
            body += notice("caution", caution);
        for (const std::string& note : section.notes)
            body += "<p>" + escaped(forPages(note)) + "</p>";
        body += "<ul class=\"rows\">";
        for (const SheetRow& row : rows.rowsOf(section))
            body += rowItem(visit, rows, row, step);
        body += "</ul><p class=\"buttons\">";
        if (step < rows.steps().size())
            body += button(fmt::format("/visit/{}/step?n={}", visit, step + 1),
                           "Next: " + rows.steps()[step].title, true);
        return page({section.title, body + "</p>", fmt::format("/visit/{}", visit),
                     fmt::format("Visit {}", visit)});
    });
}

Answer rowPage(Workshop& workshop, std::int64_t visit, const Asked& asked,
               const std::string& wrong) {
    return workshop.book.read([&](const Book& book) {
        const VisitRows rows(book, book.visit(visit));
        const SheetRow row = rows.row(asked.said("name"), asked.said("other") == "1");
        std::string body = wrong.empty() ? "" : notice("warning", wrong);
        body += listUnder("In the book", rows.said(row));
        body += fmt::format("<form method=\"post\" action=\"/visit/{}/row\">{}{}", visit,
                            hiddenFields(row, stepAsked(asked, rows)), rowFields(row, asked));
        if (!wrong.empty())
            body += tickFor("sure", "It is so: keep it as typed", false);
        body += "<button class=\"main\">Keep</button></form>";
        const std::string back = stepAddress(visit, asked);
        return page({row.title(), body, back, rows.steps()[stepAsked(asked, rows) - 1].title},
                    wrong.empty() ? 200 : 400);
    });
}

Answer keepRow(Workshop& workshop, std::int64_t number, const Asked& asked) {
    std::vector<std::string> remarks;
    try {
        workshop.book.write([&](Book& book) {
            BookTransaction transaction = book.begin();
            const Visit visit = book.visit(number);
            const VisitRows rows(book, visit);
            const SheetRow row = rows.row(asked.said("name"), asked.said("other") == "1");
            ObservationKeeper keeper(book, visit);
            for (ToKeep& one : entriesOf(row, asked, deviceName(workshop, asked)))
                keeper.keep(one);
            transaction.commit();
            remarks = withoutShown(keeper.takeRemarks(), rows.steps()[stepAsked(asked, rows) - 1]);
        });
    } catch (const UsageError& error) {
        return rowPage(workshop, number, asked, error.what());
    }
    return keptPage(remarks, stepAddress(number, asked));
}

Answer keptPage(const std::vector<std::string>& remarks, const std::string& back) {
    if (remarks.empty())
        return goTo(back);
    std::string body = notice("note", "It is in the book.");
    for (const std::string& remark : remarks)
        body += notice("caution", remark);
    return page({"Kept", body + "<p class=\"buttons\">" + button(back, "Go on", true) + "</p>",
                 back, "Back"});
}

namespace {

/// The photos of a line of work, and what adds one.
std::string photosOfWork(const std::vector<WorkPhoto>& photos, std::int64_t visit,
                         std::int64_t work) {
    const std::string words = workPhotoWords(photos, work);
    return (words.empty() ? "" : "<br><small>" + escaped(words) + "</small>") +
           "<p class=\"buttons\">" +
           button(fmt::format("/visit/{}/work?work={}", visit, work), "Photos of this work") +
           "</p>";
}

} // namespace

Answer observedPage(Workshop& workshop, std::int64_t visit) {
    return workshop.book.read([&](const Book& book) {
        std::string rows;
        const std::vector<WorkPhoto> photos = book.workPhotos(book.visit(visit).id);
        for (const StoredObservation& one : standing(book.observations(visit))) {
            const auto readable = observationIfReadable(book, one);
            if (!readable)
                continue;
            rows += fmt::format(
                "<li class=\"row\"><div><strong>{0}</strong><br><small>number "
                "{1}{2}</small>{4}</div><p class=\"buttons\">{5}</p>"
                "<form method=\"post\" action=\"/visit/{3}/take-back\"><input type=\"hidden\" "
                "name=\"number\" value=\"{1}\"><label>Why <input name=\"why\" required></label>"
                "<button aria-label=\"Take back number {1}\">Take back</button></form></li>",
                escaped(describe(*readable)), one.id,
                one.by.empty() ? "" : ", by " + escaped(one.by), visit,
                takesWorkPhotos(one.kind) ? photosOfWork(photos, visit, one.id) : "",
                putRightButton(visit, *readable, one));
        }
        return page(
            {"All observations",
             "<p class=\"buttons\">" +
                 button(fmt::format("/visit/{}/observe", visit), "Another observation", true) +
                 "</p>" +
                 (rows.empty() ? "<p>Nothing was observed yet.</p>"
                               : "<p>What is taken back stays in the book with the reason, and "
                                 "counts nowhere.</p><ul class=\"rows\">" +
                                     rows + "</ul>"),
             fmt::format("/visit/{}", visit), fmt::format("Visit {}", visit)});
    });
}

Answer takeBack(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const std::string why = asked.said("why");
    if (why.find_first_not_of(' ') == std::string::npos)
        throw UsageError("Say why it is taken back: both stay in the book.");
    workshop.book.write([&](Book& book) {
        BookTransaction transaction = book.begin();
        ObservationKeeper keeper(book, book.visit(number));
        ToKeep taken{TakenBack{why}, deviceName(workshop, asked), numberOf(asked.said("number"))};
        keeper.keep(taken);
        transaction.commit();
    });
    return goTo(fmt::format("/visit/{}/observed", number));
}

} // namespace swarfbook::web
