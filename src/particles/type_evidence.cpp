// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/type_evidence.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

/// What the light alone says: two lights before one.
const std::optional<TypeSaid>& byLight(const TypeEvidence& said) {
    return said.twoLights ? said.twoLights : said.photo;
}

bool isThread(const std::optional<TypeSaid>& said) {
    return said && said->type == ParticleType::fibre;
}

bool sweepDecides(const TypeEvidence& said) {
    return said.sweep == Ferrous::yes && !isThread(byLight(said));
}

void add(std::string& words, const std::string& more) {
    words += (words.empty() ? "" : "; ") + more;
}

void addLight(std::string& words, const char* which, const std::optional<TypeSaid>& said,
              const Particle& piece) {
    if (said && said->type != piece.type)
        add(words, fmt::format("{}: {}", which, typeWord(said->type)));
}

} // namespace

void decideType(Particle& piece) {
    const TypeEvidence& said = piece.said;
    std::optional<TypeSaid> decided = byLight(said);
    if (sweepDecides(said))
        decided = TypeSaid{ParticleType::brightMetal, sweepIsRight};
    if (said.hand)
        decided = TypeSaid{*said.hand, 1.0};
    if (!decided)
        return;
    piece.type = decided->type;
    piece.typeProbability = decided->probability;
}

std::string whoSaidType(const Particle& piece) {
    const TypeEvidence& said = piece.said;
    std::string words;
    if (said.hand)
        add(words, "by hand");
    if (sweepDecides(said))
        add(words, said.hand ? "the magnet took it" : "by the magnet");
    else if (said.hand && said.sweep == Ferrous::no)
        add(words, "the magnet left it");
    if (said.twoLights && !said.hand && !sweepDecides(said))
        add(words, "by two lights");
    addLight(words, "two lights", said.twoLights, piece);
    if (!words.empty())
        addLight(words, "the photo alone", said.photo, piece);
    return words;
}

} // namespace swarfbook
