// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/enum_names.h"
#include "particles/particle.h"

/// The words for debris by eye and hand.
namespace swarfbook {

enum class Feel { smears, notFelt, grit, felt };
template <> struct EnumNames<Feel> {
    static constexpr std::string_view what = "finger test result";
    static constexpr std::array all{std::pair{Feel::smears, std::string_view("smears")},
                                    std::pair{Feel::notFelt, std::string_view("not-felt")},
                                    std::pair{Feel::grit, std::string_view("grit")},
                                    std::pair{Feel::felt, std::string_view("felt")}};
    static constexpr std::array also{std::pair{Feel::notFelt, std::string_view("nothing")},
                                     std::pair{Feel::notFelt, std::string_view("none")},
                                     std::pair{Feel::grit, std::string_view("gritty")},
                                     std::pair{Feel::felt, std::string_view("sharp")},
                                     std::pair{Feel::felt, std::string_view("pieces")}};
};

/// What a magnet under the paper does to the dry debris.
enum class MagnetMoves { stays, moves };
template <> struct EnumNames<MagnetMoves> {
    static constexpr std::string_view what = "magnet test result";
    static constexpr std::array all{std::pair{MagnetMoves::stays, std::string_view("stays")},
                                    std::pair{MagnetMoves::moves, std::string_view("moves")}};
    static constexpr std::array also{
        std::pair{MagnetMoves::moves, std::string_view("move")},
        std::pair{MagnetMoves::moves, std::string_view("magnetic")},
        std::pair{MagnetMoves::stays, std::string_view("stay")},
        std::pair{MagnetMoves::stays, std::string_view("not-magnetic")}};
};

enum class Amount { notSaid, one, few, plenty };
template <> struct EnumNames<Amount> {
    static constexpr std::string_view what = "amount";
    static constexpr std::array all{std::pair{Amount::notSaid, std::string_view("not-said")},
                                    std::pair{Amount::one, std::string_view("one")},
                                    std::pair{Amount::few, std::string_view("few")},
                                    std::pair{Amount::plenty, std::string_view("plenty")}};
    static constexpr std::array also{std::pair{Amount::one, std::string_view("single")},
                                     std::pair{Amount::one, std::string_view("1")},
                                     std::pair{Amount::few, std::string_view("some")},
                                     std::pair{Amount::few, std::string_view("little")},
                                     std::pair{Amount::few, std::string_view("a-few")},
                                     std::pair{Amount::plenty, std::string_view("lots")},
                                     std::pair{Amount::plenty, std::string_view("many")},
                                     std::pair{Amount::plenty, std::string_view("much")},
                                     std::pair{Amount::plenty, std::string_view("heavy")}};
};

/// A flake pinched with pliers: aluminium and brass bend, hard steel breaks, lining crumbles.
enum class Squeezed { bends, breaks, crumbles };
template <> struct EnumNames<Squeezed> {
    static constexpr std::string_view what = "squeeze result";
    static constexpr std::array all{std::pair{Squeezed::bends, std::string_view("bends")},
                                    std::pair{Squeezed::breaks, std::string_view("breaks")},
                                    std::pair{Squeezed::crumbles, std::string_view("crumbles")}};
    static constexpr std::array also{std::pair{Squeezed::bends, std::string_view("bend")},
                                     std::pair{Squeezed::breaks, std::string_view("break")},
                                     std::pair{Squeezed::breaks, std::string_view("snaps")},
                                     std::pair{Squeezed::crumbles, std::string_view("crumble")}};
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
template <> struct EnumNames<Where> {
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
    static constexpr std::array also{
        std::pair{Where::pan, std::string_view("sump")},
        std::pair{Where::pan, std::string_view("oil-pan")},
        std::pair{Where::pan, std::string_view("floor")},
        std::pair{Where::magnet, std::string_view("magnets")},
        std::pair{Where::filter, std::string_view("filter-cut")},
        std::pair{Where::filter, std::string_view("cut-filter")},
        std::pair{Where::filter, std::string_view("strainer")},
        std::pair{Where::screens, std::string_view("screen")},
        std::pair{Where::fluid, std::string_view("oil")},
        std::pair{Where::converterDrain, std::string_view("converter")},
        std::pair{Where::coolerReturn, std::string_view("cooler")}};
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
    swarfCurl,
    rust ///< water was in the unit
};
template <> struct EnumNames<DebrisKind> {
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
        std::pair{DebrisKind::rust, std::string_view("rust")},
    };
    static constexpr std::array also{
        std::pair{DebrisKind::clean, std::string_view("nothing")},
        std::pair{DebrisKind::clean, std::string_view("none")},
        std::pair{DebrisKind::film, std::string_view("fines")},
        std::pair{DebrisKind::paste, std::string_view("fuzz")},
        std::pair{DebrisKind::paste, std::string_view("sludge")},
        std::pair{DebrisKind::paste, std::string_view("mud")},
        std::pair{DebrisKind::brightMetal, std::string_view("steel")},
        std::pair{DebrisKind::brightMetal, std::string_view("silver")},
        std::pair{DebrisKind::brightMetal, std::string_view("metal")},
        std::pair{DebrisKind::brightMetal, std::string_view("bright")},
        std::pair{DebrisKind::yellowMetal, std::string_view("brass")},
        std::pair{DebrisKind::yellowMetal, std::string_view("bronze")},
        std::pair{DebrisKind::yellowMetal, std::string_view("gold")},
        std::pair{DebrisKind::yellowMetal, std::string_view("copper")},
        std::pair{DebrisKind::yellowMetal, std::string_view("yellow")},
        std::pair{DebrisKind::lining, std::string_view("friction")},
        std::pair{DebrisKind::lining, std::string_view("clutch")},
        std::pair{DebrisKind::lining, std::string_view("clutch-material")},
        std::pair{DebrisKind::plastic, std::string_view("polymer")},
        std::pair{DebrisKind::sealant, std::string_view("sealer")},
        std::pair{DebrisKind::sealant, std::string_view("silicone")},
        std::pair{DebrisKind::lint, std::string_view("fibre")},
        std::pair{DebrisKind::lint, std::string_view("fiber")},
        std::pair{DebrisKind::lint, std::string_view("fibres")},
        std::pair{DebrisKind::lint, std::string_view("fibers")},
        std::pair{DebrisKind::lining, std::string_view("black")},
        std::pair{DebrisKind::lining, std::string_view("paper")},
        std::pair{DebrisKind::lint, std::string_view("thread")},
        std::pair{DebrisKind::lint, std::string_view("fluff")},
        std::pair{DebrisKind::rust, std::string_view("rusty")},
        std::pair{DebrisKind::grit, std::string_view("sand")},
        std::pair{DebrisKind::swarfCurl, std::string_view("curl")},
        std::pair{DebrisKind::swarfCurl, std::string_view("swarf")}};
};

/// Size classes of the trade by longest side: S0 not resolved (below 0.1 mm), S1 to 0.5 mm,
/// S2 to 1 mm, S3 to 3 mm or a sliver of 1 mm and more, S4 above 3 mm. Our proposal, adjustable in
/// models/suggestion.json; no source.
enum class TradeSize { s0, s1, s2, s3, s4 };
template <> struct EnumNames<TradeSize> {
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
template <> struct EnumNames<Coat> {
    static constexpr std::string_view what = "coat";
    static constexpr std::array all{
        std::pair{Coat::f0, std::string_view("F0")}, std::pair{Coat::f1, std::string_view("F1")},
        std::pair{Coat::f2, std::string_view("F2")}, std::pair{Coat::f3, std::string_view("F3")},
        std::pair{Coat::f4, std::string_view("F4")}};
    static constexpr std::array also{std::pair{Coat::f0, std::string_view("0")},
                                     std::pair{Coat::f1, std::string_view("1")},
                                     std::pair{Coat::f2, std::string_view("2")},
                                     std::pair{Coat::f3, std::string_view("3")},
                                     std::pair{Coat::f4, std::string_view("4")},
                                     std::pair{Coat::f0, std::string_view("none")},
                                     std::pair{Coat::f1, std::string_view("thin")},
                                     std::pair{Coat::f2, std::string_view("covered")},
                                     std::pair{Coat::f3, std::string_view("outline-lost")},
                                     std::pair{Coat::f4, std::string_view("bearded")}};
};
/// What a magnet with that coat has, in plain words: "a coat that hides its outline".
/// Checked: tests/bench/typed_observation_test.cpp.
std::string_view coatInWords(Coat coat);

/// The form of the magnets in a pan.
enum class MagnetForm { notSaid, ring, disc, block };
template <> struct EnumNames<MagnetForm> {
    static constexpr std::string_view what = "form of a magnet";
    static constexpr std::array all{std::pair{MagnetForm::notSaid, std::string_view("not-said")},
                                    std::pair{MagnetForm::ring, std::string_view("ring")},
                                    std::pair{MagnetForm::disc, std::string_view("disc")},
                                    std::pair{MagnetForm::block, std::string_view("block")}};
    static constexpr std::array also{std::pair{MagnetForm::disc, std::string_view("round")},
                                     std::pair{MagnetForm::disc, std::string_view("disk")},
                                     std::pair{MagnetForm::block, std::string_view("square")},
                                     std::pair{MagnetForm::block, std::string_view("bar")}};
};

/// The part that a piece of plastic belonged to, once somebody has looked.
enum class PlasticPart {
    notSaid,
    baffle,
    filterNeck,
    checkBall,
    harnessClip,
    chainGuide,
    thrustWasher,
    notFound
};
template <> struct EnumNames<PlasticPart> {
    static constexpr std::string_view what = "part of a piece of plastic";
    static constexpr std::array all{
        std::pair{PlasticPart::notSaid, std::string_view("not-said")},
        std::pair{PlasticPart::baffle, std::string_view("baffle")},
        std::pair{PlasticPart::filterNeck, std::string_view("filter-neck")},
        std::pair{PlasticPart::checkBall, std::string_view("check-ball")},
        std::pair{PlasticPart::harnessClip, std::string_view("harness-clip")},
        std::pair{PlasticPart::chainGuide, std::string_view("chain-guide")},
        std::pair{PlasticPart::thrustWasher, std::string_view("thrust-washer")},
        std::pair{PlasticPart::notFound, std::string_view("not-found")}};
    static constexpr std::array also{
        std::pair{PlasticPart::baffle, std::string_view("shield")},
        std::pair{PlasticPart::filterNeck, std::string_view("filter")},
        std::pair{PlasticPart::checkBall, std::string_view("ball")},
        std::pair{PlasticPart::checkBall, std::string_view("retainer")},
        std::pair{PlasticPart::harnessClip, std::string_view("clip")},
        std::pair{PlasticPart::harnessClip, std::string_view("harness")},
        std::pair{PlasticPart::chainGuide, std::string_view("chain")},
        std::pair{PlasticPart::thrustWasher, std::string_view("washer")},
        std::pair{PlasticPart::notFound, std::string_view("unknown")},
        std::pair{PlasticPart::notFound, std::string_view("none")}};
};

template <> struct EnumNames<Ferrous> {
    static constexpr std::string_view what = "answer to \"magnetic?\"";
    static constexpr std::array all{std::pair{Ferrous::notKnown, std::string_view("not-known")},
                                    std::pair{Ferrous::yes, std::string_view("yes")},
                                    std::pair{Ferrous::no, std::string_view("no")}};
};

} // namespace swarfbook
