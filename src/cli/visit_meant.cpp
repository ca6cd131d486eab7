// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/visit_meant.h"

#include "base/errors.h"
#include "cli/terminal.h"

#include <boost/program_options.hpp>
#include <fmt/format.h>

#include <iostream>

namespace swarfbook::cli {
namespace {

Visit newestOf(const Book& book, const Vehicle& vehicle, const char* why) {
    const std::vector<Visit> visits = book.visits(vehicle.id);
    if (visits.empty())
        throw UsageError(fmt::format("{} has no visit yet. Add one: swarfbook visit add {} --date "
                                     "today.",
                                     vehicle.label, vehicle.label));
    const Visit& newest = visits.back();
    talk() << fmt::format("swarfbook: this is visit {} of {} on {}, the newest of {}.\n", newest.id,
                          vehicle.label, newest.date, why);
    return newest;
}

} // namespace

void addVisitOptions(boost::program_options::options_description& to) {
    using boost::program_options::value;
    to.add_options()(
        "visit", value<std::string>(),
        "the visit's number (else the newest visit of the vehicle named or last used)")(
        "vehicle", value<std::string>(), "the vehicle's label: its newest visit");
}

VisitAsked visitAsked(const ParsedOptions& words) {
    VisitAsked asked;
    if (has(words, "visit"))
        asked.number = visitNumber(textOf(words, "visit"));
    asked.vehicle = maybeTextOf(words, "vehicle");
    if (asked.number && asked.vehicle)
        throw UsageError("--visit and --vehicle both say which visit is meant. Give one of them.");
    return asked;
}

Visit visitMeant(const Book& book, const VisitAsked& asked) {
    if (asked.number)
        return book.visit(*asked.number);
    if (asked.vehicle)
        return newestOf(book, book.vehicleByLabel(*asked.vehicle), "this vehicle");
    const auto last = book.vehicleLastUsed();
    if (!last)
        throw UsageError("There is no visit in the book yet. Add one: swarfbook visit add LABEL "
                         "--date today.");
    return newestOf(book, book.vehicle(*last), "the vehicle last used");
}

} // namespace swarfbook::cli
