// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/typed_observation.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

namespace swarfbook {
namespace {

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
    std::string text;
    for (std::size_t i = from; i < to; ++i)
        text += (text.empty() ? "" : " ") + words[i];
    return text;
}

/// How many words at the end say that something was not looked at: "not inspected" has two.
std::size_t wordsOfLeavingOut(const std::vector<std::string>& values) {
    static const std::set<std::string> said{"not-inspected", "not-looked-at", "not-driven",
                                            "not-tested",    "not-checked",   "n/i"};
    for (const std::size_t count : {std::size_t{1}, std::size_t{2}, std::size_t{3}})
        if (values.size() >= count &&
            said.contains(wordAsTyped(joined(values, values.size() - count, values.size()))))
            return count;
    return 0;
}

/// "filter", "solenoid C": the part said to be not inspected; nothing if the line does not say
/// that.
std::optional<std::string> leftOut(const TypedLine& line) {
    if (line.form == "not-inspected")
        return std::nullopt;
    const std::size_t last = wordsOfLeavingOut(line.values);
    if (last == 0)
        return std::nullopt;
    const std::string which = joined(line.values, 0, line.values.size() - last);
    return which.empty() ? line.form : line.form + " " + which;
}

[[noreturn]] void meansNothing(const std::string& option, const std::string& use) {
    throw UsageError(fmt::format(
        "swarfbook observe {1} takes no --{0}. swarfbook observe {2} --help shows what it takes.",
        option, use, use.substr(0, use.find(' '))));
}

/// "none" for a gear, as in the column of a work sheet, means no drive; for the whole drive it
/// means no complaint. Elsewhere it could be either.
std::string_view meantByNone(const ObservationForm& form, const Observation& soFar) {
    if (form.name == "gear")
        return "no-drive";
    const auto* drive = std::get_if<Complaint>(&soFar);
    if (form.name == "complaint" && drive->gear.empty() && drive->shift.empty())
        return "good";
    throw UsageError("\"none\" can mean that there is no drive or that there is no complaint. Say "
                     "no-drive or good.");
}

bool isShift(const std::string& text) {
    return text.find_first_of("->/") != std::string::npos && text.size() > 2;
}

/// A word after the kind.
void putWord(Observation& into, const ObservationForm& form, std::string_view name,
             const FieldAnswer& answer) {
    std::string_view field = name;
    std::string word = answer.text;
    if (name == "symptom" && wordAsTyped(word) == "none")
        word = meantByNone(form, into);
    if (name == "what" && form.name == "debris")
        return readDebrisWords(word, std::get<DebrisSeen>(into));
    if (form.name == "road-test" && name == "gear" && isShift(word))
        field = "shift";
    if (form.name == "end-play" && name == "result" &&
        word.find_first_of("0123456789") != std::string::npos)
        field = "reading_mm";
    form.field(field).read(into, word, answer.sure);
}

/// Fields that share an option: the field that knows a word takes it; any other text is a quantity.
void putOption(Observation& into, const ObservationForm& form, std::string_view option,
               const FieldAnswer& answer) {
    std::vector<const FieldEntry*> words, others;
    for (const FieldEntry& entry : fieldsOfKind(form.kind)) {
        if (entry.about.option != option)
            continue;
        const bool known = entry.onlyWords && entry.understands(answer.text);
        (known ? words : others).push_back(&entry);
    }
    const bool anyText = std::any_of(others.begin(), others.end(),
                                     [](const FieldEntry* f) { return !f->onlyWords; });
    for (const FieldEntry* entry : words.empty() ? others : words)
        if (!words.empty() || !anyText || !entry->onlyWords)
            entry->read(into, answer.text, answer.sure);
}

/// A line being read: puts its words and options into one observation.
class LineReader {
  public:
    LineReader(const ObservationForm& form, const TypedLine& line, Sure sure)
        : form_(form), line_(line), sure_(sure), into_(emptyObservation(form.kind)) {}

    Observation read() {
        if (form_.name == "road-test")
            readRoadTest();
        else if (form_.name == "debris")
            readDebris();
        else
            readWords();
        for (const auto& [option, text] : line_.options)
            readOption(option, text);
        requireGear();
        requireSomething();
        completeObservation(into_, sure_);
        return into_;
    }

  private:
    void require(std::size_t n, const FormWord& word) const {
        if (n >= line_.values.size())
            refuseMissing(word);
    }

    [[noreturn]] void refuseMissing(const FormWord& word) const {
        const FieldEntry& missing = form_.field(word.field);
        throw UsageError(
            missing.onlyWords
                ? fmt::format("Say {}: {}.",
                              missing.about.help.empty() ? missing.about.label : missing.about.help,
                              form_.words.size() > 1 ? listOf(missing) : form_.usage())
                : fmt::format("Say {}.", missing.about.help));
    }

