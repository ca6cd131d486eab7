// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/debris_words.h"
#include "bench/driving_words.h"
#include "bench/enum_names.h"
#include "bench/solenoid_words.h"

/// The enumerations of bench/observation.h with the words they are written with.
namespace swarfbook {

enum class Smell { notSaid, none, burnt, other };
template <> struct EnumNames<Smell> {
    static constexpr std::string_view what = "smell";
    static constexpr std::array all{std::pair{Smell::notSaid, std::string_view("not-said")},
                                    std::pair{Smell::none, std::string_view("none")},
                                    std::pair{Smell::burnt, std::string_view("burnt")},
                                    std::pair{Smell::other, std::string_view("other")}};
    static constexpr std::array also{std::pair{Smell::none, std::string_view("normal")},
                                     std::pair{Smell::none, std::string_view("ok")},
                                     std::pair{Smell::none, std::string_view("no")},
                                     std::pair{Smell::burnt, std::string_view("burned")},
                                     std::pair{Smell::burnt, std::string_view("burn")}};
};

/// Whether the fluid is what the maker asks for.
enum class FluidType { notSaid, right, wrong };
template <> struct EnumNames<FluidType> {
    static constexpr std::string_view what = "type of fluid";
    static constexpr std::array all{std::pair{FluidType::notSaid, std::string_view("not-said")},
                                    std::pair{FluidType::right, std::string_view("right")},
                                    std::pair{FluidType::wrong, std::string_view("wrong")}};
    static constexpr std::array also{std::pair{FluidType::right, std::string_view("correct")},
                                     std::pair{FluidType::right, std::string_view("good")},
                                     std::pair{FluidType::right, std::string_view("ok")},
                                     std::pair{FluidType::wrong, std::string_view("incorrect")},
                                     std::pair{FluidType::wrong, std::string_view("bad")}};
};

/// What shines in the drained fluid when a lamp or the sun falls on it.
enum class Glitter { notLooked, none, silver, gold };
template <> struct EnumNames<Glitter> {
    static constexpr std::string_view what = "glitter";
    static constexpr std::array all{std::pair{Glitter::notLooked, std::string_view("not-looked")},
                                    std::pair{Glitter::none, std::string_view("none")},
                                    std::pair{Glitter::silver, std::string_view("silver")},
                                    std::pair{Glitter::gold, std::string_view("gold")}};
};

/// Possible faults outside the transmission.
enum class OutsideItem {
    supply,
    earth,
    connector,
    harness,
    controlUnit,
    selector,
    speedSensor,
    temperatureSensor,
    brakeSwitch,
    engine,
    exhaust,
    mounts,
    driveline,
    coolerLine
};
template <> struct EnumNames<OutsideItem> {
    static constexpr std::string_view what = "part outside the unit";
    static constexpr std::array all{
        std::pair{OutsideItem::supply, std::string_view("supply")},
        std::pair{OutsideItem::earth, std::string_view("earth")},
        std::pair{OutsideItem::connector, std::string_view("connector")},
        std::pair{OutsideItem::harness, std::string_view("harness")},
        std::pair{OutsideItem::controlUnit, std::string_view("control-unit")},
        std::pair{OutsideItem::selector, std::string_view("selector")},
        std::pair{OutsideItem::speedSensor, std::string_view("speed-sensor")},
        std::pair{OutsideItem::temperatureSensor, std::string_view("temperature-sensor")},
        std::pair{OutsideItem::brakeSwitch, std::string_view("brake-switch")},
        std::pair{OutsideItem::engine, std::string_view("engine")},
        std::pair{OutsideItem::exhaust, std::string_view("exhaust")},
        std::pair{OutsideItem::mounts, std::string_view("mounts")},
        std::pair{OutsideItem::driveline, std::string_view("driveline")},
        std::pair{OutsideItem::coolerLine, std::string_view("cooler-line")},
    };
};

enum class Checked { good, fault };
template <> struct EnumNames<Checked> {
    static constexpr std::string_view what = "result";
    static constexpr std::array all{std::pair{Checked::good, std::string_view("good")},
                                    std::pair{Checked::fault, std::string_view("fault")}};
    static constexpr std::array also{std::pair{Checked::good, std::string_view("ok")},
                                     std::pair{Checked::good, std::string_view("pass")},
                                     std::pair{Checked::good, std::string_view("fine")},
                                     std::pair{Checked::fault, std::string_view("bad")},
                                     std::pair{Checked::fault, std::string_view("faulty")},
                                     std::pair{Checked::fault, std::string_view("fail")},
                                     std::pair{Checked::fault, std::string_view("failed")}};
};

/// How much leaks to the outside.
enum class LeakAmount { notSaid, damp, drips, runs };
template <> struct EnumNames<LeakAmount> {
    static constexpr std::string_view what = "amount of a leak";
    static constexpr std::array all{std::pair{LeakAmount::notSaid, std::string_view("not-said")},
                                    std::pair{LeakAmount::damp, std::string_view("damp")},
                                    std::pair{LeakAmount::drips, std::string_view("drips")},
                                    std::pair{LeakAmount::runs, std::string_view("runs")}};
    static constexpr std::array also{std::pair{LeakAmount::damp, std::string_view("weeps")},
                                     std::pair{LeakAmount::damp, std::string_view("sweats")},
                                     std::pair{LeakAmount::drips, std::string_view("drip")},
                                     std::pair{LeakAmount::drips, std::string_view("drop")},
                                     std::pair{LeakAmount::drips, std::string_view("drops")},
                                     std::pair{LeakAmount::drips, std::string_view("dropping")},
                                     std::pair{LeakAmount::drips, std::string_view("dripping")},
                                     std::pair{LeakAmount::runs, std::string_view("run")},
                                     std::pair{LeakAmount::runs, std::string_view("running")},
                                     std::pair{LeakAmount::runs, std::string_view("pours")}};
};

enum class WetAir { notTested, quiet, fizzes };
template <> struct EnumNames<WetAir> {
    static constexpr std::string_view what = "wet-air result";
    static constexpr std::array all{std::pair{WetAir::notTested, std::string_view("not-tested")},
                                    std::pair{WetAir::quiet, std::string_view("quiet")},
                                    std::pair{WetAir::fizzes, std::string_view("fizzes")}};
    static constexpr std::array also{std::pair{WetAir::quiet, std::string_view("tight")},
                                     std::pair{WetAir::quiet, std::string_view("none")},
                                     std::pair{WetAir::fizzes, std::string_view("fizz")},
                                     std::pair{WetAir::fizzes, std::string_view("bubbles")}};
};

enum class PressureFound { normal, low, high, dropsWithTime };
template <> struct EnumNames<PressureFound> {
    static constexpr std::string_view what = "pressure result";
    static constexpr std::array all{
        std::pair{PressureFound::normal, std::string_view("normal")},
        std::pair{PressureFound::low, std::string_view("low")},
        std::pair{PressureFound::high, std::string_view("high")},
        std::pair{PressureFound::dropsWithTime, std::string_view("drops-with-time")}};
    static constexpr std::array also{
        std::pair{PressureFound::normal, std::string_view("ok")},
        std::pair{PressureFound::normal, std::string_view("good")},
        std::pair{PressureFound::normal, std::string_view("right")},
        std::pair{PressureFound::dropsWithTime, std::string_view("drops")},
        std::pair{PressureFound::dropsWithTime, std::string_view("falls")}};
};

enum class AirCheckResult { holds, leaks };
template <> struct EnumNames<AirCheckResult> {
    static constexpr std::string_view what = "air check result";
    static constexpr std::array all{std::pair{AirCheckResult::holds, std::string_view("holds")},
                                    std::pair{AirCheckResult::leaks, std::string_view("leaks")}};
    static constexpr std::array also{std::pair{AirCheckResult::holds, std::string_view("hold")},
                                     std::pair{AirCheckResult::holds, std::string_view("good")},
                                     std::pair{AirCheckResult::holds, std::string_view("ok")},
                                     std::pair{AirCheckResult::holds, std::string_view("tight")},
                                     std::pair{AirCheckResult::leaks, std::string_view("leak")},
                                     std::pair{AirCheckResult::leaks, std::string_view("leaking")},
                                     std::pair{AirCheckResult::leaks, std::string_view("fails")}};
};

enum class NoiseKind { none, whine, growl, grind, knock };
template <> struct EnumNames<NoiseKind> {
    static constexpr std::string_view what = "noise";
    static constexpr std::array all{std::pair{NoiseKind::none, std::string_view("none")},
                                    std::pair{NoiseKind::whine, std::string_view("whine")},
                                    std::pair{NoiseKind::growl, std::string_view("growl")},
                                    std::pair{NoiseKind::grind, std::string_view("grind")},
                                    std::pair{NoiseKind::knock, std::string_view("knock")}};
    static constexpr std::array also{std::pair{NoiseKind::none, std::string_view("no")},
                                     std::pair{NoiseKind::none, std::string_view("quiet")},
                                     std::pair{NoiseKind::whine, std::string_view("whining")},
                                     std::pair{NoiseKind::whine, std::string_view("howl")},
                                     std::pair{NoiseKind::growl, std::string_view("growling")},
                                     std::pair{NoiseKind::growl, std::string_view("rumble")},
                                     std::pair{NoiseKind::grind, std::string_view("grinding")},
                                     std::pair{NoiseKind::knock, std::string_view("knocking")},
                                     std::pair{NoiseKind::knock, std::string_view("clunk")}};
};

enum class CodesWhen { before, after };
template <> struct EnumNames<CodesWhen> {
    static constexpr std::string_view what = "time of reading";
    static constexpr std::array all{std::pair{CodesWhen::before, std::string_view("before")},
                                    std::pair{CodesWhen::after, std::string_view("after")}};
};

enum class Adaptation { normal, atLimit };
template <> struct EnumNames<Adaptation> {
    static constexpr std::string_view what = "adaptation result";
    static constexpr std::array all{std::pair{Adaptation::normal, std::string_view("normal")},
                                    std::pair{Adaptation::atLimit, std::string_view("at-limit")}};
    static constexpr std::array also{std::pair{Adaptation::normal, std::string_view("ok")},
                                     std::pair{Adaptation::normal, std::string_view("good")},
                                     std::pair{Adaptation::atLimit, std::string_view("limit")},
                                     std::pair{Adaptation::atLimit, std::string_view("max")},
                                     std::pair{Adaptation::atLimit, std::string_view("maxed")}};
};

/// Seal between the filter's neck and the case.
enum class SealFound { notLooked, good, cut, hard, missing, doubled };
template <> struct EnumNames<SealFound> {
    static constexpr std::string_view what = "state of a seal";
    static constexpr std::array all{std::pair{SealFound::notLooked, std::string_view("not-looked")},
                                    std::pair{SealFound::good, std::string_view("good")},
                                    std::pair{SealFound::cut, std::string_view("cut")},
                                    std::pair{SealFound::hard, std::string_view("hard")},
                                    std::pair{SealFound::missing, std::string_view("missing")},
                                    std::pair{SealFound::doubled, std::string_view("doubled")}};
};

enum class EndPlay { notSaid, normal, excess };
template <> struct EnumNames<EndPlay> {
    static constexpr std::string_view what = "end play result";
    static constexpr std::array all{std::pair{EndPlay::notSaid, std::string_view("not-said")},
                                    std::pair{EndPlay::normal, std::string_view("normal")},
                                    std::pair{EndPlay::excess, std::string_view("excess")}};
    static constexpr std::array also{std::pair{EndPlay::normal, std::string_view("ok")},
                                     std::pair{EndPlay::normal, std::string_view("good")},
                                     std::pair{EndPlay::normal, std::string_view("right")},
                                     std::pair{EndPlay::excess, std::string_view("too-much")},
                                     std::pair{EndPlay::excess, std::string_view("excessive")},
                                     std::pair{EndPlay::excess, std::string_view("high")}};
};

} // namespace swarfbook
