// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/driving.h"

#include <vector>

/// What is done and seen after the repair: filled, level checked, driven, asked again later. It
/// does not change the suggestion that led to the repair; a fault that is there after the repair,
/// or came back, counts for the next suggestion.
namespace swarfbook {

struct Refill {
    std::optional<Typed<Litres>> filled;
    std::optional<Typed<Celsius>> at;
    std::string fluid; ///< the fluid filled in, as the can says
};

/// The level after refilling. The maker's window is typed in or comes from the unit's chart.
struct LevelCheck {
    LevelFound found = LevelFound::right;
    std::optional<Typed<Celsius>> at; ///< of the fluid, by the scan tool
    std::optional<Typed<Celsius>> windowLow, windowHigh;
    std::optional<Typed<Litres>> total; ///< volume of the unit
    std::optional<bool> selectorCycled; ///< through every position, twice, engine idling
};

/// The drive after the repair: entered like a complaint, but for the repaired unit.
struct RoadTest : Complaint {};

enum class AdaptationDone { notSaid, done, notNeeded, notDone };
template <> struct EnumNames<AdaptationDone> {
    static constexpr std::string_view what = "state of the adaptation";
    static constexpr std::array all{
        std::pair{AdaptationDone::notSaid, std::string_view("not-said")},
        std::pair{AdaptationDone::done, std::string_view("done")},
        std::pair{AdaptationDone::notNeeded, std::string_view("not-needed")},
        std::pair{AdaptationDone::notDone, std::string_view("not-done")}};
};

struct AfterRepair {
    std::string did; ///< what was done, as outcomeName writes it; "" = as suggested
    AdaptationDone adaptation = AdaptationDone::notSaid;
    std::optional<bool> selectorCycled;
    std::optional<bool> leaks; ///< any seen once it was warm
    std::string note;
    std::vector<std::string> parts = {}; ///< exchanged or repaired, by name: "solenoid A"
    std::vector<std::string> work = {};  ///< each part with what was done to it: "filter renewed"
};

/// What the customer says at the next contact.
enum class Held { fixed, cameBack, notKnown };
template <> struct EnumNames<Held> {
    static constexpr std::string_view what = "outcome";
    static constexpr std::array all{std::pair{Held::fixed, std::string_view("fixed")},
                                    std::pair{Held::cameBack, std::string_view("came-back")},
                                    std::pair{Held::notKnown, std::string_view("not-known")}};
    static constexpr std::array also{std::pair{Held::fixed, std::string_view("good")},
                                     std::pair{Held::fixed, std::string_view("ok")},
                                     std::pair{Held::fixed, std::string_view("cured")},
                                     std::pair{Held::cameBack, std::string_view("back")},
                                     std::pair{Held::cameBack, std::string_view("comeback")},
                                     std::pair{Held::cameBack, std::string_view("not-fixed")},
                                     std::pair{Held::notKnown, std::string_view("unknown")}};
};

struct RepairResult {
    Held held = Held::notKnown;
    std::optional<Typed<Kilometres>> after; ///< driven since the repair
    std::string did;                        ///< as in AfterRepair
    std::string note;
    std::vector<std::string> parts = {}; ///< as in AfterRepair
};

/// Takes an earlier entry back without replacing it.
struct TakenBack {
    std::string why;
};

} // namespace swarfbook
