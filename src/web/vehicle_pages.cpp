// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "base/text.h"
#include "web/html.h"
#include "web/pages.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook::web {
namespace {

constexpr std::size_t mostVehiclesShown = 100; ///< ours: what one scrolls through

std::string addressOf(const Vehicle& vehicle) {
    return fmt::format("/vehicle/{}", vehicle.id);
}

std::string vehicleItem(const VehicleInShort& one) {
    const std::string visits = one.visits == 0 ? "no visit"
                                               : fmt::format("{} {}, the last on {}", one.visits,
                                                             one.visits == 1 ? "visit" : "visits",
                                                             dateWords(one.lastVisit));
    return fmt::format("<li><a class=\"item\" href=\"{}\"><strong>{}</strong><span>{}</span>"
                       "<small>{}</small></a></li>",
                       addressOf(one.vehicle), escaped(one.vehicle.label),
                       escaped(one.vehicle.unit), escaped(visits));
}

/// Those whose label holds the text, capitals and small letters alike.
std::vector<VehicleInShort> vehiclesWith(const Book& book, const std::string& text) {
    std::vector<VehicleInShort> all = book.vehiclesInShort();
    std::erase_if(all, [&](const VehicleInShort& one) {
        return lowered(one.vehicle.label).find(lowered(text)) == std::string::npos;
    });
    return all;
}

std::string findForm(const std::string& label) {
    return "<form method=\"get\" action=\"/vehicles\">" +
           field({"label", "Part of the label", label}) + "<button>Find</button></form>";
}

std::string withdrawnVehiclesList(const Book& book) {
    std::string rows;
    for (const auto& [vehicle, reason, at] : book.withdrawnVehicles())
        rows += fmt::format("<li class=\"row\"><div>{}: {}{}</div>{}</li>", escaped(vehicle.label),
                            escaped(reason.why),
                            reason.by.empty() ? "" : " (" + escaped(reason.by) + ")",
                            actForm(addressOf(vehicle) + "/back",
                                    fmt::format("Bring {} back", vehicle.label), false));
    return rows.empty() ? rows
                        : "<details><summary>Withdrawn vehicles</summary><ul class=\"rows\">" +
                              rows + "</ul></details>";
}

/// What a vehicle says, to be typed over.
std::string vehicleForm(const Vehicle& vehicle, const Asked& asked) {
    const auto again = [&](const char* name, const std::string& stands) {
        return asked.method == "POST" ? asked.said(name) : stands;
    };
    return fmt::format("<form method=\"post\" action=\"{}\">", addressOf(vehicle)) +
           field({"label", "Label", again("label", vehicle.label), "what it is found by"}) +
           field({"unit", "Transmission", again("unit", vehicle.unit), "as you call it"}) +
           field({"plate", "Plate", again("plate", vehicle.plate)}) +
           field({"vin", "VIN", again("vin", vehicle.vin)}) +
           "<div class=\"field\"><label for=\"note\">Note</label><textarea id=\"note\" "
           "name=\"note\" rows=\"3\">" +
           escaped(again("note", vehicle.note)) +
           "</textarea></div><button class=\"main\">Keep</button></form>";
}

std::string visitsSection(const std::vector<Visit>& visits) {
    std::string items;
    for (auto visit = visits.rbegin(); visit != visits.rend(); ++visit)
        items += fmt::format("<li><a class=\"item\" href=\"/visit/{0}\"><strong>Visit {0}</strong>"
                             "<span>{1}</span><small>{2}</small></a></li>",
                             visit->id, escaped(dateWords(visit->date)), escaped(visit->complaint));
    return "<section><h2>Visits</h2>" +
           (items.empty() ? "<p>No visit yet.</p>" : "<ul class=\"items\">" + items + "</ul>") +
           "</section>";
}

std::string withdrawSection(const Vehicle& vehicle, bool hasVisits) {
    return "<section><h2>Withdraw the vehicle</h2>" +
           (hasVisits
                ? "<p>A vehicle with visits stays. Move each visit to its own vehicle, or "
                  "withdraw it: \"Put this visit right\" on the visit's page does both.</p>"
                : "<p>It stays in the book and counts nowhere. It can be brought back.</p>" +
                      actForm(addressOf(vehicle) + "/withdraw", "Withdraw this vehicle", true)) +
           "</section>";
}

/// A text of several lines as the book keeps it: a form sends line breaks as two characters.
std::string linesSaid(const Asked& asked, const std::string& name) {
    std::string text = asked.said(name);
    std::erase(text, '\r');
    return text;
}

} // namespace

Answer vehiclesPage(Workshop& workshop, const Asked& asked) {
    return workshop.book.read([&](const Book& book) {
        const std::string label = asked.said("label");
        const std::vector<VehicleInShort> all = vehiclesWith(book, label);
        std::string items;
        for (std::size_t i = 0; i < all.size() && i < mostVehiclesShown; ++i)
            items += vehicleItem(all[i]);
        std::string body = items.empty() ? "<p>There is no such vehicle.</p>"
                                         : "<ul class=\"items\">" + items + "</ul>";
        if (all.size() > mostVehiclesShown)
            body +=
                fmt::format("<p>The first {} of {} vehicles.</p>", mostVehiclesShown, all.size());
        return page({"Vehicles",
                     (label.empty() && all.size() <= mostVehiclesShown ? "" : findForm(label)) +
                         body + withdrawnVehiclesList(book),
                     "/"});
    });
}

Answer vehiclePage(Workshop& workshop, std::int64_t number, const Asked& asked,
                   const std::string& wrong) {
    return workshop.book.read([&](const Book& book) {
        const Vehicle vehicle = book.vehicle(number);
        const std::vector<Visit> visits = book.visits(number);
        return page({vehicle.label,
                     (wrong.empty() ? "" : notice("warning", wrong)) + visitsSection(visits) +
                         "<section><h2>What the book says of it</h2>" +
                         vehicleForm(vehicle, asked) + "</section>" +
                         withdrawSection(vehicle, !visits.empty()),
                     "/vehicles", "All vehicles"},
                    wrong.empty() ? 200 : 400);
    });
}

Answer correctVehicleOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    try {
        workshop.book.write([&](Book& book) {
            BookTransaction transaction = book.begin();
            Vehicle vehicle = book.vehicle(number);
            vehicle.label = asked.said("label");
            vehicle.unit = asked.said("unit");
            vehicle.plate = asked.said("plate");
            vehicle.vin = asked.said("vin");
            vehicle.note = linesSaid(asked, "note");
            book.correctVehicle(vehicle, {deviceName(workshop, asked), ""});
            transaction.commit();
        });
    } catch (const UsageError& error) {
        return vehiclePage(workshop, number, asked, error.what());
    }
    return goTo(fmt::format("/vehicle/{}", number));
}

Answer withdrawVehicleOf(Workshop& workshop, std::int64_t number, const Asked& asked) {
    try {
        workshop.book.write([&](Book& book) {
            book.withdrawVehicle(number, {deviceName(workshop, asked), asked.said("why")});
        });
    } catch (const UsageError& error) {
        return vehiclePage(workshop, number, {}, error.what());
    }
    return goTo("/vehicles");
}

Answer bringVehicleBack(Workshop& workshop, std::int64_t number, const Asked& asked) {
    workshop.book.write([&](Book& book) {
        book.bringBackVehicle(number, {deviceName(workshop, asked), ""});
    });
    return goTo(fmt::format("/vehicle/{}", number));
}

} // namespace swarfbook::web
