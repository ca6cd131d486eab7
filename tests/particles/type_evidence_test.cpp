// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/type_evidence.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

Particle saidByPhoto(ParticleType type, double probability) {
    Particle piece;
    piece.said.photo = TypeSaid{type, probability};
    decideType(piece);
    return piece;
}

} // namespace

// The order is common practice, no source: a hand holds the piece, a magnet tells iron, light tells
// a look.
TEST_CASE("the technician's entry goes before the magnet, the magnet before light") {
    Particle piece = saidByPhoto(ParticleType::lining, 0.62);
    CHECK(piece.type == ParticleType::lining);
    CHECK(piece.typeProbability == 0.62);
    CHECK(whoSaidType(piece).empty());

    piece.said.twoLights = TypeSaid{ParticleType::plastic, 0.85};
    decideType(piece);
    CHECK(piece.type == ParticleType::plastic);
    CHECK(piece.typeProbability == 0.85);
    CHECK(whoSaidType(piece) == "by two lights; the photo alone: lining");

    piece.said.sweep = Ferrous::yes;
    decideType(piece);
    CHECK(piece.type == ParticleType::brightMetal);
    CHECK(piece.typeProbability == sweepIsRight);
    CHECK(whoSaidType(piece) == "by the magnet; two lights: plastic; the photo alone: lining");

    piece.said.hand = ParticleType::lining;
    decideType(piece);
    CHECK(piece.type == ParticleType::lining);
    CHECK(piece.typeProbability == 1.0);
    CHECK(whoSaidType(piece) == "by hand; the magnet took it; two lights: plastic");
    CHECK(piece.said.photo->type == ParticleType::lining); // all of it is kept
    CHECK(piece.said.photo->probability == 0.62);
}

// Of the types, only bright metal holds what a magnet takes (iron, steel); aluminium, which it
// leaves, is bright metal as well: physics.
TEST_CASE("a piece that the magnet left keeps the type that light gave it") {
    for (const ParticleType type : {ParticleType::brightMetal, ParticleType::yellowMetal,
                                    ParticleType::lining, ParticleType::unidentified}) {
        Particle piece = saidByPhoto(type, 0.7);
        piece.said.sweep = Ferrous::no;
        decideType(piece);
        CHECK(piece.type == type);
        CHECK(piece.typeProbability == 0.7);
        CHECK(whoSaidType(piece).empty());
    }
}

TEST_CASE("a thread that went with the magnet stays a thread") {
    Particle thread = saidByPhoto(ParticleType::fibre, 0.9);
    thread.said.sweep = Ferrous::yes;
    decideType(thread);
    CHECK(thread.type == ParticleType::fibre);
    CHECK(whoSaidType(thread).empty());
}

TEST_CASE("a piece of which nothing is said keeps what it has") {
    Particle sliver;
    sliver.type = ParticleType::brightMetal;
    sliver.typeProbability = 0.8;
    decideType(sliver);
    CHECK(sliver.type == ParticleType::brightMetal);
    CHECK(sliver.typeProbability == 0.8);
}
