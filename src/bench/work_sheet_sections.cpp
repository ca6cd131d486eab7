// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"
#include "bench/sheet_parts.h"

#include <fmt/format.h>

#include <set>

namespace swarfbook {
namespace {

using namespace sheet;

SheetSection past() {
    const FieldsOf clean("since-clean"), history("history");
    return {"Past",
            {},
            {one("since-clean", {clean.room("distance_km")}),
             one("history", {history.tick("first_opening"), history.tick("wiped_without_record"),
                             history.room("since_rebuild_km"), history.boxes("cooler_flushed"),
                             history.boxes("magnets_changed")})}};
}

SheetSection codes() {
    const FieldsOf f("codes");
    SheetField stored = f.room("codes");
    stored.words = {"none stored"};
    return {"Codes before, all control units",
            {},
            {one("codes", {stored, f.boxes("only_hot"), f.room("makers_text")})}};
}

/// One row for a gear, or for a shift.
SheetBlock drivingBlock(const std::string& form, const std::string& rowTitle,
                        const std::vector<std::string>& words, const std::vector<std::string>& of) {
    const FieldsOf f(form);
    SheetField symptom = f(std::string_view("symptom"), Style::columns);
    symptom.words = words;
    SheetBlock block{form, "", {symptom}, {}, rowTitle, 0, false, false};
    if (form == "gear")
        block.fields.push_back(askedOnly(onlyAfter(f.room("obtained_gear"), {"wrong-gear"})));
    block.fields.push_back(f("load", Style::letters));
    block.fields.push_back(called(f.room("temperature_c"), "\u00b0C"));
    for (const std::string& name : of)
        block.entries.push_back({{name}, fmt::format("{} {}", form, name)});
    return block;
}

SheetSection driving(const std::vector<std::string>& gears) {
    const FieldsOf f("complaint");
    SheetBlock general = one("complaint", {f.boxes("symptom"), f.boxes("stops_on_brake_tap"),
                                           f.boxes("warmth"), f.room("note")});
    general.fields[0].label = "how it drives in general";
    general.fields[0].words = {"good", "shudder", "fail safe", "overheats", "not driven"};
    std::vector<std::string> shifts;
    for (std::size_t i = 0; i + 1 < gears.size(); ++i)
        if (gears[i].find_first_not_of("0123456789") == std::string::npos)
            shifts.push_back(gears[i] + "-" + gears[i + 1]);
    SheetBlock byShift =
        drivingBlock("shift", "Shift", {"good", "flare", "slip", "bind", "harsh", "late"}, shifts);
    byShift.beside = true;
    return {"How it drives",
            {"load: L light, M medium, F firm"},
            {general,
             drivingBlock("gear", "Gear", {"good", "slip", "no drive", "wrong gear"}, gears),
             byShift}};
}

SheetSection noiseLevelFluid() {
    const FieldsOf noise("noise"), level("level"), fluid("fluid"), outside("outside");
    SheetBlock parts =
        one("outside", {called(outside.boxes("result"), ""), called(outside.room("volts"), ""),
                        askedOnly(onlyAfter(outside.room("detail"), {"fault"}))});
    parts.entries.clear();
    for (const char* part : {"supply", "earth", "connector", "harness", "selector", "speed sensor",
                             "engine", "exhaust", "mounts", "cooler line"})
        parts.entries.push_back({{part}, part});
    return {"Noise, level, fluid, outside the unit",
            {},
            {one("noise", {noise.boxes("noise"), noise.room("heard_in"), noise.room("quiet_in")}),
             one("level", {level.boxes("found"), onlyAfter(level.room("by_l"), {"low", "high"}),
                           level.room("at_c"), level.room("leak"), level.boxes("leak_amount")}),
             one("fluid", {fluid.room("colour"), fluid.boxes("smell"), fluid.boxes("milky"),
                           fluid.boxes("glitter"), fluid.boxes("type"), fluid.room("drained_l")}),
             parts}};
}

SheetSection debris() {
    const FieldsOf f("debris");
    SheetField what = f("what", Style::columns);
    what.words = {"clean", "film", "paste", "bright metal", "yellow metal", "lining"};
    SheetBlock places{"debris",
                      "",
                      {what, f.room("size"), f("amount", Style::letters), f.yesNo("magnetic"),
                       onlyAfter(called(f.room("coat"), "coat"), {"magnet"}),
                       f.tick("machined_face"), f.tick("burnt")},
                      {},
                      "Place",
                      0,
                      false,
                      true};
    for (const char* place : {"pan", "magnet", "filter", "converter drain"})
        places.entries.push_back({{place}, place});
    return {"Debris, before anything is cleaned (photo with the card first)",
            {"size: S0 under 0.1, S1 to 0.5, S2 to 1, S3 to 3, S4 above 3 mm   how many: O one, F "
             "few, P plenty",
             "magnet's coat: F0 none, F1 thin, F2 covered, F3 outline lost, F4 bearded"},
            {places}};
}

SheetSection byHand() {
    const FieldsOf finger("finger"), magnet("magnet-test"), squeeze("squeeze"), neck("filter-neck"),
        fitted("magnets");
    return {"By hand",
            {},
            {one("finger", {finger.boxes("feel")}),
             one("magnet-test", {magnet.boxes("result"), magnet.boxes("share")}),
             one("squeeze", {squeeze.boxes("result")}),
             one("filter-neck", {neck.boxes("neck"), neck.boxes("seal")}),
             one("magnets", {fitted.room("count"), fitted.boxes("form"), fitted.room("size_mm"),
                             fitted.boxes("added")})}};
}

SheetSection pressures() {
    const FieldsOf f("pressure");
    SheetBlock all =
        one("pressure", {f.boxes("found"), f.room("reading_kpa"), f.room("makers_low_kpa")});
    all.entries[0].title = "all ranges";
    SheetBlock range = all;
    range.what = "in one range";
    range.entries[0].title = "";
    range.fields.insert(range.fields.begin(), f.room("gear"));
    range.again = true;
    return {"Pressure", {}, {all, range}};
}

/// Each caution at the first step that needs it.
void placeCautions(std::vector<SheetSection>& sections) {
    std::set<std::string_view> said;
    for (SheetSection& section : sections)
        for (const std::string& form : section.forms())
            for (const std::string_view caution : cautionsAt(observationForm(form).kind))
                if (said.insert(caution).second)
                    section.cautions.emplace_back(caution);
}

} // namespace

std::vector<SheetSection> workSheetSections(const WorkSheetJob& job) {
    const std::vector<std::string> usual{"R", "1", "2", "3", "4", "5", "6"}; // no chart: six speeds
    std::vector<SheetSection> sections{past(),
                                       codes(),
                                       driving(job.names.gears.empty() ? usual : job.names.gears),
                                       noiseLevelFluid(),
                                       debris(),
                                       byHand(),
                                       pressures(),
                                       solenoidStep(job.names),
                                       boreStep(job.names),
                                       insideStep(job.names),
                                       stepAfterRepair()};
    placeCautions(sections);
    return sections;
}

} // namespace swarfbook
