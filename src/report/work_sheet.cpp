// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/work_sheet.h"

#include "bench/cautions.h"

#include <fmt/format.h>

#include <set>

namespace swarfbook {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::vector<std::string> gearsOf(const WorkSheetJob& job) {
    if (!job.gears.empty())
        return job.gears;
    return {"R", "1", "2", "3", "4", "5", "6"};
}

/// One row a name, then `more` empty ones; every other cell holds `cell`.
Rows rowsFor(const std::vector<std::string>& names, std::size_t least,
             const std::vector<std::string>& cells) {
    Rows rows;
    for (std::size_t i = 0; i < std::max(least, names.size()); ++i) {
        rows.push_back({i < names.size() ? names[i] : ""});
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    }
    return rows;
}

/// Gears side by side with the shifts that lead on from them.
Rows drivingRows(const std::vector<std::string>& gears) {
    Rows rows;
    for (std::size_t i = 0; i < gears.size(); ++i) {
        const bool number = gears[i].find_first_not_of("0123456789") == std::string::npos;
        const std::string shift =
            number && i + 1 < gears.size() ? gears[i] + "-" + gears[i + 1] : "";
        const std::string box = shift.empty() ? "" : "[]";
        rows.push_back({gears[i], "[]", "[]", "[]", "[]", "[]L []M []F", "", shift, box, box, box,
                        box, shift.empty() ? "" : "[]h []l", shift.empty() ? "" : "[]L []M []F",
                        ""});
    }
    return rows;
}

SheetSection past() {
    return {
        {"since-clean", "history"},
        "Past",
        {"since last clean __ km  [] not known   [] first opening   [] cleaned lately, no record "
         "  rebuilt __ km ago",
         "cooler flushed [] yes [] no [] not known   magnets changed [] yes [] no"},
        {},
        {},
        {}};
}

SheetSection codes() {
    return {{"codes"},
            "Codes before, all control units",
            {"[] none stored  [] not inspected  [] only hot   codes ____ ____",
             "maker's text ____ ____ ____"},
            {},
            {},
            {}};
}

SheetSection driving(const WorkSheetJob& job) {
    return {
        {"complaint", "gear", "shift"},
        "How it drives (load: light, medium, firm)",
        {"customer's words ____ ____ ____",
         "shudder at ___  stops on a tap of the brake [] yes [] no   fail-safe []   overheats []   "
         "[] not driven"},
        {"Gear", "good", "slip", "none", "wrong", "load", "\u00b0C", "Shift", "good", "flare",
         "slip", "bind", "harsh, late", "load", "\u00b0C"},
        drivingRows(gearsOf(job)),
        {}};
}

SheetSection noiseLevelFluid() {
    return {
        {"noise", "level", "fluid", "outside"},
        "Noise, level, fluid, outside the unit",
        {"noise [] none [] whine [] growl [] grind [] knock   heard in __  quiet in __",
         "level [] right [] low [] high  by __ l  at __ \u00b0C   leak at ___",
         "fluid colour ___  smell [] none [] burnt   milky [] yes [] no   glitters [] no [] silver "
         "[] gold   drained __ l",
         "good / fault: supply [] [] ___ V   earth [] []   connector [] []   harness [] []   "
         "selector [] []",
         "speed sensor [] []   engine [] []   exhaust [] []   mounts [] []   cooler line [] []   "
         "what ____"},
        {},
        {},
        {}};
}

SheetSection debris() {
    return {{"debris"},
            "Debris, before anything is cleaned (photo with the card first)",
            {"S0 under 0.1, S1 to 0.5, S2 to 1, S3 to 3, S4 above 3 mm   magnet's coat: F0 none, "
             "F1 thin, "
             "F2 covered, F3 outline lost, F4 bearded"},
            {"Place", "clean", "film", "paste", "bright", "yellow", "lining", "other", "S0-S4",
             "one / few / plenty", "magnetic", "coat, face, burnt"},
            {{"pan", "[]", "[]", "[]", "[]", "[]", "[]", "", "", "[] [] []", "[]y []n", ""},
             {"magnet", "[]", "[]", "[]", "[]", "[]", "[]", "", "", "[] [] []", "[]y []n", ""},
             {"filter, cut", "[]", "[]", "[]", "[]", "[]", "[]", "", "", "[] [] []", "[]y []n", ""},
             {"converter drain", "[]", "[]", "[]", "[]", "[]", "[]", "", "", "[] [] []", "[]y []n",
              ""}},
            {}};
}

SheetSection byHand() {
    return {{"finger", "magnet-test", "squeeze", "filter-neck"},
            "By hand",
            {"rubbed [] smears [] not felt [] grit [] felt   magnet under the paper [] moves [] "
             "stays   "
             "squeezed [] bends [] breaks [] crumbles",
             "filter neck [] good [] fault   its seal [] good [] cut [] hard [] missing [] doubled "
             "  not "
             "inspected: ____"},
            {},
            {},
            {}};
}

SheetSection pressures() {
    return {{"pressure"},
            "Pressure",
            {"all ranges [] normal [] low [] high [] drops with time   range __ reads ___  maker's "
             "___ to "
             "___   range __ reads ___"},
            {},
            {},
            {}};
}

SheetSection solenoids(const WorkSheetJob& job) {
    return {{"solenoid"},
            "Solenoids (temperature with every reading)",
            {},
            {"Name", "ohm", "at \u00b0C", "maker's band", "leaks off", "leaks on", "pull-in V",
             "drop-out V", "A, Hz", "moves", "hot ohm", "at \u00b0C", "demag- netised", "flushed",
             "like siblings", "fault moves"},
            rowsFor(job.solenoids, 8,
                    {"", "", "", "[]", "[]", "", "", "", "[]", "", "", "[]", "[]", "[]y []n",
                     "[]y []n"}),
            {}};
}

SheetSection bores(const WorkSheetJob& job) {
    return {
        {"bore"},
        "Bores (vacuum, the lowest of three readings)",
        {"stand open __  blocked __  jet __  usual __   unit [] inHg [] kPa   bores [] dry [] wet"},
        {"Name", "concerns", "reading", "new valve", "wet air fizzes", "scored", "reamed before",
         "after the repair"},
        rowsFor(job.bores, 8, {"", "", "", "[]y []n", "[]", "[]", ""}),
        {}};
}

SheetSection inside() {
    return {{"valve-body", "air-check", "cooler", "converter", "end-play", "adaptation"},
            "Casting, clutches, cooler, converter",
            {"casting [] cracked [] warped [] scored [] reamed before [] electronics inside   air "
             "check: __ "
             "[] holds [] leaks  __ [] holds [] leaks",
             "cooler ___ l in ___ s   flushed [] yes [] no   converter drains [] clean [] dirty   "
             "hub [] good "
             "[] fault   blue [] yes [] no",
             "end play [] normal [] too much   adaptation [] normal [] at its limit"},
            {},
            {},
            {}};
}

SheetSection afterwards() {
    return {
        {"after-repair", "refill", "level-check", "road-test", "outcome"},
        "After the repair",
        {"done ____ ____   selector cycled [] yes [] no   adaptation [] done [] not needed   leaks "
         "[] no "
         "[] yes at __",
         "refilled ___ l at __ \u00b0C  fluid ____   level [] right [] low [] high  at __ \u00b0C  "
         "window __ to __ \u00b0C  (outside it: wait, recheck)",
         "road test: gears good ___  not good ____   shifts good ___  not good ____   load __  at "
         "__ "
         "\u00b0C",
         "codes again [] none ____   at the next contact [] fixed [] came back [] not known  after "
         "___ km"},
        {},
        {},
        {}};
}

/// Each caution at the first step that needs it.
void placeCautions(std::vector<SheetSection>& sections) {
    std::set<std::string_view> said;
    for (SheetSection& section : sections)
        for (const std::string& kind : section.kinds)
            for (const std::string_view caution : cautionsAt(kind))
                if (said.insert(caution).second)
                    section.cautions.emplace_back(caution);
}

} // namespace

