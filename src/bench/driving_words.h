// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/enum_names.h"

/// The words for how it drives and for the level found, before a repair and after it.
namespace swarfbook {

enum class Symptom {
    good,
    slip,
    noDrive,
    flare,
    bind,
    harsh,
    late,
    shudder,
    failSafe,
    wrongGear,
    overheats
};
template <> struct EnumNames<Symptom> {
    static constexpr std::string_view what = "symptom";
    static constexpr std::array all{
        std::pair{Symptom::good, std::string_view("good")},
        std::pair{Symptom::slip, std::string_view("slip")},
        std::pair{Symptom::noDrive, std::string_view("no-drive")},
        std::pair{Symptom::flare, std::string_view("flare")},
        std::pair{Symptom::bind, std::string_view("bind")},
        std::pair{Symptom::harsh, std::string_view("harsh")},
        std::pair{Symptom::late, std::string_view("late")},
        std::pair{Symptom::shudder, std::string_view("shudder")},
        std::pair{Symptom::failSafe, std::string_view("fail-safe")},
        std::pair{Symptom::wrongGear, std::string_view("wrong-gear")},
        std::pair{Symptom::overheats, std::string_view("overheats")},
    };
    static constexpr std::array also{std::pair{Symptom::good, std::string_view("ok")},
                                     std::pair{Symptom::good, std::string_view("fine")},
                                     std::pair{Symptom::good, std::string_view("well")},
                                     std::pair{Symptom::slip, std::string_view("slips")},
                                     std::pair{Symptom::slip, std::string_view("slipping")},
                                     std::pair{Symptom::noDrive, std::string_view("nodrive")},
                                     std::pair{Symptom::noDrive, std::string_view("no-go")},
                                     std::pair{Symptom::flare, std::string_view("flares")},
                                     std::pair{Symptom::flare, std::string_view("flaring")},
                                     std::pair{Symptom::bind, std::string_view("binds")},
                                     std::pair{Symptom::bind, std::string_view("binding")},
                                     std::pair{Symptom::harsh, std::string_view("hard")},
                                     std::pair{Symptom::harsh, std::string_view("rough")},
                                     std::pair{Symptom::harsh, std::string_view("bang")},
                                     std::pair{Symptom::harsh, std::string_view("jerk")},
                                     std::pair{Symptom::harsh, std::string_view("jerky")},
                                     std::pair{Symptom::late, std::string_view("delayed")},
                                     std::pair{Symptom::late, std::string_view("delay")},
                                     std::pair{Symptom::late, std::string_view("slow")},
                                     std::pair{Symptom::shudder, std::string_view("shudders")},
                                     std::pair{Symptom::shudder, std::string_view("judder")},
                                     std::pair{Symptom::failSafe, std::string_view("failsafe")},
                                     std::pair{Symptom::failSafe, std::string_view("limp")},
                                     std::pair{Symptom::failSafe, std::string_view("limp-mode")},
                                     std::pair{Symptom::failSafe, std::string_view("limp-home")},
                                     std::pair{Symptom::wrongGear, std::string_view("wrong")},
                                     std::pair{Symptom::overheats, std::string_view("overheating")},
                                     std::pair{Symptom::overheats, std::string_view("runs-hot")}};
};

enum class Load { notSaid, light, medium, firm };
template <> struct EnumNames<Load> {
    static constexpr std::string_view what = "load";
    static constexpr std::array all{std::pair{Load::notSaid, std::string_view("not-said")},
                                    std::pair{Load::light, std::string_view("light")},
                                    std::pair{Load::medium, std::string_view("medium")},
                                    std::pair{Load::firm, std::string_view("firm")}};
    static constexpr std::array also{std::pair{Load::light, std::string_view("low")},
                                     std::pair{Load::light, std::string_view("easy")},
                                     std::pair{Load::medium, std::string_view("mid")},
                                     std::pair{Load::medium, std::string_view("moderate")},
                                     std::pair{Load::firm, std::string_view("heavy")},
                                     std::pair{Load::firm, std::string_view("hard")},
                                     std::pair{Load::firm, std::string_view("full")},
                                     std::pair{Load::firm, std::string_view("high")}};
};

enum class Warmth { notSaid, cold, hot, both };
template <> struct EnumNames<Warmth> {
    static constexpr std::string_view what = "warmth";
    static constexpr std::array all{std::pair{Warmth::notSaid, std::string_view("not-said")},
                                    std::pair{Warmth::cold, std::string_view("cold")},
                                    std::pair{Warmth::hot, std::string_view("hot")},
                                    std::pair{Warmth::both, std::string_view("both")}};
    static constexpr std::array also{std::pair{Warmth::hot, std::string_view("warm")}};
};

enum class LevelFound { right, low, high };
template <> struct EnumNames<LevelFound> {
    static constexpr std::string_view what = "level";
    static constexpr std::array all{std::pair{LevelFound::right, std::string_view("right")},
                                    std::pair{LevelFound::low, std::string_view("low")},
                                    std::pair{LevelFound::high, std::string_view("high")}};
    static constexpr std::array also{std::pair{LevelFound::right, std::string_view("ok")},
                                     std::pair{LevelFound::right, std::string_view("good")},
                                     std::pair{LevelFound::right, std::string_view("correct")},
                                     std::pair{LevelFound::right, std::string_view("full")},
                                     std::pair{LevelFound::low, std::string_view("under")},
                                     std::pair{LevelFound::low, std::string_view("short")},
                                     std::pair{LevelFound::high, std::string_view("over")},
                                     std::pair{LevelFound::high, std::string_view("overfull")}};
};

} // namespace swarfbook