    static std::string listOf(const FieldEntry& entry) {
        std::string list;
        for (const std::string& word : entry.words)
            list += (list.empty() ? "" : ", ") + wordAsTyped(word);
        return list;
    }

    void readWords() {
        std::size_t n = 0;
        const auto& values = line_.values;
        for (const FormWord& word : form_.words) {
            if (n >= values.size() && !word.required)
                continue;
            require(n, word);
            std::size_t end = n + 1;
            if (word.takes == FormWord::Takes::rest)
                end = values.size();
            else if (word.takes == FormWord::Takes::allBeforeLast)
                end = std::max(n + 1, values.size() - 1);
            const std::string text = joined(values, n, end);
            if (text.find_first_not_of(' ') == std::string::npos)
                refuseMissing(word);
            put(word.field, text);
            n = end;
        }
        if (n < values.size())
            throw UsageError(fmt::format("\"{}\" is not expected here; a name of several words "
                                         "needs quotation marks.",
                                         values[n]));
    }

    /// "3 good", "2-3 flare" or "good" for the whole drive.
    void readRoadTest() {
        const auto& values = line_.values;
        if (values.empty())
            throw UsageError("Say a gear, a shift or how it drives as a whole.");
        const std::string whole = joined(values, 0, values.size());
        if (values.size() == 1 || form_.field("symptom").understands(whole))
            return put("symptom", whole);
        put("gear", values[0]);
        put("symptom", joined(values, 1, values.size()));
    }

    /// The place may be of several words: "converter drain".
    void readDebris() {
        const auto& values = line_.values;
        require(0, form_.words[0]);
        std::size_t end = 1;
        for (std::size_t more = 2; more < values.size(); ++more)
            if (form_.field("place").understands(joined(values, 0, more)))
                end = more;
        put("place", joined(values, 0, end));
        require(end, form_.words[1]);
        readDebrisWords(joined(values, end, values.size()), std::get<DebrisSeen>(into_));
    }

    void put(std::string_view name, const std::string& text) {
        putWord(into_, form_, name, {text, sure_});
    }

    void readOption(const std::string& typed, const std::string& text) {
        std::string option = optionAsNamed(typed), meant = text;
        for (const ShortOption& alone : shortOptions())
            if (alone.name == typed) {
                option = alone.option;
                meant = alone.value;
            }
        if (!given_.insert(option).second)
            throw UsageError(fmt::format(
                "--{} contradicts another word of this entry. Type one entry for each.", typed));
        const auto listed = form_.options();
        if (std::none_of(listed.begin(), listed.end(),
                         [&](const FieldEntry* f) { return f->about.option == option; }))
            meansNothing(typed, form_.name);
        putOption(into_, form_, option, {meant, sure_});
    }

    /// "complaint --gear 3 none" could mean either.
    void requireGear() const {
        const auto* drive = std::get_if<Complaint>(&into_);
        if (form_.name == "complaint" && !(drive->gear.empty() && drive->shift.empty()) &&
            wordAsTyped(joined(line_.values, 0, line_.values.size())) == "none")
            meantByNone(form_, into_);
    }

    /// A line that says nothing keeps nothing.
    void requireSomething() const {
        const bool named = form_.name == "solenoid" || form_.name == "bore";
        if (!form_.words.empty() && !named)
            return;
        for (const FieldEntry& entry : fieldsOfKind(form_.kind))
            if (entry.name != "name" && entry.given(into_))
                return;
        throw UsageError(fmt::format("Say what was found. swarfbook observe {} --help shows what "
                                     "can be said.",
                                     form_.name));
    }

    const ObservationForm& form_;
    const TypedLine& line_;
    Sure sure_;
    Observation into_;
    std::set<std::string> given_; ///< options
};

} // namespace

void putAnswer(Observation& into, const ObservationForm& form, const FieldEntry& field,
               const FieldAnswer& answer) {
    const bool word = std::any_of(form.words.begin(), form.words.end(),
                                  [&](const FormWord& w) { return w.field == field.name; });
    if (word || field.about.option.empty())
        putWord(into, form, field.name, answer);
    else
        putOption(into, form, field.about.option, answer);
}

bool saysLeftOut(const std::string& text) {
    return wordsOfLeavingOut({text}) == 1;
}

Observation observationTyped(const TypedLine& line, Sure sure) {
    const ObservationForm& form = observationForm(line.form);
    if (const auto what = leftOut(line)) {
        if (!line.options.empty())
            meansNothing(line.options.begin()->first, form.name + " not-inspected");
        return NotInspected{*what};
    }
    return LineReader(form, line, sure).read();
}

} // namespace swarfbook
