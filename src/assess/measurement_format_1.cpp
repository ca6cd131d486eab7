// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measurement_format_1.h"

#include "particles/particle.h"

#include <string>
#include <utility>

namespace swarfbook {
namespace {

using nlohmann::json;

/// The same type's word in format 2; any other text stays as it is.
std::string presentWord(const std::string& word) {
    for (int i = 0; i < particleTypeCount; ++i)
        if (const ParticleType type = static_cast<ParticleType>(i); earlierTypeWord(type) == word)
            return std::string(typeWord(type));
    return word;
}

void renameKey(json& object, const char* from, const char* to) {
    if (const auto found = object.find(from); found != object.end()) {
        json value = std::move(*found);
        object.erase(found);
        object[to] = std::move(value);
    }
}

/// For each entry of `owner`'s list under `key`, if there is one.
template <class Change> void changeEach(json& owner, const char* key, const Change& change) {
    const auto list = owner.is_object() ? owner.find(key) : owner.end();
    if (list == owner.end() || !list->is_array())
        return;
    for (json& one : *list)
        if (one.is_object())
            change(one);
}

void changePiece(json& piece) {
    renameKey(piece, "look", "type");
    renameKey(piece, "look_probability", "type_probability");
    if (const auto type = piece.find("type"); type != piece.end() && type->is_string())
        *type = presentWord(type->get<std::string>());
}

void changeCount(json& count) {
    renameKey(count, "by_look", "by_type");
    const auto byType = count.find("by_type");
    if (byType == count.end() || !byType->is_object())
        return;
    json present = json::object();
    for (const auto& [word, pieces] : byType->items())
        present[presentWord(word)] = pieces;
    *byType = std::move(present);
}

} // namespace

json fromFormat1(json document) {
    changeEach(document, "particles", changePiece);
    changeEach(document, "counts", changeCount);
    if (const auto magnet = document.find("magnet"); magnet != document.end())
        changeEach(*magnet, "slivers", changePiece);
    document["format"] = "swarfbook measurement 2";
    return document;
}

} // namespace swarfbook
