// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/enum_names.h"

/// The enumerations of a solenoid's tests with the words they are written with.
namespace swarfbook {

/// Where a coil was read: at the case connector, through the harness inside, or at its own pins.
/// A reading that does not say is taken as read at the coil.
enum class MeasuredAt { notSaid, connector, pins };
template <> struct EnumNames<MeasuredAt> {
    static constexpr std::string_view what = "place of measuring";
    static constexpr std::array all{std::pair{MeasuredAt::notSaid, std::string_view("not-said")},
                                    std::pair{MeasuredAt::connector, std::string_view("connector")},
                                    std::pair{MeasuredAt::pins, std::string_view("pins")}};
};

enum class SolenoidKind { notSaid, onOff, pulsed, linear, converter };
template <> struct EnumNames<SolenoidKind> {
    static constexpr std::string_view what = "kind of solenoid";
    static constexpr std::array all{
        std::pair{SolenoidKind::notSaid, std::string_view("not-said")},
        std::pair{SolenoidKind::onOff, std::string_view("on-off")},
        std::pair{SolenoidKind::pulsed, std::string_view("pwm")},
        std::pair{SolenoidKind::linear, std::string_view("linear")},
        std::pair{SolenoidKind::converter, std::string_view("converter")}};
};

/// How a solenoid, or its leak off and on, compares with identical siblings in the same state.
enum class AgainstSiblings { notCompared, alike, worse };
template <> struct EnumNames<AgainstSiblings> {
    static constexpr std::string_view what = "comparison with siblings";
    static constexpr std::array all{
        std::pair{AgainstSiblings::notCompared, std::string_view("not-compared")},
        std::pair{AgainstSiblings::alike, std::string_view("alike")},
        std::pair{AgainstSiblings::worse, std::string_view("worse")}};
    static constexpr std::array also{
        std::pair{AgainstSiblings::alike, std::string_view("same")},
        std::pair{AgainstSiblings::alike, std::string_view("equal")},
        std::pair{AgainstSiblings::alike, std::string_view("like")},
        std::pair{AgainstSiblings::worse, std::string_view("apart")},
        std::pair{AgainstSiblings::worse, std::string_view("different")}};
};

enum class LeakSeen { notTested, seals, leaks };
template <> struct EnumNames<LeakSeen> {
    static constexpr std::string_view what = "leak test result";
    static constexpr std::array all{std::pair{LeakSeen::notTested, std::string_view("not-tested")},
                                    std::pair{LeakSeen::seals, std::string_view("seals")},
                                    std::pair{LeakSeen::leaks, std::string_view("leaks")}};
    static constexpr std::array also{std::pair{LeakSeen::seals, std::string_view("tight")},
                                     std::pair{LeakSeen::seals, std::string_view("ok")},
                                     std::pair{LeakSeen::seals, std::string_view("sealed")},
                                     std::pair{LeakSeen::leaks, std::string_view("leak")},
                                     std::pair{LeakSeen::leaks, std::string_view("leaking")}};
};

/// What the fault did when the solenoid was exchanged with an identical one.
enum class SwapResult { notSwapped, moves, stays };
template <> struct EnumNames<SwapResult> {
    static constexpr std::string_view what = "swap result";
    static constexpr std::array all{
        std::pair{SwapResult::notSwapped, std::string_view("not-swapped")},
        std::pair{SwapResult::moves, std::string_view("moves")},
        std::pair{SwapResult::stays, std::string_view("stays")}};
    static constexpr std::array also{std::pair{SwapResult::moves, std::string_view("moved")},
                                     std::pair{SwapResult::moves, std::string_view("follows")},
                                     std::pair{SwapResult::stays, std::string_view("stayed")},
                                     std::pair{SwapResult::stays, std::string_view("same")}};
};

enum class Movement { notTested, works, weak, stuck };
template <> struct EnumNames<Movement> {
    static constexpr std::string_view what = "command or click result";
    static constexpr std::array all{std::pair{Movement::notTested, std::string_view("not-tested")},
                                    std::pair{Movement::works, std::string_view("works")},
                                    std::pair{Movement::weak, std::string_view("weak")},
                                    std::pair{Movement::stuck, std::string_view("stuck")}};
    static constexpr std::array also{std::pair{Movement::works, std::string_view("clicks")},
                                     std::pair{Movement::works, std::string_view("moves")},
                                     std::pair{Movement::works, std::string_view("ok")},
                                     std::pair{Movement::works, std::string_view("good")},
                                     std::pair{Movement::weak, std::string_view("dull")},
                                     std::pair{Movement::stuck, std::string_view("dead")},
                                     std::pair{Movement::stuck, std::string_view("nothing")}};
};

} // namespace swarfbook
