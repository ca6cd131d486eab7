// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/field_entry.h"

#include "bench/describe_parts.h"
#include "bench/read_field.h"

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

using namespace fields;

template <class Value> struct IsQuantity : std::false_type {
    static constexpr std::string_view unit{};
};
template <class Unit> struct IsQuantity<std::optional<Typed<Unit>>> : std::true_type {
    static constexpr std::string_view unit = QuantityWords<Unit>::name;
};
template <class Value> struct HeldWords { using Type = Value; };
template <class Value> struct HeldWords<std::optional<Value>> { using Type = Value; };

/// The words of a field as the sheet has them.
template <class Value> std::vector<std::string> wordsOfField(const About& about) {
    using Held = typename HeldWords<Value>::Type;
    std::vector<std::string> words;
    if constexpr (HasNames<Held>) {
        for (const auto& [place, name] : namedWords(about, enumWords<Held>))
            words.push_back(name);
    } else if constexpr (std::is_same_v<Held, bool>) {
        if (about.typing != Typing::marks)
            words = {"yes", "no"};
    }
    return words;
}

// The phrase of each type of value.

std::string phraseOf(const About& about, const std::string& text) {
    return text.empty() || about.said.empty() ? text : fmt::format("{} {}", about.said, text);
}
std::string phraseOf(const About& about, bool flag) {
    return std::string(flag ? about.said : about.saidNo);
}
std::string phraseOf(const About& about, const std::vector<std::string>& list) {
    return phraseOf(about, describing::joined(list));
}
template <HasNames Enum> std::string phraseOf(const About& about, Enum value) {
    if (hasNothing(value))
        return {};
    const std::string word(wordOf(value));
    if (!about.saidNo.empty() && (word == "no" || word == "none"))
        return std::string(about.saidNo);
    return word == "yes" ? std::string(about.said) : phraseOf(about, word);
}
template <class Unit> std::string phraseOf(const About& about, const Typed<Unit>& value) {
    using Words = QuantityWords<Unit>;
    const int digits = about.typing == Typing::vacuum ? 1 : Words::digits;
    return phraseOf(about, describing::typed(std::optional(value), Words::name, digits));
}
template <class T> std::string phraseOf(const About& about, const std::optional<T>& value) {
    return value ? phraseOf(about, *value) : std::string();
}

template <class Value>
constexpr ValueKind kindOfValue{
    [](const About& about, const std::string& text) {
        return fields::understands(about, static_cast<const Value*>(nullptr), text);
    },
    [](const About& about, const std::string& text, Sure sure, void* value) {
        fields::read(about, text, sure, *static_cast<Value*>(value));
    },
    [](const void* value) { return isGiven(*static_cast<const Value*>(value)); },
    [](const About& about, const void* value) {
        return phraseOf(about, *static_cast<const Value*>(value));
    }};

/// Code that depends on the type of the value alone. Code that does not depend on the kind of
/// observation is written once for all; otherwise the compiler would write it out for some hundred
/// fields.
template <class Value> FieldEntry entryOf(std::string_view name, const About& about) {
    constexpr bool words = HasNames<typename HeldWords<Value>::Type>;
    FieldEntry entry;
    entry.name = name;
    entry.about = about;
    entry.flag = std::is_same_v<Value, bool> || (words && about.typing == Typing::marks);
    entry.onlyWords =
        words || std::is_same_v<Value, bool> || std::is_same_v<Value, std::optional<bool>>;
    entry.unit = IsQuantity<Value>::unit;
    entry.words = wordsOfField<Value>(about);
    entry.kind = &kindOfValue<Value>;
    return entry;
}

/// A field of T's own, or of Owner, which T takes its fields from.
template <class T, class Owner, class Value>
void addEntry(std::vector<FieldEntry>& to, Field<Owner, Value> f) {
    T any{};
    const auto* const whole = reinterpret_cast<const char*>(&any);
    to.push_back(entryOf<Value>(f.name, f.about));
    to.back().kept = [](Observation& of) -> void* { return &std::get<T>(of); };
    to.back().offset = reinterpret_cast<const char*>(&(any.*f.member)) - whole;
}

struct KindEntry {
    std::string_view name;
    std::vector<FieldEntry> all;
    Observation empty;
};

template <class T> void addKind(std::vector<KindEntry>& to) {
    KindEntry& kind = to.emplace_back();
    kind.name = Of<T>::kind;
    forEach<T>([&](const auto& f) { addEntry<T>(kind.all, f); });
    kind.empty = T{};
}

template <class... Ts>
std::vector<KindEntry> entriesOf(const std::variant<Ts...>* /*its type alone*/) {
    // By address: in one function, thirty kinds would take the compiler half a minute.
    constexpr std::array<void (*)(std::vector<KindEntry>&), sizeof...(Ts)> add{addKind<Ts>...};
    std::vector<KindEntry> kinds;
    for (const auto addOne : add)
        addOne(kinds);
    return kinds;
}

const KindEntry& kindOf(std::string_view name) {
    static const auto all = entriesOf(static_cast<const Observation*>(nullptr));
    for (const KindEntry& kind : all)
        if (kind.name == name)
            return kind;
    throw std::logic_error("no kind of observation is called " + std::string(name));
}

void* valueIn(Observation& of, const FieldEntry& entry) {
    return static_cast<char*>(entry.kept(of)) + entry.offset;
}
const void* valueIn(const Observation& of, const FieldEntry& entry) {
    return valueIn(const_cast<Observation&>(of), entry); // is only looked at
}

} // namespace

bool FieldEntry::understands(const std::string& text) const {
    return kind->understands(about, text);
}

void FieldEntry::read(Observation& into, const std::string& text, Sure sure) const {
    kind->read(about, text, sure, valueIn(into, *this));
}

bool FieldEntry::given(const Observation& of) const {
    return kind->given(valueIn(of, *this));
}

std::string FieldEntry::phrase(const Observation& of) const {
    if (about.told == Told::withOthers)
        return {};
    return kind->phrase(about, valueIn(of, *this));
}

std::string FieldEntry::help() const {
    if (!about.help.empty())
        return std::string(about.help);
    std::string list;
    for (const std::string& word : words)
        list += (list.empty() ? "" : words.size() == 2 ? " or " : ", ") + wordAsTyped(word);
    return list;
}

const std::vector<FieldEntry>& fieldsOfKind(std::string_view kind) {
    return kindOf(kind).all;
}

Observation emptyObservation(std::string_view kind) {
    return kindOf(kind).empty;
}

} // namespace swarfbook
