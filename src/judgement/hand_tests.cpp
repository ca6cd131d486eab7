// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/hand_tests.h"

namespace swarfbook {
namespace {

template <class Test> bool isOf(const Test& test, Where place) {
    return !test.place || *test.place == place;
}

} // namespace

HandTests::HandTests(const VisitFindings& findings, Where place) {
    for (const FingerTest& test : findings.finger)
        if (isOf(test, place)) {
            felt_ |= test.feel == Feel::felt;
            notFelt_ |= test.feel == Feel::smears || test.feel == Feel::notFelt;
        }
    for (const MagnetTest& test : findings.magnet)
        if (isOf(test, place)) {
            moves_ |= test.result == MagnetMoves::moves;
            stays_ |= test.result == MagnetMoves::stays;
            share_ = test.share;
        }
    for (const SqueezeTest& test : findings.squeeze)
        if (isOf(test, place)) {
            bends_ |= test.result == Squeezed::bends;
            breaks_ |= test.result == Squeezed::breaks;
            crumbles_ |= test.result == Squeezed::crumbles;
        }
    for (const DebrisSeen& seen : findings.debris)
        wiped_ |= seen.place == place && seen.what == DebrisKind::clean;
}

Ferrous HandTests::byMagnet() const {
    if (moves_ == stays_)
        return Ferrous::notKnown;
    return moves_ ? Ferrous::yes : Ferrous::no;
}

Ferrous HandTests::magnetic() const {
    if (byMagnet() != Ferrous::notKnown)
        return byMagnet();
    return !moves_ && bends_ ? Ferrous::no : Ferrous::notKnown;
}

std::string HandTests::contradiction(TradeSize size) const {
    if (confirmMetal())
        return {};
    if (crumbles_)
        return "it crumbles in the pliers";
    if (notFelt_ && size >= TradeSize::s2)
        return "nothing of it can be felt";
    return wiped_ ? "the place was found clean by hand" : "";
}

} // namespace swarfbook
