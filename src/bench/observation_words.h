// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/words.h"
#include "debris/particle.h"

/// The enumerations of bench/observation.h with the words they are written with.
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
template <> struct Words<Symptom> {
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
};

enum class Load { notSaid, light, medium, firm };
template <> struct Words<Load> {
    static constexpr std::string_view what = "load";
    static constexpr std::array all{std::pair{Load::notSaid, std::string_view("not-said")},
                                    std::pair{Load::light, std::string_view("light")},
                                    std::pair{Load::medium, std::string_view("medium")},
                                    std::pair{Load::firm, std::string_view("firm")}};
};

enum class Warmth { notSaid, cold, hot, both };
template <> struct Words<Warmth> {
    static constexpr std::string_view what = "warmth";
    static constexpr std::array all{std::pair{Warmth::notSaid, std::string_view("not-said")},
                                    std::pair{Warmth::cold, std::string_view("cold")},
                                    std::pair{Warmth::hot, std::string_view("hot")},
                                    std::pair{Warmth::both, std::string_view("both")}};
};

enum class Smell { notSaid, none, burnt, other };
template <> struct Words<Smell> {
    static constexpr std::string_view what = "smell";
    static constexpr std::array all{std::pair{Smell::notSaid, std::string_view("not-said")},
                                    std::pair{Smell::none, std::string_view("none")},
                                    std::pair{Smell::burnt, std::string_view("burnt")},
                                    std::pair{Smell::other, std::string_view("other")}};
};

/// What shines in the drained fluid when a lamp or the sun falls on it.
enum class Glitter { notLooked, none, silver, gold };
template <> struct Words<Glitter> {
    static constexpr std::string_view what = "glitter";
    static constexpr std::array all{std::pair{Glitter::notLooked, std::string_view("not-looked")},
                                    std::pair{Glitter::none, std::string_view("none")},
                                    std::pair{Glitter::silver, std::string_view("silver")},
                                    std::pair{Glitter::gold, std::string_view("gold")}};
};

enum class LevelFound { right, low, high };
template <> struct Words<LevelFound> {
    static constexpr std::string_view what = "level";
    static constexpr std::array all{std::pair{LevelFound::right, std::string_view("right")},
                                    std::pair{LevelFound::low, std::string_view("low")},
                                    std::pair{LevelFound::high, std::string_view("high")}};
};

