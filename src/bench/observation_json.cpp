// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/observation.h"
#include "bench/observation_fields.h"

#include <cmath>
#include <set>
#include <stdexcept>
#include <type_traits>
#include <utility>

namespace swarfbook {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

ordered_json stored(const std::string& text) {
    return text;
}
ordered_json stored(bool flag) {
    return flag;
}
ordered_json stored(const std::vector<std::string>& texts) {
    return texts;
}
template <HasNames Enum> ordered_json stored(Enum value) {
    return wordOf(value);
}
template <class Unit> ordered_json stored(const Typed<Unit>& value) {
    ordered_json both{{"value", value.value.value()}, {"typed", value.typed}};
    if (value.sure)
        both["sure"] = true;
    return both;
}
template <class T> ordered_json stored(const std::optional<T>& value) {
    return stored(*value);
}

void readInto(const json& from, std::string& text) {
    text = from.get<std::string>();
}
void readInto(const json& from, bool& flag) {
    flag = from.get<bool>();
}
void readInto(const json& from, std::vector<std::string>& texts) {
    texts = from.get<std::vector<std::string>>();
}
template <HasNames Enum> void readInto(const json& from, Enum& value) {
    value = fromWord<Enum>(from.get<std::string>());
}
template <class Unit> void readInto(const json& from, Typed<Unit>& value) {
    const double number = from.at("value").get<double>();
    if (!std::isfinite(number))
        throw std::invalid_argument("not a finite number");
    value = {Unit(number), from.at("typed").get<std::string>(), from.value("sure", false)};
}
template <class T> void readInto(const json& from, std::optional<T>& value) {
    readInto(from, value.emplace());
}

/// Words without a "nothing said" among them always stand in the stored text.
template <class T> constexpr bool isRequired(const T& fallback) {
    if constexpr (HasNames<T>)
        return !fields::hasNothing(fallback);
    else
        return false;
}

// Code that does not depend on the field's type has functions of its own; otherwise the compiler
// would write it out for each of some hundred fields.

void store(ordered_json& result, std::string_view name, ordered_json value) {
    result[std::string(name)] = std::move(value);
}

template <class T> ordered_json storedFields(const T& observation) {
    ordered_json result = ordered_json::object();
    fields::forEach<T>([&](const auto& f) {
        const auto& value = observation.*f.member;
        // an empty list of codes says "read, and none stored"
        const bool emptyButTold = std::is_same_v<T, Codes> && f.name == "codes";
        if (fields::isGiven(value) || isRequired(T{}.*f.member) || emptyButTold)
            store(result, f.name, stored(value));
    });
    return result;
}

[[noreturn]] void refuse(std::string_view kind, const std::string& why) {
    throw std::invalid_argument(std::string(kind) + ": " + why);
}

/// A field to read: `read` turns the stored value into the value at `into`.
struct FieldToRead {
    std::string_view kind, name;
    bool required;
    void (*read)(const json& from, void* into);
    void* into;
};

template <class T> void readValue(const json& from, void* into) {
    readInto(from, *static_cast<T*>(into));
}

void readField(const json& from, const FieldToRead& field) {
    const std::string name(field.name);
    if (!from.contains(name)) {
        if (field.required)
            refuse(field.kind, "\"" + name + "\" is missing");
        return;
    }
    try {
        field.read(from.at(name), field.into);
    } catch (const std::exception& wrong) {
        refuse(field.kind, "\"" + name + "\" cannot be read: " + wrong.what());
    }
}

void refuseUnknownFields(const json& from, std::string_view kind,
                         const std::set<std::string_view>& known) {
    for (const auto& entry : from.items())
        if (!known.contains(entry.key()))
            refuse(kind, "\"" + entry.key() + "\" is not known");
}

template <class T> T readFields(const json& from) {
    constexpr std::string_view kind = fields::Of<T>::kind;
    if (!from.is_object())
        refuse(kind, "not an object");
    T observation;
    std::set<std::string_view> known;
    fields::forEach<T>([&](const auto& f) {
        auto& value = observation.*f.member;
        known.insert(f.name);
        readField(from, {kind, f.name, isRequired(value) || f.name == "name",
                         readValue<std::remove_reference_t<decltype(value)>>, &value});
    });
    refuseUnknownFields(from, kind, known);
    return observation;
}

struct KindReader {
    std::string_view kind;
    Observation (*read)(const json& from);
};

template <class T> Observation readKind(const json& from) {
    return readFields<T>(from);
}

template <class... Ts>
std::vector<KindReader> readersOf(const std::variant<Ts...>* /*only its type is used*/) {
    return {{fields::Of<Ts>::kind, readKind<Ts>}...};
}

/// One for every kind there is.
const std::vector<KindReader>& kindReaders() {
    static const auto readers = readersOf(static_cast<const Observation*>(nullptr));
    return readers;
}

} // namespace

std::string_view observationKind(const Observation& observation) {
    return std::visit([]<class T>(const T&) { return fields::Of<T>::kind; }, observation);
}

std::vector<std::string_view> observationKinds() {
    std::vector<std::string_view> kinds;
    for (const KindReader& reader : kindReaders())
        kinds.push_back(reader.kind);
    return kinds;
}

nlohmann::ordered_json toJson(const Observation& observation) {
    return std::visit([](const auto& o) { return storedFields(o); }, observation);
}

Observation observationFromJson(std::string_view kind, const nlohmann::json& document) {
    for (const KindReader& reader : kindReaders())
        if (reader.kind == kind)
            return reader.read(document);
    throw std::invalid_argument("no kind of observation is called \"" + std::string(kind) + "\"");
}

} // namespace swarfbook
