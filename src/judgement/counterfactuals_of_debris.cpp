// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/counterfactuals.h"

#include <fmt/format.h>

namespace swarfbook::otherwise {

Others othersOf(const FingerTest& o) {
    const bool felt = o.feel == Feel::felt || o.feel == Feel::grit;
    return {
        changed(o,
                fmt::format("finger test: {} (recorded: {})",
                            felt ? "nothing is felt" : "pieces are felt", spaced(wordOf(o.feel))),
                [&](FingerTest& f) { f.feel = felt ? Feel::notFelt : Feel::felt; })};
}

Others othersOf(const MagnetTest& o) {
    const bool moves = o.result == MagnetMoves::moves;
    return {changed(
        o,
        moves ? "a magnet leaves the pieces (recorded: they move)"
              : "a magnet moves the pieces (recorded: they stay)",
        [&](MagnetTest& m) { m.result = moves ? MagnetMoves::stays : MagnetMoves::moves; })};
}

Others othersOf(const SqueezeTest& o) {
    const bool crumbles = o.result == Squeezed::crumbles;
    return {changed(
        o,
        fmt::format("a flake {} in the pliers (recorded: {})", crumbles ? "breaks" : "crumbles",
                    wordOf(o.result)),
        [&](SqueezeTest& s) { s.result = crumbles ? Squeezed::breaks : Squeezed::crumbles; })};
}

namespace {

bool isSoft(DebrisKind kind) {
    return kind == DebrisKind::clean || kind == DebrisKind::film || kind == DebrisKind::paste;
}

void sizeOthers(const DebrisSeen& o, const std::string& at, Others& others) {
    if (o.machinedFace)
        others.push_back(changed(o, at + "no machined face, fines only (recorded: machined face)",
                                 [](DebrisSeen& d) {
                                     d.machinedFace = false;
                                     d.size = TradeSize::s0;
                                 }));
    else if (o.size && *o.size >= TradeSize::s2)
        others.push_back(
            changed(o, fmt::format("{}specks of S1, a few (recorded: {})", at, wordOf(*o.size)),
                    [](DebrisSeen& d) {
                        d.size = TradeSize::s1;
                        d.amount = Amount::few;
                    }));
    if (o.amount == Amount::plenty || o.amount == Amount::notSaid)
        others.push_back(
            changed(o, at + "only a few", [](DebrisSeen& d) { d.amount = Amount::few; }));
    else
        others.push_back(changed(o,
                                 fmt::format("{}plenty of it (recorded: {})", at, wordOf(o.amount)),
                                 [](DebrisSeen& d) { d.amount = Amount::plenty; }));
}

} // namespace

Others othersOf(const DebrisSeen& o) {
    const std::string at =
        fmt::format("debris in {}, {}: ", spaced(wordOf(o.place)), spaced(wordOf(o.what)));
    Others others;
    if (isSoft(o.what)) {
        others.push_back(changed(o, at + "a piece of metal above 1 mm instead", [](DebrisSeen& d) {
            d.what = DebrisKind::brightMetal;
            d.size = TradeSize::s3;
            d.amount = Amount::one;
        }));
        others.back().unexpected = true;
    } else {
        sizeOthers(o, at, others);
        others.push_back(changed(o, at + "nothing there", [](DebrisSeen& d) {
            d = DebrisSeen{};
            d.what = DebrisKind::clean;
        }));
        std::get<DebrisSeen>(*others.back().instead).place = o.place;
    }
    if (o.what == DebrisKind::brightMetal && o.magnetic != Ferrous::notKnown)
        others.push_back(changed(o,
                                 at + (o.magnetic == Ferrous::yes ? "not magnetic (recorded: yes)"
                                                                  : "magnetic (recorded: no)"),
                                 [](DebrisSeen& d) {
                                     d.magnetic =
                                         d.magnetic == Ferrous::yes ? Ferrous::no : Ferrous::yes;
                                 }));
    if (o.burnt || o.seenBefore)
        others.push_back(changed(o, at + "neither burnt nor seen before",
                                 [](DebrisSeen& d) { d.burnt = d.seenBefore = false; }));
    return others;
}

} // namespace swarfbook::otherwise