/// What can be wrong outside the transmission.
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
template <> struct Words<OutsideItem> {
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
template <> struct Words<Checked> {
    static constexpr std::string_view what = "result";
    static constexpr std::array all{std::pair{Checked::good, std::string_view("good")},
                                    std::pair{Checked::fault, std::string_view("fault")}};
};

enum class SolenoidKind { notSaid, onOff, pulsed, linear, converter };
template <> struct Words<SolenoidKind> {
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
template <> struct Words<AgainstSiblings> {
    static constexpr std::string_view what = "comparison with siblings";
    static constexpr std::array all{
        std::pair{AgainstSiblings::notCompared, std::string_view("not-compared")},
        std::pair{AgainstSiblings::alike, std::string_view("alike")},
        std::pair{AgainstSiblings::worse, std::string_view("worse")}};
};

enum class LeakSeen { notTested, seals, leaks };
template <> struct Words<LeakSeen> {
    static constexpr std::string_view what = "leak test result";
    static constexpr std::array all{std::pair{LeakSeen::notTested, std::string_view("not-tested")},
                                    std::pair{LeakSeen::seals, std::string_view("seals")},
                                    std::pair{LeakSeen::leaks, std::string_view("leaks")}};
};

/// What the fault did when the solenoid was exchanged with an identical one.
enum class SwapResult { notSwapped, moves, stays };
template <> struct Words<SwapResult> {
    static constexpr std::string_view what = "swap result";
    static constexpr std::array all{
        std::pair{SwapResult::notSwapped, std::string_view("not-swapped")},
        std::pair{SwapResult::moves, std::string_view("moves")},
        std::pair{SwapResult::stays, std::string_view("stays")}};
};

enum class Movement { notTested, works, weak, stuck };
template <> struct Words<Movement> {
    static constexpr std::string_view what = "command or click result";
    static constexpr std::array all{std::pair{Movement::notTested, std::string_view("not-tested")},
                                    std::pair{Movement::works, std::string_view("works")},
                                    std::pair{Movement::weak, std::string_view("weak")},
                                    std::pair{Movement::stuck, std::string_view("stuck")}};
};

enum class WetAir { notTested, quiet, fizzes };
template <> struct Words<WetAir> {
    static constexpr std::string_view what = "wet-air result";
    static constexpr std::array all{std::pair{WetAir::notTested, std::string_view("not-tested")},
                                    std::pair{WetAir::quiet, std::string_view("quiet")},
                                    std::pair{WetAir::fizzes, std::string_view("fizzes")}};
};

enum class PressureFound { normal, low, high, dropsWithTime };
template <> struct Words<PressureFound> {
    static constexpr std::string_view what = "pressure result";
    static constexpr std::array all{
        std::pair{PressureFound::normal, std::string_view("normal")},
        std::pair{PressureFound::low, std::string_view("low")},
        std::pair{PressureFound::high, std::string_view("high")},
        std::pair{PressureFound::dropsWithTime, std::string_view("drops-with-time")}};
};

enum class AirCheckResult { holds, leaks };
template <> struct Words<AirCheckResult> {
    static constexpr std::string_view what = "air check result";
    static constexpr std::array all{std::pair{AirCheckResult::holds, std::string_view("holds")},
                                    std::pair{AirCheckResult::leaks, std::string_view("leaks")}};
};

enum class Feel { smears, notFelt, grit, felt };
template <> struct Words<Feel> {
    static constexpr std::string_view what = "finger test result";
    static constexpr std::array all{std::pair{Feel::smears, std::string_view("smears")},
                                    std::pair{Feel::notFelt, std::string_view("not-felt")},
                                    std::pair{Feel::grit, std::string_view("grit")},
                                    std::pair{Feel::felt, std::string_view("felt")}};
};

/// What a magnet under the paper does to the dry debris.
enum class MagnetMoves { stays, moves };
template <> struct Words<MagnetMoves> {
    static constexpr std::string_view what = "magnet test result";
    static constexpr std::array all{std::pair{MagnetMoves::stays, std::string_view("stays")},
                                    std::pair{MagnetMoves::moves, std::string_view("moves")}};
};

enum class Amount { notSaid, one, few, plenty };
template <> struct Words<Amount> {
    static constexpr std::string_view what = "amount";
    static constexpr std::array all{std::pair{Amount::notSaid, std::string_view("not-said")},
                                    std::pair{Amount::one, std::string_view("one")},
                                    std::pair{Amount::few, std::string_view("few")},
                                    std::pair{Amount::plenty, std::string_view("plenty")}};
};

/// A flake pinched with pliers: aluminium and brass bend, hard steel breaks, lining crumbles.
enum class Squeezed { bends, breaks, crumbles };
template <> struct Words<Squeezed> {
    static constexpr std::string_view what = "squeeze result";
    static constexpr std::array all{std::pair{Squeezed::bends, std::string_view("bends")},
                                    std::pair{Squeezed::breaks, std::string_view("breaks")},
                                    std::pair{Squeezed::crumbles, std::string_view("crumbles")}};
};

enum class NoiseKind { none, whine, growl, grind, knock };
template <> struct Words<NoiseKind> {
    static constexpr std::string_view what = "noise";
    static constexpr std::array all{std::pair{NoiseKind::none, std::string_view("none")},
                                    std::pair{NoiseKind::whine, std::string_view("whine")},
                                    std::pair{NoiseKind::growl, std::string_view("growl")},
                                    std::pair{NoiseKind::grind, std::string_view("grind")},
                                    std::pair{NoiseKind::knock, std::string_view("knock")}};
};

/// Where debris was seen by eye: the sample places, and places that no photo of the card shows.
enum class Where {
    pan,
    magnet,
    filter,
    filterCleanSide,
    screens,
    valveBody,
    fluid,
    converterDrain,
    coolerReturn,
    tray,
    pad,
    strained
};
template <> struct Words<Where> {
    static constexpr std::string_view what = "place";
    static constexpr std::array all{
        std::pair{Where::pan, std::string_view("pan")},
        std::pair{Where::magnet, std::string_view("magnet")},
        std::pair{Where::filter, std::string_view("filter")},
        std::pair{Where::filterCleanSide, std::string_view("filter-clean-side")},
        std::pair{Where::screens, std::string_view("screens")},
        std::pair{Where::valveBody, std::string_view("valve-body")},
        std::pair{Where::fluid, std::string_view("fluid")},
        std::pair{Where::converterDrain, std::string_view("converter-drain")},
        std::pair{Where::coolerReturn, std::string_view("cooler-return")},
        std::pair{Where::tray, std::string_view("tray")},
        std::pair{Where::pad, std::string_view("pad")},
        std::pair{Where::strained, std::string_view("strained")},
    };
};

/// What debris is, by eye and hand. `clean` says that the place was looked at and nothing lay
/// there, which is not the same as not having looked.
enum class DebrisKind {
    clean,
    film,
    paste,
    brightMetal,
    yellowMetal,
    lining,
    plastic,
    rubber,
    varnish,
    lint,
    sealant,
    grit,
    swarfCurl
};
template <> struct Words<DebrisKind> {
    static constexpr std::string_view what = "kind of debris";
    static constexpr std::array all{
        std::pair{DebrisKind::clean, std::string_view("clean")},
        std::pair{DebrisKind::film, std::string_view("film")},
        std::pair{DebrisKind::paste, std::string_view("paste")},
        std::pair{DebrisKind::brightMetal, std::string_view("bright-metal")},
        std::pair{DebrisKind::yellowMetal, std::string_view("yellow-metal")},
        std::pair{DebrisKind::lining, std::string_view("lining")},
        std::pair{DebrisKind::plastic, std::string_view("plastic")},
        std::pair{DebrisKind::rubber, std::string_view("rubber")},
        std::pair{DebrisKind::varnish, std::string_view("varnish")},
        std::pair{DebrisKind::lint, std::string_view("lint")},
        std::pair{DebrisKind::sealant, std::string_view("sealant")},
        std::pair{DebrisKind::grit, std::string_view("grit")},
        std::pair{DebrisKind::swarfCurl, std::string_view("swarf-curl")},
    };
};

/// Size classes of the trade by longest side: S0 not resolved (below 0.1 mm), S1 to 0.5 mm,
/// S2 to 1 mm, S3 to 3 mm or a sliver of 1 mm and more, S4 above 3 mm. Our proposal, adjustable in
/// models/suggestion.json; no source.
enum class TradeSize { s0, s1, s2, s3, s4 };
template <> struct Words<TradeSize> {
    static constexpr std::string_view what = "size class";
    static constexpr std::array all{std::pair{TradeSize::s0, std::string_view("S0")},
                                    std::pair{TradeSize::s1, std::string_view("S1")},
                                    std::pair{TradeSize::s2, std::string_view("S2")},
                                    std::pair{TradeSize::s3, std::string_view("S3")},
                                    std::pair{TradeSize::s4, std::string_view("S4")}};
};

/// Coat of a magnet: F0 none, F1 thin, outline and marks seen, F2 covered, outline seen,
/// F3 outline lost, F4 bearded or bridging. Our proposal; no source.
enum class Coat { f0, f1, f2, f3, f4 };
template <> struct Words<Coat> {
    static constexpr std::string_view what = "coat";
    static constexpr std::array all{
        std::pair{Coat::f0, std::string_view("F0")}, std::pair{Coat::f1, std::string_view("F1")},
        std::pair{Coat::f2, std::string_view("F2")}, std::pair{Coat::f3, std::string_view("F3")},
        std::pair{Coat::f4, std::string_view("F4")}};
};

template <> struct Words<Ferrous> {
    static constexpr std::string_view what = "answer to \"magnetic?\"";
    static constexpr std::array all{std::pair{Ferrous::notKnown, std::string_view("not-known")},
                                    std::pair{Ferrous::yes, std::string_view("yes")},
                                    std::pair{Ferrous::no, std::string_view("no")}};
};

enum class CodesWhen { before, after };
template <> struct Words<CodesWhen> {
    static constexpr std::string_view what = "time of reading";
    static constexpr std::array all{std::pair{CodesWhen::before, std::string_view("before")},
                                    std::pair{CodesWhen::after, std::string_view("after")}};
};

enum class Adaptation { normal, atLimit };
template <> struct Words<Adaptation> {
    static constexpr std::string_view what = "adaptation result";
    static constexpr std::array all{std::pair{Adaptation::normal, std::string_view("normal")},
                                    std::pair{Adaptation::atLimit, std::string_view("at-limit")}};
};

enum class EndPlay { normal, excess };
template <> struct Words<EndPlay> {
    static constexpr std::string_view what = "end play result";
    static constexpr std::array all{std::pair{EndPlay::normal, std::string_view("normal")},
                                    std::pair{EndPlay::excess, std::string_view("excess")}};
};

} // namespace swarfbook
