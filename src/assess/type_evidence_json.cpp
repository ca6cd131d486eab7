// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/type_evidence_json.h"

#include "assess/document_values.h"
#include "assess/rounded.h"

#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr int probabilityDecimals = 4;
constexpr const char *taken = "magnetic", *left = "not magnetic";

ordered_json saidJson(const std::optional<TypeSaid>& said) {
    if (!said)
        return nullptr;
    return {{"type", typeWord(said->type)},
            {"probability", rounded(said->probability, probabilityDecimals)}};
}

std::optional<TypeSaid> saidFrom(const json& from) {
    if (from.is_null())
        return std::nullopt;
    return TypeSaid{typeFromWord(from.at("type").get<std::string>()),
                    document::share(from.at("probability"))};
}

Ferrous takenOrLeftFrom(const json& from) {
    if (from.is_null())
        return Ferrous::notKnown;
    const auto word = from.get<std::string>();
    if (word != taken && word != left)
        throw std::invalid_argument("what a magnet sweep cannot say: " + word);
    return word == taken ? Ferrous::yes : Ferrous::no;
}

} // namespace

ordered_json toJson(const TypeEvidence& said) {
    return {{"hand", said.hand ? ordered_json(typeWord(*said.hand)) : ordered_json(nullptr)},
            {"sweep", said.sweep == Ferrous::notKnown
                          ? ordered_json(nullptr)
                          : ordered_json(said.sweep == Ferrous::yes ? taken : left)},
            {"two_lights", saidJson(said.twoLights)},
            {"photo", saidJson(said.photo)}};
}

TypeEvidence typeEvidenceFromJson(const json& document) {
    TypeEvidence said;
    said.photo = saidFrom(document.at("photo"));
    said.twoLights = saidFrom(document.at("two_lights"));
    said.sweep = takenOrLeftFrom(document.at("sweep"));
    if (const json& hand = document.at("hand"); !hand.is_null())
        said.hand = typeFromWord(hand.get<std::string>());
    return said;
}

} // namespace swarfbook
