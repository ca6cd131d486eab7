// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/sheet_parts.h"

namespace swarfbook::sheet {

SheetSection solenoidStep(const UnitNames& names) {
    const FieldsOf f("solenoid");
    const std::size_t empty = names.solenoids.empty() ? 6 : 0;
    const SheetBlock coil{
        "solenoid",
        "coil",
        {called(f.room("ohm"), "ohm"), called(f.room("at_c"), "at \u00b0C"), f.room("band_low_ohm"),
         called(f.room("hot_ohm"), "hot, ohm"), called(f.room("hot_at_c"), "hot at \u00b0C"),
         called(f.room("pull_in_v"), "pulls in, V"), called(f.room("drop_out_v"), "drops out, V"),
         called(f.room("current_a"), "A"), called(f.room("frequency_hz"), "Hz")},
        rowsOf("solenoid", names.solenoids),
        "Name",
        empty,
        false,
        empty > 0};
    const SheetBlock leak{
        "solenoid",
        "leak and movement",
        {f.yesNo("leak_off"), printedOnly(called(f.room("leak_off_ml_min"), "ml/min")),
         f.yesNo("leak_on"), printedOnly(called(f.room("leak_on_ml_min"), "ml/min")),
         called(f.boxes("command"), "on command"), f.yesNo("demagnetised"), f.yesNo("flushed"),
         f.yesNo("siblings"), called(f.yesNo("swap"), "swapped: fault moves")},
        rowsOf("solenoid", names.solenoids),
        "Name",
        empty,
        false,
        empty > 0};
    return {"Solenoids (temperature with every reading)", {}, {coil, leak}};
}

SheetSection boreStep(const UnitNames& names) {
    const FieldsOf f("bore");
    SheetBlock stand = one("bore", {f.room("open_kpa"), f.room("blocked_kpa"), f.room("jet_kpa"),
                                    f.room("jet_usual_kpa"), f.yesNo("wet")});
    stand.entries[0] = {{"stand"}, "stand"};
    const SheetBlock each{"bore",
                          "",
                          {f.room("concerns"), f.room("vacuum_kpa"), f.room("new_valve_kpa"),
                           f.yesNo("wet_air"), f.yesNo("scored"), f.yesNo("reamed_before"),
                           f.room("repaired_kpa")},
                          rowsOf("bore", names.bores),
                          "Name",
                          names.bores.empty() ? std::size_t{5} : std::size_t{2},
                          false,
                          true};
    return {
        "Bores (vacuum, the lowest of three readings; inHg or kPa with each)", {}, {stand, each}};
}

SheetSection insideStep(const UnitNames& names) {
    const FieldsOf body("valve-body"), air("air-check"), cooler("cooler"), converter("converter"),
        play("end-play"), adaptation("adaptation");
    SheetBlock air_{"air-check", "", {called(air.boxes("result"), "")}, {}, "", 0, false, false};
    for (const UnitNames::Element& element : names.elements)
        air_.entries.push_back({{element.name}, "air check " + element.kind + " " + element.name});
    air_.emptyRows = names.elements.empty() ? 2 : 0;
    air_.again = names.elements.empty();
    return {"Casting, clutches, cooler, converter",
            {},
            {one("valve-body", {body.boxes("cracked"), body.boxes("warped"), body.boxes("scored"),
                                body.boxes("reamed_before"), body.boxes("electronics_inside")}),
             air_,
             one("cooler", {cooler.room("amount_l"), cooler.room("in_s"), cooler.boxes("flushed")}),
             one("converter", {converter.boxes("drain"), converter.boxes("hub"),
                               converter.boxes("blued"), converter.boxes("coolant_inside")}),
             one("end-play", {play.boxes("result"), printedOnly(play.room("reading_mm")),
                              play.room("makers_low_mm")}),
             one("adaptation", {adaptation.boxes("result")})}};
}

SheetSection stepAfterRepair() {
    const FieldsOf after("after-repair"), refill("refill"), level("level-check"),
        drive("road-test"), outcome("outcome");
    SheetBlock whole = one("road-test", {drive.boxes("symptom"), drive("load", Style::letters),
                                         drive.room("temperature_c")});
    whole.fields[0].label = "road test as a whole";
    whole.fields[0].words = {"good", "slip", "flare", "bind", "harsh", "late", "shudder"};
    SheetBlock byGear = whole;
    byGear.what = "in one gear";
    byGear.fields.insert(byGear.fields.begin(), called(drive.room("gear"), "in gear or shift"));
    byGear.fields[1].label = "it is";
    byGear.again = true;
    SheetSection section{
        "After the repair",
        {},
        {one("after-repair", {after.room("did"), after.boxes("selector_cycled"),
                              after.boxes("adaptation"), after.boxes("leaks")}),
         one("refill", {refill.room("filled_l"), refill.room("at_c"), refill.room("fluid")}),
         one("level-check", {level.boxes("found"), level.room("at_c"), level.room("window_low_c")}),
         whole, byGear, one("outcome", {outcome.boxes("held"), outcome.room("after_km")})}};
    section.afterRepair = true;
    return section;
}

} // namespace swarfbook::sheet
