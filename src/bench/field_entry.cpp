// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/field_entry.h"

#include "bench/describe_parts.h"
#include "bench/read_field.h"

#include <map>
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
    if constexpr (HasWords<Held>) {
        for (const auto& [value, name] : namedWords<Held>(about))
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
template <HasWords Enum> std::string phraseOf(const About& about, Enum value) {
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

template <class T, class F> FieldEntry entryOf(const F& f) {
    using Value = std::remove_cvref_t<decltype(std::declval<T>().*f.member)>;
    constexpr bool words = HasWords<typename HeldWords<Value>::Type>;
    FieldEntry entry;
    entry.name = f.name;
    entry.about = f.about;
    entry.flag = std::is_same_v<Value, bool> || (words && f.about.typing == Typing::marks);
    entry.onlyWords =
        words || std::is_same_v<Value, bool> || std::is_same_v<Value, std::optional<bool>>;
    entry.unit = IsQuantity<Value>::unit;
    entry.words = wordsOfField<Value>(f.about);
    entry.understands = [f](const std::string& text) {
        return understands(f.about, static_cast<const Value*>(nullptr), text);
    };
    entry.read = [f](Observation& into, const std::string& text, Sure sure) {
        read(f.about, text, sure, std::get<T>(into).*f.member);
    };
    entry.given = [f](const Observation& of) { return isGiven(std::get<T>(of).*f.member); };
    entry.phrase = [f](const Observation& of) {
        return f.about.told == Told::withOthers ? std::string()
                                                : phraseOf(f.about, std::get<T>(of).*f.member);
    };
    return entry;
}

struct KindEntry {
    std::vector<FieldEntry> all;
    Observation empty;
};

template <class T> std::pair<std::string_view, KindEntry> kindEntry() {
    KindEntry kind;
    forEach<T>([&](const auto& f) { kind.all.push_back(entryOf<T>(f)); });
    kind.empty = T{};
    return {Of<T>::kind, kind};
}

template <class... Ts>
std::map<std::string_view, KindEntry> entriesOf(const std::variant<Ts...>* /*its type alone*/) {
    return {kindEntry<Ts>()...};
}

const KindEntry& kindOf(std::string_view name) {
    static const auto all = entriesOf(static_cast<const Observation*>(nullptr));
    const auto found = all.find(name);
    if (found == all.end())
        throw std::logic_error("no kind of observation is called " + std::string(name));
    return found->second;
}

} // namespace

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
