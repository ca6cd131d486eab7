// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair.h"
#include "bench/field.h"

#include <tuple>

/// The fields of how it drives and of what follows a repair.
namespace swarfbook::fields {

inline constexpr auto drivingFields = std::tuple{
    field("gear", &Complaint::gear,
          {.option = "gear",
           .help = "1, 2, ... R, or all",
           .label = "gear",
           .typing = Typing::gear,
           .told = Told::withOthers}),
    field("shift", &Complaint::shift,
          {.option = "shift",
           .help = "such as 2-3",
           .label = "shift",
           .typing = Typing::shift,
           .told = Told::withOthers}),
    field("symptom", &Complaint::symptom, {.label = "how it drives", .told = Told::withOthers}),
    field("load", &Complaint::load, {.option = "load", .label = "load", .said = "load"}),
    field("warmth", &Complaint::warmth, {.option = "warmth", .label = "cold or hot"}),
    field("temperature_c", &Complaint::temperature,
          {.option = "at", .help = "temperature of the fluid, such as 80C", .label = "at"}),
    field("obtained_gear", &Complaint::obtainedGear,
          {.option = "obtained",
           .help = "with wrong-gear: the gear obtained",
           .label = "gear obtained",
           .said = "gear obtained",
           .typing = Typing::gear}),
    field("stops_on_brake_tap", &Complaint::stopsOnBrakeTap,
          {.option = "brake-tap",
           .help = "stops or goes-on when the brake is tapped",
           .label = "stops on a tap of the brake",
           .said = "stops on a tap of the brake",
           .saidNo = "goes on at a tap of the brake",
           .yes = "stops",
           .no = "goes-on"}),
    field("manual_range_good", &Complaint::manualRangeGood,
          {.option = "manual-range",
           .help = "good or bad when picked by hand",
           .label = "good when picked by hand",
           .said = "good in the manual range",
           .saidNo = "bad in the manual range too",
           .yes = "good",
           .no = "bad"}),
    field("note", &Complaint::note, {.option = "note", .help = "a remark", .label = "remark"})};
template <> struct Of<Complaint> {
    static constexpr std::string_view kind = "complaint";
    static constexpr auto all = drivingFields;
};
template <> struct Of<RoadTest> {
    static constexpr std::string_view kind = "road-test";
    static constexpr auto all = drivingFields;
};
template <> struct Of<Refill> {
    static constexpr std::string_view kind = "refill";
    static constexpr auto all = std::tuple{
        field(
            "filled_l", &Refill::filled,
            {.help = "how much was filled in, such as 4.5l", .label = "filled", .said = "filled"}),
        field("fluid", &Refill::fluid,
              {.option = "kind-of-fluid", .help = "as the can says", .label = "fluid"}),
        field("at_c", &Refill::at,
              {.option = "at",
               .help = "temperature of the fluid, such as 25C",
               .label = "at",
               .said = "at"})};
};
template <> struct Of<LevelCheck> {
    using L = LevelCheck;
    static constexpr std::string_view kind = "level-check";
    static constexpr auto all =
        std::tuple{field("found", &L::found, {.help = "the level", .label = "level"}),
                   field("at_c", &L::at,
                         {.option = "at",
                          .help = "temperature of the fluid, such as 40C",
                          .label = "at",
                          .said = "at"}),
                   field("window_low_c", &L::windowLow,
                         {.option = "window",
                          .help = "the maker's temperatures, such as 35-45C",
                          .label = "the maker's window",
                          .typing = Typing::lowEnd,
                          .told = Told::withOthers}),
                   field("window_high_c", &L::windowHigh,
                         {.option = "window", .typing = Typing::highEnd, .told = Told::withOthers}),
                   field("total_l", &L::total,
                         {.option = "total",
                          .help = "what the unit holds, such as 9l",
                          .label = "unit holds",
                          .said = "unit holds"}),
                   field("selector_cycled", &L::selectorCycled,
                         {.option = "selector-cycled",
                          .help = "yes or no: moved through every position",
                          .label = "selector cycled",
                          .said = "selector cycled",
                          .saidNo = "selector not cycled"})};
};
template <> struct Of<AfterRepair> {
    using A = AfterRepair;
    static constexpr std::string_view kind = "after-repair";
    static constexpr auto all = std::tuple{
        field("did", &A::did,
              {.option = "did",
               .help = "what was done, such as \"solenoid A replaced\"",
               .label = "done",
               .told = Told::withOthers}),
        field("parts", &A::parts, {.told = Told::withOthers}),
        field("work", &A::work, {.told = Told::withOthers}),
        field("adaptation", &A::adaptation,
              {.option = "adaptation", .label = "adaptation", .said = "adaptation"}),
        field("selector_cycled", &A::selectorCycled,
              {.option = "selector-cycled",
               .help = "yes or no: moved through every position",
               .label = "selector cycled",
               .said = "selector cycled",
               .saidNo = "selector not cycled"}),
        field("leaks", &A::leaks,
              {.option = "leaks",
               .help = "yes or no: any leak seen once it was warm",
               .label = "leaks",
               .said = "it leaks",
               .saidNo = "no leaks seen"}),
        field("note", &A::note, {.option = "note", .help = "a remark", .label = "remark"})};
};
template <> struct Of<RepairResult> {
    using R = RepairResult;
    static constexpr std::string_view kind = "outcome";
    static constexpr auto all = std::tuple{
        field("held", &R::held,
              {.help = "what became of it",
               .label = "at the next contact",
               .told = Told::withOthers}),
        field("after_km", &R::after,
              {.option = "after-distance",
               .help = "driven since the repair, such as 1200km",
               .label = "after",
               .said = "after"}),
        field("did", &R::did,
              {.option = "did",
               .help = "what was done, such as \"solenoid A replaced\"",
               .label = "done",
               .said = "done:"}),
        field("parts", &R::parts, {}),
        field("note", &R::note, {.option = "note", .help = "a remark", .label = "remark"})};
};
template <> struct Of<TakenBack> {
    static constexpr std::string_view kind = "taken-back";
    static constexpr auto all = std::tuple{
        field("why", &TakenBack::why, {.option = "note", .help = "why it is taken back"})};
};

} // namespace swarfbook::fields
