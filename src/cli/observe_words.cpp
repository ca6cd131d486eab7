// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/observe_words.h"

#include "base/errors.h"
#include "base/text.h"
#include "entry/repair_done.h"
#include "entry/work_photo_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace swarfbook::cli {
namespace {

/// Options of the verb, and those that any kind takes.
const std::set<std::string> everyKindsOptions{"visit", "vehicle",  "words", "json", "book",
                                              "by",    "corrects", "sure",  "file"};

constexpr std::pair<WorkMoment, const char*> photoOptions[] = {{WorkMoment::before, "photo-before"},
                                                               {WorkMoment::after, "photo-after"}};

bool isPhotoOption(const std::string& name) {
    return name == photoOptions[0].second || name == photoOptions[1].second;
}

/// The photos of the work. UsageError where the observation records no work.
std::vector<TypedWorkPhoto> typedPhotos(const ParsedOptions& words, const ObservationForm& form) {
    std::vector<TypedWorkPhoto> photos;
    for (const auto& [moment, option] : photoOptions) {
        if (!has(words, option))
            continue;
        if (!takesWorkPhotos(form.kind))
            throw UsageError(fmt::format("--{0} belongs to work that was done: swarfbook observe "
                                         "did \"filter renewed\" --{0} PHOTO. A photo of debris "
                                         "goes in with swarfbook add.",
                                         option));
        for (const std::string& file : words[option].as<std::vector<std::string>>()) {
            if (file.empty())
                throw UsageError(fmt::format("--{} needs the name of a file.", option));
            photos.push_back({moment, file});
        }
    }
    return photos;
}

/// Whether a word begins a new observation. A line of work names parts in the plural, and "oil":
/// after it only a kind's own name does.
bool isForm(const std::string& word, const std::vector<std::string>& before) {
    const ObservationForm* form = formNamed(word);
    const bool afterWork = std::any_of(before.begin(), before.end(), [](const std::string& one) {
        return formNamed(one) == formNamed("did"); // options may stand before it
    });
    return form != nullptr && (!afterWork || form->name == word);
}

std::int64_t observationNumber(const std::string& text) {
    try {
        return visitNumber(text);
    } catch (const UsageError&) {
        throw UsageError(
            fmt::format("\"{}\" is not an observation number. swarfbook observe --visit N "
                        "without a kind shows them.",
                        text));
    }
}

} // namespace

std::vector<std::vector<std::string>> partsOfLine(const std::vector<std::string>& words) {
    std::vector<std::vector<std::string>> parts(1);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool kindFollows = i + 1 < words.size() && isForm(words[i + 1], parts.back());
        const bool alone = words[i] == "and" || words[i] == ",";
        const bool comma = words[i].size() > 1 && words[i].back() == ',';
        if (!kindFollows || parts.back().empty() || (!alone && !comma)) {
            parts.back().push_back(words[i]);
            continue;
        }
        if (comma)
            parts.back().push_back(words[i].substr(0, words[i].size() - 1));
        parts.emplace_back();
    }
    return parts;
}

std::vector<std::string> wordsOfLine(const std::string& line) {
    std::vector<std::string> words;
    bool inWord = false;
    char quote = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        const bool blank = c == ' ' || c == '\t' || c == '\r';
        if (quote == 0 && blank) {
            inWord = false;
            continue;
        }
        if (!inWord)
            words.emplace_back();
        // a quotation mark after a digit is that of inches
        const bool opens = quote == 0 && (c == '"' || c == '\'') && (!inWord || line[i - 1] == '=');
        inWord = true;
        if (opens)
            quote = c;
        else if (quote != 0 && c == quote)
            quote = 0;
        else
            words.back() += c;
    }
    if (quote != 0)
        throw UsageError("A quotation mark has no second one.");
    return words;
}

std::optional<TypedObservation> typedObservation(const ParsedOptions& words) {
    if (!has(words, "words"))
        return std::nullopt;
    TypedObservation typed;
    typed.line.values = words["words"].as<std::vector<std::string>>();
    const ObservationForm& form = observationForm(typed.line.values.front());
    typed.line.form = form.name;
    typed.line.values.erase(typed.line.values.begin());
    for (const auto& [name, value] : words)
        if (!value.defaulted() && !everyKindsOptions.contains(name) && !isPhotoOption(name))
            typed.line.options[name] = value.empty() ? "" : value.as<std::string>();
    typed.photos = typedPhotos(words, form);
    typed.by = textOf(words, "by");
    typed.sure = has(words, "sure") ? Sure::meant : Sure::ask;
    if (has(words, "corrects"))
        typed.corrects = observationNumber(textOf(words, "corrects"));
    return typed;
}

std::vector<Observation> observationsMeant(const TypedObservation& typed) {
    const ObservationForm& form = observationForm(typed.line.form);
    try {
        Observation observation = observationTyped(typed.line, typed.sure);
        if (const auto* back = std::get_if<TakenBack>(&observation);
            back != nullptr && !typed.corrects)
            throw UsageError("Say which entry with --corrects and why with --note: both stay in "
                             "the book.");
        return withWorkRead(observation,
                            form.name == "did" ? WorkAsked::wholeWork : WorkAsked::partsAlone,
                            typed.sure);
    } catch (const UsageError& wrong) {
        throw UsageError(
            fmt::format("{} Example: swarfbook observe {}", wrong.what(), form.example));
    }
}

} // namespace swarfbook::cli
