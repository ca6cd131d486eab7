// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/typed_observation.h"
#include "entry/keep_observation.h"
#include "entry/repair_done.h"
#include "record/evidence_of_visit.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace swarfbook::web {
namespace {

constexpr std::string_view takenBackOnly = "take-back"; // it has a button beside each observation

std::string pageOf(std::int64_t visit, const std::string& kind, const std::string& corrects) {
    return fmt::format("/visit/{}/observe?kind={}{}", visit, encoded(kind),
                       corrects.empty() ? "" : "&corrects=" + encoded(corrects));
}

std::string labelOf(const FieldEntry& entry) {
    if (!entry.about.label.empty())
        return std::string(entry.about.label);
    std::string words(entry.about.option.empty() ? entry.name : entry.about.option);
    std::replace(words.begin(), words.end(), '-', ' ');
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

/// Whether a field takes other text than its words, or hands it to another one: a reading.
bool takesText(const ObservationForm& form, const FieldEntry& entry) {
    const auto& all = fieldsOfKind(form.kind);
    return !entry.flag &&
           (!entry.onlyWords || std::any_of(all.begin(), all.end(), [&](const FieldEntry& other) {
               return !other.onlyWords && other.about.option == entry.about.option;
           }));
}

/// A field with the words to tap and room to type.
std::string fieldToFill(const ObservationForm& form, const FieldEntry& entry,
                        const std::string& name, const Asked& asked) {
    const std::string label = labelOf(entry);
    const std::string said = asked.said(name);
    const std::vector<std::string> words =
        entry.flag ? std::vector<std::string>{"yes"} : entry.words;
    std::string html;
    if (!words.empty()) {
        std::string choices;
        for (const std::string& word : words)
            choices += answerToTap(name, word, word, word == said);
        html +=
            fmt::format("<fieldset><legend>{}</legend><div class=\"choices\">{}{}</div>"
                        "</fieldset>",
                        escaped(label), choices, answerToTap(name, "", "not said", said.empty()));
    }
    if (!takesText(form, entry))
        return html;
    const std::string other = words.empty() ? label : label + ", other";
    return html + field({name + "t", other, asked.said(name + "t"), entry.help()});
}

std::string wordName(std::size_t i) {
    return fmt::format("w{}", i);
}

std::string optionName(std::size_t i) {
    return fmt::format("o{}", i);
}

std::string fieldsOfForm(const ObservationForm& form, const Asked& asked) {
    std::string html;
    for (std::size_t i = 0; i < form.words.size(); ++i)
        html += fieldToFill(form, form.field(form.words[i].field), wordName(i), asked);
    const std::vector<const FieldEntry*> options = form.options();
    for (std::size_t i = 0; i < options.size(); ++i)
        html += fieldToFill(form, *options[i], optionName(i), asked);
    return html;
}

/// What was tapped or, before that, typed; "" for nothing.
std::string answerFor(const Asked& asked, const std::string& name) {
    const std::string typed = asked.said(name + "t");
    const std::string answer =
        typed.find_first_not_of(' ') == std::string::npos ? asked.said(name) : typed;
    const std::size_t from = answer.find_first_not_of(' ');
    return from == std::string::npos ? ""
                                     : answer.substr(from, answer.find_last_not_of(' ') + 1 - from);
}

/// The line that the form means, as the command line types it.
TypedLine lineFilledIn(const ObservationForm& form, const Asked& asked) {
    TypedLine line{form.name, {}, {}};
    std::string missing;
    for (std::size_t i = 0; i < form.words.size(); ++i) {
        const std::string answer = answerFor(asked, wordName(i));
        if (answer.empty()) {
            if (form.words[i].required && missing.empty())
                missing = labelOf(form.field(form.words[i].field));
            continue;
        }
        if (!missing.empty())
            throw UsageError(fmt::format("Fill in \"{}\" as well.", missing));
        if (form.words[i].takes == FormWord::Takes::one) {
            line.values.push_back(answer);
            continue;
        }
        std::istringstream words(answer);
        for (std::string word; words >> word;)
            line.values.push_back(word);
    }
    const std::vector<const FieldEntry*> options = form.options();
    for (std::size_t i = 0; i < options.size(); ++i)
        if (const std::string answer = answerFor(asked, optionName(i)); !answer.empty())
            line.options[std::string(options[i]->about.option)] = options[i]->flag ? "" : answer;
    if (line.values.empty() && line.options.empty())
        throw UsageError("Nothing was filled in.");
    return line;
}

std::optional<std::int64_t> correctedBy(const Asked& asked) {
    const std::string number = asked.said("corrects");
    return number.empty() ? std::nullopt : std::optional(numberOf(number));
}

std::string observationCorrected(const Book& book, std::int64_t visit, const Asked& asked) {
    const auto number = correctedBy(asked);
    if (!number)
        return {};
    for (const StoredObservation& one : standing(book.observations(visit)))
        if (one.id == *number) {
            const auto readable = observationIfReadable(book, one);
            return listUnder("This puts right", {readable ? describe(*readable) : one.kind});
        }
    throw UsageError("That observation does not stand any more: it was put right or taken back.");
}

std::string kindsToObserve(std::int64_t visit) {
    std::string items;
    for (const ObservationForm& form : observationForms())
        if (form.name != takenBackOnly)
            items += fmt::format("<li><a class=\"item\" href=\"{}\"><strong>{}</strong><span>{}"
                                 "</span></a></li>",
                                 escaped(pageOf(visit, form.name, "")),
                                 escaped(observationTitle(form.name)), escaped(form.help));
    return "<ul class=\"items\">" + items + "</ul>";
}

} // namespace

std::string putRightButton(std::int64_t visit, const Observation& observation,
                           const StoredObservation& stored) {
    // A slip in one gear and a slip in general are one kind and two forms: the one that says most.
    const ObservationForm* best = nullptr;
    std::ptrdiff_t most = -1;
    for (const ObservationForm& form : observationForms()) {
        if (form.kind != stored.kind)
            continue;
        const auto said =
            std::count_if(form.words.begin(), form.words.end(), [&](const FormWord& word) {
                return form.field(word.field).given(observation);
            });
        if (said > most) {
            best = &form;
            most = said;
        }
    }
    return best == nullptr ? ""
                           : button(pageOf(visit, best->name, std::to_string(stored.id)),
                                    fmt::format("Put number {} right", stored.id));
}

Answer observePage(Workshop& workshop, std::int64_t visit, const Asked& asked,
                   const std::string& wrong) {
    const std::string kind = asked.said("kind"), corrects = asked.said("corrects");
    if (kind.empty())
        return page({"Another observation", kindsToObserve(visit),
                     fmt::format("/visit/{}/observed", visit), "All observations"});
    const ObservationForm& form = observationForm(kind);
    return workshop.book.read([&](const Book& book) {
        std::string body = wrong.empty() ? "" : notice("warning", wrong);
        body += observationCorrected(book, book.visit(visit).id, asked);
        body +=
            fmt::format("<form method=\"post\" action=\"/visit/{}/observe\"><input "
                        "type=\"hidden\" name=\"kind\" value=\"{}\"><input type=\"hidden\" "
                        "name=\"corrects\" value=\"{}\">{}",
                        visit, escaped(form.name), escaped(corrects), fieldsOfForm(form, asked));
        if (!wrong.empty())
            body += tickFor("sure", "It is so: keep it as typed", false);
        body += "<button class=\"main\">Keep</button></form>";
        return page({observationTitle(form.name), body,
                     fmt::format("/visit/{}/{}", visit, corrects.empty() ? "observe" : "observed"),
                     corrects.empty() ? "Another observation" : "All observations"},
                    wrong.empty() ? 200 : 400);
    });
}

Answer keepObserved(Workshop& workshop, std::int64_t number, const Asked& asked) {
    std::vector<std::string> remarks;
    try {
        const Sure sure = asked.said("sure") == "1" ? Sure::meant : Sure::ask;
        const ObservationForm& form = observationForm(asked.said("kind"));
        const Observation whole = observationTyped(lineFilledIn(form, asked), sure);
        const WorkAsked work = form.name == "did" ? WorkAsked::wholeWork : WorkAsked::partsAlone;
        workshop.book.write([&](Book& book) {
            BookTransaction transaction = book.begin();
            ObservationKeeper keeper(book, book.visit(number));
            std::optional<std::int64_t> corrects = correctedBy(asked);
            for (Observation& one : withWorkRead(whole, work, sure)) {
                ToKeep kept{std::move(one), deviceName(workshop, asked), corrects, sure};
                keeper.keep(kept);
                corrects.reset(); // the first of several is the one that puts right
            }
            transaction.commit();
            remarks = keeper.takeRemarks();
        });
    } catch (const UsageError& error) {
        return observePage(workshop, number, asked, error.what());
    }
    return keptPage(remarks, fmt::format("/visit/{}/observed", number));
}

} // namespace swarfbook::web
