// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "report/report_words.h"
#include "web/html.h"
#include "web/pages.h"

#include <fmt/format.h>

namespace swarfbook::web {
namespace {

/// A distance as it is shown, to be typed over; "" where it is not known.
std::string distanceToType(const std::optional<double>& km) {
    return km ? distanceWords(*km) : std::string();
}

/// What is typed; what was left as it stood keeps its value to the last digit.
std::optional<double> distanceKept(const std::string& typed, const std::optional<double>& before) {
    return typed == distanceToType(before) ? before : kilometresTyped(typed);
}

std::string headForm(const Visit& visit, const std::string& label, const Asked& asked) {
    const auto again = [&](const char* name, const std::string& stands) {
        return asked.method == "POST" ? asked.said(name) : stands;
    };
    return fmt::format("<form method=\"post\" action=\"/visit/{}/correct\">", visit.id) +
           field({"vehicle", "Vehicle", again("vehicle", label), "its label in the book"}) +
           field({"date", "Date", again("date", visit.date), "such as 2025-03-14"}) +
           field({"odometer", "Odometer", again("odometer", distanceToType(visit.odometerKm))}) +
           tickFor("replaced", "The odometer started again from zero since the last visit",
                   asked.method == "POST" ? asked.said("replaced") == "1"
                                          : visit.odometerReplaced) +
           field({"since-clean", "Distance since the last documented clean",
                  again("since-clean", distanceToType(visit.sinceCleanKm)), "empty: not known"}) +
           field({"complaint", "Complaint", again("complaint", visit.complaint)}) +
           field({"by", "Who looks", again("by", visit.lookedBy)}) +
           "<button class=\"main\">Keep</button></form>";
}

} // namespace

std::string withdrawnList(const std::string& noun, const std::vector<Withdrawal>& all) {
    std::string rows;
    for (const Withdrawal& one : all)
        rows += fmt::format("<li class=\"row\"><div>{} {}: {}{}</div>{}</li>",
                            noun == "visit"   ? "Visit"
                            : noun == "photo" ? "Photo"
                                              : "Flush",
                            one.number, escaped(one.reason.why),
                            one.reason.by.empty() ? "" : " (" + escaped(one.reason.by) + ")",
                            actForm(fmt::format("/{}/{}/back", noun, one.number),
                                    fmt::format("Bring {} {} back", noun, one.number), false));
    return rows.empty() ? rows : "<ul class=\"rows\">" + rows + "</ul>";
}

Answer putRightPage(Workshop& workshop, std::int64_t number, const Asked& asked,
                    const std::string& wrong) {
    return workshop.book.read([&](const Book& book) {
        const Visit visit = book.visit(number);
        std::string body = (wrong.empty() ? "" : notice("warning", wrong)) +
                           headForm(visit, book.vehicle(visit.vehicleId).label, asked);
        if (const auto photos = book.withdrawnPhotos(number); !photos.empty())
            body += "<section><h2>Withdrawn photos</h2>" + withdrawnList("photo", photos) +
                    "</section>";
        body += "<section><h2>Withdraw the visit</h2><p>It stays in the book and counts nowhere. "
                "It can be brought back.</p>" +
                actForm(fmt::format("/visit/{}/withdraw", number), "Withdraw this visit", true) +
                "</section>";
        return page({fmt::format("Put visit {} right", number), body,
                     fmt::format("/visit/{}", number), fmt::format("Visit {}", number)},
                    wrong.empty() ? 200 : 400);
    });
}

Answer correctVisitOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    try {
        workshop.book.write([&](Book& book) {
            BookTransaction transaction = book.begin();
            Visit visit = book.visit(number);
            visit.vehicleId = book.vehicleByLabel(asked.said("vehicle")).id;
            visit.date = asked.said("date");
            visit.odometerKm = distanceKept(asked.said("odometer"), visit.odometerKm);
            visit.sinceCleanKm = distanceKept(asked.said("since-clean"), visit.sinceCleanKm);
            visit.odometerReplaced = asked.said("replaced") == "1";
            visit.complaint = asked.said("complaint");
            visit.lookedBy = asked.said("by");
            book.correctVisit(visit, true);
            transaction.commit();
        });
    } catch (const UsageError& error) {
        return putRightPage(workshop, number, asked, error.what());
    }
    return goTo(fmt::format("/visit/{}", number));
}

Answer withdrawVisitOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    try {
        workshop.book.write([&](Book& book) {
            book.withdrawVisit(number, {deviceName(workshop, asked), asked.said("why")});
        });
    } catch (const UsageError& error) {
        return putRightPage(workshop, number, {}, error.what());
    }
    return goTo("/");
}

Answer bringVisitBack(Workshop& workshop, std::int64_t number, const Asked& asked) {
    workshop.book.write([&](Book& book) {
        book.bringBackVisit(number, {deviceName(workshop, asked), ""});
    });
    return goTo(fmt::format("/visit/{}", number));
}

Answer withdrawPhotoOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    const std::int64_t visit = workshop.book.write([&](Book& book) {
        const std::int64_t of = book.photo(number).visitId;
        book.withdrawPhoto(number, {deviceName(workshop, asked), asked.said("why")});
        return of;
    });
    return goTo(fmt::format("/visit/{}", visit));
}

Answer bringPhotoBack(Workshop& workshop, std::int64_t number, const Asked& asked) {
    workshop.book.write([&](Book& book) {
        book.bringBackPhoto(number, {deviceName(workshop, asked), ""});
    });
    return goTo(fmt::format("/photo/{}", number));
}

std::string withdrawPhotoForm(std::int64_t number) {
    return "<details><summary>Withdraw this photo</summary><p>It stays in the book and counts "
           "nowhere. \"Put this visit right\" on the visit's page brings it back.</p>" +
           actForm(fmt::format("/photo/{}/withdraw", number), "Withdraw it", true) + "</details>";
}

std::string withdrawnVisitsList(const Book& book) {
    std::vector<Withdrawal> all;
    for (const Vehicle& vehicle : book.vehicles())
        for (const Withdrawal& one : book.withdrawnVisits(vehicle.id))
            all.push_back(one);
    const std::string list = withdrawnList("visit", all);
    return list.empty() ? list
                        : "<details><summary>Withdrawn visits</summary>" + list + "</details>";
}

} // namespace swarfbook::web
