// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/page_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>
#include <vector>

namespace swarfbook::web {
namespace {

bool isSmall(char c) {
    return std::islower(static_cast<unsigned char>(c)) != 0;
}

/// What a page says in place of a command. The first that fits counts.
struct Instead {
    std::string_view command;
    std::string_view words;    ///< end the sentence in which the command stands
    std::string_view option{}; ///< an option that the command has, if that matters
};

constexpr std::array<Instead, 23> instead{{
    {"swarfbook add --visit", "tap Add photos on the visit's page."},
    {"swarfbook observe --visit N without a kind", "tap All observations on the visit's page."},
    {"swarfbook observe --help", "its fields say what it takes."},
    {"swarfbook observe", "fill in its row of the work sheet, on the visit's page."},
    {"swarfbook walk", "fill in the work sheet, on the visit's page."},
    {"swarfbook piece", "tap the piece on the photo."},
    {"swarfbook card", "type its check bar, as callipers read it, where the photo is taken."},
    {"swarfbook visit list", "the first page lists the visits."},
    {"swarfbook visit measure", "tap Measure again below the photo."},
    {"swarfbook visit correct", "tap Put this visit right on the visit's page."},
    {"swarfbook visit withdraw", "the first page lists withdrawn visits.", "--undo"},
    {"swarfbook visit withdraw", "tap Put this visit right on the visit's page."},
    {"swarfbook photo withdraw", "tap Put this visit right on the visit's page."},
    {"swarfbook visit show", "the visit's page shows its photos."},
    {"swarfbook vehicle list", "the page Vehicles shows the labels."},
    {"swarfbook vehicle add",
     "New visit on the first page, with \"It is new to the book\" ticked."},
    {"swarfbook vehicle correct", "type it over on the vehicle's page."},
    {"swarfbook vehicle withdraw", "the page Vehicles lists withdrawn ones.", "--undo"},
    {"swarfbook vehicle withdraw", "the vehicle's page withdraws it."},
    {"swarfbook flush start", "tap Flush a part on the visit's page."},
    {"swarfbook flush add", "tap Photo of a pass."},
    {"swarfbook flush withdraw", "tap Flush a part on the visit's page."},
    {"swarfbook flush show", "tap Flush a part on the visit's page."},
}};

constexpr std::string_view program = "swarfbook ";

/// Where a command of the program begins; npos if the sentence has none. The program's name is a
/// command only before a verb: "swarfbook could" is not one. tests/cli/words_test.cpp compares the
/// verbs with those of the command line.
std::size_t commandIn(std::string_view sentence) {
    static constexpr std::array<std::string_view, 24> verbs{
        "add",   "backup",   "book",    "card",         "check", "compare", "eliminate", "export",
        "flush", "list",     "measure", "observe",      "photo", "piece",   "report",    "restore",
        "serve", "settings", "suggest", "track-record", "unit",  "vehicle", "visit",     "walk"};
    for (std::size_t at = sentence.find(program); at != std::string_view::npos;
         at = sentence.find(program, at + 1)) {
        std::string_view verb = sentence.substr(at + program.size());
        verb = verb.substr(0, std::min(verb.find_first_of(" .,;:"), verb.size()));
        if (std::find(verbs.begin(), verbs.end(), verb) != verbs.end())
            return at;
    }
    return std::string_view::npos;
}

std::string sentenceWithoutCommand(std::string_view sentence) {
    const std::size_t at = commandIn(sentence);
    if (at == std::string_view::npos)
        return std::string(sentence);
    const std::string_view command = sentence.substr(at);
    for (const Instead& one : instead)
        if (command.starts_with(one.command) &&
            command.find(one.option) != std::string_view::npos) {
            std::string words(one.words);
            if (at == 0)
                words.front() =
                    static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
            return std::string(sentence.substr(0, at)) + words;
        }
    return "At the workshop's computer: " + std::string(sentence);
}

/// Advice, and options, that are a tap on the pages.
constexpr std::array<std::pair<std::string_view, std::string_view>, 7> saidOtherwise{{
    {"type the same again with --sure", "tick \"It is so\" and tap Keep"},
    {"--earlier", "\"It was before visits that are in the book already\", ticked,"},
    {"--odometer-replaced",
     "\"The odometer started again from zero since the last visit\", ticked,"},
    {"say place white-card", "tap Other place or visit on the photo's page, then white card"},
    {"give --measured-bar MM", "type it where the photo is taken"},
    {"say place pan or filter", "tap Other place or visit on the photo's page, then pan or filter"},
    {"say what lies under it: place pan, filter or tray",
     "tap Other place or visit on the photo's page, then what lies under it: pan, filter or tray"},
}};

/// "--hot-at" as "hot at", in quotes.
std::string withoutOptions(std::string text) {
    for (const auto& [typed, tapped] : saidOtherwise)
        if (const std::size_t at = text.find(typed); at != std::string::npos)
            text.replace(at, typed.size(), tapped);
    for (std::size_t at = text.find("--"); at != std::string::npos; at = text.find("--", at)) {
        const bool begins = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
        std::size_t end = at + 2;
        while (end < text.size() && (isSmall(text[end]) || (text[end] == '-' && end > at + 2)))
            ++end;
        if (!begins || end == at + 2) {
            at = end;
            continue;
        }
        std::string name = text.substr(at + 2, end - at - 2);
        std::replace(name.begin(), name.end(), '-', ' ');
        if (at >= 2 && text[at - 2] == ':' && end + 1 < text.size() && text[end] == ' ') {
            text.erase(at, end + 1 - at); // ": --why "wrong vehicle"": the example says enough
            continue;
        }
        text.replace(at, end - at, "\"" + name + "\"");
        at += name.size() + 2;
    }
    return text;
}

/// The sentences of a text, each with the blank after it.
std::vector<std::string_view> sentencesOf(std::string_view text) {
    std::vector<std::string_view> sentences;
    std::size_t from = 0;
    for (std::size_t i = 0; i + 2 < text.size(); ++i) {
        const bool ends = (text[i] == '.' || text[i] == '?' || text[i] == '!') &&
                          (text[i + 1] == ' ' || text[i + 1] == '\n');
        // "swarfbook observe --visit 3 ... puts another in" is one sentence
        if (!ends || (isSmall(text[i + 2]) && !text.substr(i + 2).starts_with(program)))
            continue;
        sentences.push_back(text.substr(from, i + 2 - from));
        from = i + 2;
    }
    sentences.push_back(text.substr(from));
    return sentences;
}

} // namespace

std::string forPages(std::string_view text) {
    std::string told;
    std::string before;
    for (const std::string_view sentence : sentencesOf(text)) {
        const std::size_t end = sentence.find_last_not_of(" \n");
        const std::string_view words = sentence.substr(0, end + 1);
        const std::string now = sentenceWithoutCommand(words);
        if (now == before) // two commands that are one tap
            continue;
        before = now;
        const bool atComputer = now.starts_with("At the workshop's computer");
        told += atComputer ? now : withoutOptions(now);
        told += sentence.substr(end + 1);
    }
    return told;
}

std::string observationTitle(std::string_view form) {
    // Words that say too little without the command before them.
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 9> own{
        {{"since-clean", "Distance since the last clean"},
         {"level", "Fluid level as it came in"},
         {"outside", "A part outside the unit"},
         {"finger", "Debris between the fingers"},
         {"squeeze", "Debris squeezed"},
         {"overrule", "Overrule the suggestion"},
         {"did", "Work done"},
         {"magnets", "Magnets in the pan"},
         {"outcome", "Outcome of the repair"}}};
    for (const auto& [name, title] : own)
        if (name == form)
            return std::string(title);
    std::string title(form);
    std::replace(title.begin(), title.end(), '-', ' ');
    if (!title.empty())
        title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
    return title;
}

} // namespace swarfbook::web
