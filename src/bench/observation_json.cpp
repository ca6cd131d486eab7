// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/observation.h"
#include "bench/observation_fields.h"

#include <cmath>
#include <set>
#include <stdexcept>

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
template <HasWords Enum> ordered_json stored(Enum value) {
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
template <HasWords Enum> void readInto(const json& from, Enum& value) {
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
    if constexpr (HasWords<T>)
        return !fields::hasNothing(fallback);
    else
        return false;
}

template <class T> ordered_json storedFields(const T& observation) {
    ordered_json result = ordered_json::object();
    fields::forEach<T>([&](const auto& f) {
        const auto& value = observation.*f.member;
        // an empty list of codes says "read, and none stored"
        const bool emptyButTold = std::is_same_v<T, Codes> && f.name == "codes";
        if (fields::isGiven(value) || isRequired(T{}.*f.member) || emptyButTold)
            result[std::string(f.name)] = stored(value);
    });
    return result;
}

template <class T> T readFields(const json& from) {
    if (!from.is_object())
        throw std::invalid_argument(std::string(fields::Of<T>::kind) + ": not an object");
    T observation;
    std::set<std::string> known;
    fields::forEach<T>([&](const auto& f) {
        const std::string name(f.name);
        known.insert(name);
        if (!from.contains(name)) {
            if (isRequired(observation.*f.member) || name == "name")
                throw std::invalid_argument(std::string(fields::Of<T>::kind) + ": \"" + name +
                                            "\" is missing");
            return;
        }
        try {
            readInto(from.at(name), observation.*f.member);
        } catch (const std::exception& wrong) {
            throw std::invalid_argument(std::string(fields::Of<T>::kind) + ": \"" + name +
                                        "\" cannot be read: " + wrong.what());
        }
    });
    for (const auto& entry : from.items())
        if (!known.contains(entry.key()))
            throw std::invalid_argument(std::string(fields::Of<T>::kind) + ": \"" + entry.key() +
                                        "\" is not known");
    return observation;
}

/// Calls use.template operator()<T>() for every kind there is.
template <class Use, class... Ts>
void forEachKind(Use&& use, const std::variant<Ts...>* /*only its type is used*/) {
    (use.template operator()<Ts>(), ...);
}

} // namespace

std::string_view observationKind(const Observation& observation) {
    return std::visit([]<class T>(const T&) { return fields::Of<T>::kind; }, observation);
}

std::vector<std::string_view> observationKinds() {
    std::vector<std::string_view> kinds;
    forEachKind([&]<class T>() { kinds.push_back(fields::Of<T>::kind); },
                static_cast<const Observation*>(nullptr));
    return kinds;
}

nlohmann::ordered_json toJson(const Observation& observation) {
    return std::visit([](const auto& o) { return storedFields(o); }, observation);
}

Observation observationFromJson(std::string_view kind, const nlohmann::json& document) {
    std::optional<Observation> found;
    forEachKind(
        [&]<class T>() {
            if (fields::Of<T>::kind == kind)
                found = readFields<T>(document);
        },
        static_cast<const Observation*>(nullptr));
    if (!found)
        throw std::invalid_argument("no kind of observation is called \"" + std::string(kind) +
                                    "\"");
    return *found;
}

} // namespace swarfbook
