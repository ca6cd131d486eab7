// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/check_study.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::size_t mostInStudy = 10; // most people, things and trials in a study

/// The thing that was measured: things of one size and kind count as the same thing.
using Thing = std::pair<double, std::string>;
using Cell = std::vector<double>;
using ByPerson = std::map<std::string, std::map<Thing, Cell>>;

ByPerson readTwice(const std::vector<StoredCheck>& checks) {
    ByPerson by;
    for (const StoredCheck& check : checks)
        if (!check.seenBy.empty())
            by[check.seenBy][{check.knownMm, check.thing}].push_back(check.readingMm);
    for (auto& [person, things] : by)
        std::erase_if(things, [](const auto& entry) { return entry.second.size() < 2; });
    std::erase_if(by, [](const auto& entry) { return entry.second.empty(); });
    return by;
}

/// Things that all of them read, or nothing if they have none in common.
std::vector<Thing> commonThings(const ByPerson& by) {
    std::vector<Thing> common;
    for (const auto& [thing, cell] : by.begin()->second)
        if (std::all_of(by.begin(), by.end(),
                        [&t = thing](const auto& one) { return one.second.contains(t); }))
            common.push_back(thing);
    if (common.size() > mostInStudy)
        common.resize(mostInStudy);
    return common;
}

std::string nameOf(const Thing& thing) {
    return fmt::format("{}{:.3f} mm", thing.second.empty() ? "" : thing.second + " of ",
                       thing.first);
}

void addStudy(CheckStudy& study, const ByPerson& by) {
    const std::vector<Thing> things = commonThings(by);
    if (things.empty()) {
        study.whyNone = "No two people have read the same thing, so people cannot be compared. "
                        "Let each of them photograph the same thing at least twice, --by NAME.";
        return;
    }
    std::size_t trials = mostInStudy;
    for (const auto& [person, own] : by)
        for (const Thing& thing : things)
            trials = std::min(trials, own.at(thing).size());
    GaugeReadings readings;
    for (const auto& [person, own] : by) {
        if (readings.size() == mostInStudy)
            break;
        study.people.push_back(person);
        auto& mine = readings.emplace_back();
        for (const Thing& thing : things)
            mine.emplace_back(own.at(thing).end() - static_cast<std::ptrdiff_t>(trials),
                              own.at(thing).end());
    }
    for (const Thing& thing : things)
        study.things.push_back(nameOf(thing));
    study.study = studyGauge(readings);
}

} // namespace

CheckStudy studyChecks(const std::vector<StoredCheck>& checks) {
    if (checks.empty())
        throw std::logic_error("a study of checks needs a check");
    CheckStudy study;
    study.readings = static_cast<int>(checks.size());
    for (const StoredCheck& check : checks) {
        study.agreeing += check.agrees() ? 1 : 0;
        study.meanOffMm += check.offMm() / static_cast<double>(checks.size());
        study.claimedMm += check.readingUMm / static_cast<double>(checks.size());
    }
    const ByPerson by = readTwice(checks);
    if (by.empty())
        study.whyNone = "No one has read the same thing twice, so it is not known how well "
                        "readings repeat. Photograph it at least three times, lifting the phone "
                        "in between, and name who did it: --by NAME.";
    else
        addStudy(study, by);
    return study;
}

std::vector<std::string> studySentences(const CheckStudy& study) {
    std::vector<std::string> list{
        study.readings == 1
            ? fmt::format("The one reading {} with the known size; it is off by {:+.3f} mm.",
                          study.agreeing == 1 ? "agrees" : "does not agree", study.meanOffMm)
            : fmt::format("{} of {} readings agree with the known size; on average they are off "
                          "by {:+.3f} mm.",
                          study.agreeing, study.readings, study.meanOffMm)};
    if (!study.study) {
        list.push_back(study.whyNone);
        return list;
    }
    const GaugeStudy& s = *study.study;
    list.push_back(fmt::format(
        "Repeatability (one person again): {:.4f} mm, from {} {} with {} readings each of {}.",
        s.repeatability, s.people, s.people == 1 ? "person" : "people", s.trials,
        fmt::join(study.things, ", ")));
    if (s.people == 1)
        list.emplace_back("Reproducibility (one person against another) is not known: let a second "
                          "person photograph the same thing, --by NAME.");
    else
        list.push_back(fmt::format("Reproducibility (one person against another): {:.4f} mm; both "
                                   "together {:.4f} mm.",
                                   s.reproducibility, s.both));
    list.push_back(
        s.both <= study.claimedMm
            ? fmt::format("That is within the {:.4f} mm that the readings state for themselves "
                          "(standard uncertainty, mean).",
                          study.claimedMm)
            : fmt::format("That is more than the {:.4f} mm that the readings state for themselves "
                          "(standard uncertainty, mean): hold the phone stiller, use softer light, "
                          "and look for what differs between the photos.",
                          study.claimedMm));
    return list;
}

std::string checkSentence(const StoredCheck& check) {
    return fmt::format(
        "Checked on {} with a {} of {}{}{}: read {:.3f} \u00b1 {:.3f} mm, which {}.",
        check.checkedAt.substr(0, 10), check.thing.empty() ? "thing" : check.thing, check.knownText,
        check.serial.empty() ? "" : ", card " + check.serial,
        check.phone.empty() ? "" : ", " + check.phone, check.readingMm, check.expandedMm(),
        check.agrees() ? "agrees"
                       : fmt::format("is off by {:+.3f} mm and does not agree", check.offMm()));
}

} // namespace swarfbook