std::vector<SheetSection> workSheetSections(const WorkSheetJob& job) {
    std::vector<SheetSection> sections{past(),     codes(),  driving(job), noiseLevelFluid(),
                                       debris(),   byHand(), pressures(),  solenoids(job),
                                       bores(job), inside(), afterwards()};
    placeCautions(sections);
    return sections;
}

std::string workSheetText(const WorkSheetJob& job) {
    const auto orRoom = [](const std::string& text) {
        return text.empty() ? "____________" : text;
    };
    std::string text =
        fmt::format("WORK SHEET\nVehicle {}   Transmission {}   Visit {}   Date {}\n",
                    orRoom(job.vehicle), orRoom(job.unit), orRoom(job.visit), orRoom(job.date));
    for (const SheetSection& section : workSheetSections(job)) {
        text += "\n" + section.title + " (" + section.kinds.front();
        for (std::size_t i = 1; i < section.kinds.size(); ++i)
            text += ", " + section.kinds[i];
        text += ")\n";
        for (const std::string& caution : section.cautions)
            text += "! " + caution + "\n";
        for (const std::string& line : section.lines)
            text += line + "\n";
        for (std::size_t i = 0; i < section.gridTitles.size(); ++i)
            text += (i == 0 ? "" : " | ") + section.gridTitles[i];
        text += section.gridTitles.empty() ? "" : "\n";
        for (const std::vector<std::string>& row : section.gridRows) {
            for (std::size_t i = 0; i < row.size(); ++i)
                text += (i == 0 ? "" : " | ") + (row[i].empty() ? "____" : row[i]);
            text += "\n";
        }
    }
    return text + "\n" + std::string(standingLine()) + "\n";
}

} // namespace swarfbook
