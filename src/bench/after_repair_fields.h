// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair.h"

#include <tuple>

/// The fields of how it drives and of what follows a repair, with the names they are stored under.
namespace swarfbook::fields {

template <class Owner, class Value> struct Field {
    std::string_view name;
    Value Owner::*member;
};
template <class Owner, class Value>
constexpr Field<Owner, Value> field(std::string_view name, Value Owner::*member) {
    return {name, member};
}

template <class T> struct Of;

inline constexpr auto drivingFields =
    std::tuple{field("gear", &Complaint::gear),
               field("shift", &Complaint::shift),
               field("symptom", &Complaint::symptom),
               field("load", &Complaint::load),
               field("warmth", &Complaint::warmth),
               field("temperature_c", &Complaint::temperature),
               field("obtained_gear", &Complaint::obtainedGear),
               field("stops_on_brake_tap", &Complaint::stopsOnBrakeTap),
               field("manual_range_good", &Complaint::manualRangeGood),
               field("note", &Complaint::note)};
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
    static constexpr auto all =
        std::tuple{field("filled_l", &Refill::filled), field("at_c", &Refill::at),
                   field("fluid", &Refill::fluid)};
};
template <> struct Of<LevelCheck> {
    using L = LevelCheck;
    static constexpr std::string_view kind = "level-check";
    static constexpr auto all = std::tuple{field("found", &L::found),
                                           field("at_c", &L::at),
                                           field("window_low_c", &L::windowLow),
                                           field("window_high_c", &L::windowHigh),
                                           field("total_l", &L::total),
                                           field("selector_cycled", &L::selectorCycled)};
};
template <> struct Of<AfterRepair> {
    using A = AfterRepair;
    static constexpr std::string_view kind = "after-repair";
    static constexpr auto all = std::tuple{field("did", &A::did),
                                           field("adaptation", &A::adaptation),
                                           field("selector_cycled", &A::selectorCycled),
                                           field("leaks", &A::leaks),
                                           field("note", &A::note),
                                           field("parts", &A::parts)};
};
template <> struct Of<RepairOutcome> {
    using R = RepairOutcome;
    static constexpr std::string_view kind = "outcome";
    static constexpr auto all =
        std::tuple{field("held", &R::held), field("after_km", &R::after), field("did", &R::did),
                   field("note", &R::note), field("parts", &R::parts)};
};
template <> struct Of<TakenBack> {
    static constexpr std::string_view kind = "taken-back";
    static constexpr auto all = std::tuple{field("why", &TakenBack::why)};
};

} // namespace swarfbook::fields
