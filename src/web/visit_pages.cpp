// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "bench/typed.h"
#include "entry/finding_words.h"
#include "report/report_words.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/visit_rows.h"

#include <fmt/format.h>

#include <map>

namespace swarfbook::web {
namespace {

constexpr std::size_t mostVisitsShown = 60; ///< ours: what one scrolls through

std::string visitFacts(const Visit& visit) {
    std::string text = dateWords(visit.date);
    if (visit.odometerKm)
        text += ", " + distanceWords(*visit.odometerKm);
    if (visit.sinceCleanKm)
        text += fmt::format(", {} since the last clean", distanceWords(*visit.sinceCleanKm));
    return text;
}

std::string visitItem(const Visit& visit, const Vehicle& vehicle, std::size_t photos) {
    return fmt::format("<li><a class=\"item\" href=\"/visit/{}\"><strong>{}</strong> "
                       "<span>visit {}, {}</span><small>{}{} {}</small></a></li>",
                       visit.id, escaped(vehicle.label), visit.id, escaped(visitFacts(visit)),
                       visit.complaint.empty() ? "" : escaped(visit.complaint) + ". ", photos,
                       photos == 1 ? "photo" : "photos");
}

std::string photoItems(const std::vector<StoredPhoto>& photos) {
    std::string items;
    for (const StoredPhoto& photo : photos)
        items += fmt::format(
            "<li><a class=\"item photo\" href=\"/photo/{0}\"><img src=\"/photo/{0}/picture?small="
            "1\" alt=\"\" loading=\"lazy\" width=\"160\" height=\"120\"><span><strong>{1}</strong>"
            "<br>{2}</span></a></li>",
            photo.id, escaped(placeTitle(photo.place)), escaped(findingInShort(photo.measurement)));
    return items.empty() ? "<p>No photo yet.</p>" : "<ul class=\"items\">" + items + "</ul>";
}

std::string stepItems(const Book& book, const Visit& visit) {
    const VisitRows rows(book, visit);
    std::string items;
    for (std::size_t i = 0; i < rows.steps().size(); ++i) {
        const StepState state = rows.stateOf(i);
        items += fmt::format(
            "<li><a class=\"item step{}\" href=\"/visit/{}/step?n={}\"><strong>{}"
            "</strong><span>{} of {} answered{}</span></a></li>",
            state.open == 0 ? " done" : "", visit.id, i + 1, escaped(rows.steps()[i].title),
            state.rows - state.open - state.leftOut, state.rows,
            state.leftOut == 0 ? "" : fmt::format(", {} not inspected", state.leftOut));
    }
    return "<ol class=\"items\">" + items + "</ol>";
}

} // namespace

std::string tickFor(const std::string& name, const std::string& words, bool ticked) {
    return fmt::format("<div class=\"field\"><label class=\"choice\"><input type=\"checkbox\" "
                       "name=\"{}\" value=\"1\"{}><span>{}</span></label></div>",
                       name, ticked ? " checked" : "", words);
}

std::optional<double> kilometresTyped(const std::string& typed) {
    if (typed.find_first_not_of(' ') == std::string::npos)
        return std::nullopt;
    const bool number = typed.find_first_not_of(" 0123456789.,'") == std::string::npos;
    return parseDistance(!number ? typed : typed + (shownUnits().miles ? "mi" : "km"), Sure::meant)
        .value.value();
}

Answer visitsPage(Workshop& workshop, const Asked& asked) {
    const std::string typed = asked.said("from");
    const std::size_t from = typed.empty() ? 0 : static_cast<std::size_t>(numberOf(typed));
    return workshop.book.read([&](const Book& book) {
        std::map<std::int64_t, Vehicle> vehicles;
        for (const Vehicle& one : book.vehicles())
            vehicles[one.id] = one;
        const auto photos = book.photosOfVisits();
        std::string items;
        const std::vector<Visit> visits = book.allVisits();
        for (std::size_t i = from; i < visits.size() && i < from + mostVisitsShown; ++i) {
            const auto count = photos.find(visits[i].id);
            items += visitItem(visits[i], vehicles[visits[i].vehicleId],
                               count == photos.end() ? 0 : count->second);
        }
        const std::size_t next = from + mostVisitsShown;
        const std::string more =
            visits.size() > next
                ? "<p class=\"buttons\">" +
                      button(fmt::format("/?from={}", next), "Earlier visits") + "</p>"
                : "";
        return page({"Visits",
                     "<p class=\"buttons\">" + button("/new", "New visit", true) +
                         button("/vehicles", "Vehicles") + button("/devices", "Devices") +
                         "</p><ul class=\"items\">" + items + "</ul>" + more +
                         withdrawnVisitsList(book),
                     ""});
    });
}

Answer newVisitPage(Workshop& workshop, const Asked& asked, const std::string& wrong) {
    std::vector<std::string> labels;
    workshop.book.read([&](const Book& book) {
        for (const Vehicle& one : book.vehicles())
            labels.push_back(one.label);
    });
    const auto again = [&](const char* name, const char* usual = "") {
        const std::string said = asked.said(name);
        return said.empty() ? std::string(usual) : said;
    };
    return page(
        {"New visit",
         (wrong.empty() ? "" : notice("warning", wrong)) +
             "<form method=\"post\" action=\"/new\">" +
             field({"vehicle", "Vehicle", again("vehicle"), "its label in the book", "text",
                    labels}) +
             tickFor("new", "It is new to the book", asked.said("new") == "1") +
             field({"unit", "Transmission", again("unit"), "of a new vehicle: as you call it"}) +
             field({"date", "Date", again("date", "today"), "today, or a day such as 2025-03-14"}) +
             field({"odometer", "Odometer", again("odometer"),
                    "with its unit, or in that of the "
                    "book's settings"}) +
             field({"since-clean", "Distance since the last documented clean", again("since-clean"),
                    "leave it empty where it is not known"}) +
             tickFor("earlier", "It was before visits that are in the book already",
                     asked.said("earlier") == "1") +
             tickFor("replaced", "The odometer started again from zero since the last visit",
                     asked.said("replaced") == "1") +
             field({"complaint", "Complaint", again("complaint"), "in the customer's words"}) +
             field({"by", "Who looks", again("by")}) +
             "<button class=\"main\">Start the visit</button></form>",
         "/"},
        wrong.empty() ? 200 : 400);
}

Answer addVisit(Workshop& workshop, const Asked& asked) {
    try {
        return workshop.book.write([&](Book& book) {
            Visit visit;
            visit.date = asked.said("date");
            visit.odometerKm = kilometresTyped(asked.said("odometer"));
            visit.sinceCleanKm = kilometresTyped(asked.said("since-clean"));
            visit.complaint = asked.said("complaint");
            visit.lookedBy = asked.said("by");
            visit.odometerReplaced = asked.said("replaced") == "1";
            BookTransaction transaction = book.begin();
            const std::string label = asked.said("vehicle");
            visit.vehicleId = asked.said("new") == "1"
                                  ? book.addVehicle({0, label, "", "", "", asked.said("unit")}).id
                                  : book.vehicleByLabel(label).id;
            visit = book.addVisit(visit, asked.said("earlier") == "1");
            transaction.commit();
            return goTo(fmt::format("/visit/{}", visit.id));
        });
    } catch (const UsageError& error) {
        return newVisitPage(workshop, asked, error.what());
    }
}

Answer visitPage(Workshop& workshop, std::int64_t number) {
    return workshop.book.read([&](const Book& book) {
        const Visit visit = book.visit(number);
        const Vehicle vehicle = book.vehicle(visit.vehicleId);
        const std::string here = fmt::format("/visit/{}", number);
        std::string body = fmt::format("<p>{}{}</p>", escaped(visitFacts(visit)),
                                       vehicle.unit.empty() ? "" : ", " + escaped(vehicle.unit));
        if (!visit.complaint.empty())
            body += fmt::format("<p class=\"complaint\">{}</p>", escaped(visit.complaint));
        body += "<section><h2>Photos</h2>" + photoItems(book.photos(number)) +
                "<p class=\"buttons\">" + button(here + "/shoot", "Add photos", true) +
                button(here + "/flush", "Flush a part") +
                "</p></section><section><h2>Work sheet</h2>" + stepItems(book, visit) +
                "</section><section><h2>What comes of it</h2><p class=\"buttons\">" +
                button(here + "/suggestion", "Suggestion", true) +
                button(here + "/report", "Report") + button(here + "/compare", "Then and now") +
                button(here + "/observed", "All observations") +
                button(here + "/correct", "Put this visit right") +
                button(fmt::format("/vehicle/{}", vehicle.id), "Its vehicle") + "</p></section>";
        return page({fmt::format("{}, visit {}", vehicle.label, number), body, "/"});
    });
}

} // namespace swarfbook::web
