// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/walk_questions.h"

#include "base/errors.h"
#include "base/text.h"
#include "record/entry_text.h"
#include "unit/chart_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>

namespace swarfbook::cli {
namespace {

struct Stopped {}; ///< "stop", or no more answers
struct Again {};   ///< "again": the row anew
struct SkipAll {}; ///< "skip all": the rest of the block

/// After a clean place nothing else lies there.
bool isCleanPlace(const Observation& observation) {
    const auto* debris = std::get_if<DebrisSeen>(&observation);
    return debris != nullptr && debris->what == DebrisKind::clean;
}

bool isAsked(const SheetField& field) {
    return field.use != SheetField::Use::printed;
}

} // namespace

struct Walk::Row {
    const SheetBlock& block;
    const ObservationForm& form;
    std::string name;  ///< "solenoid A coil"
    std::string title; ///< "A"
    Observation observation;
    Sure sure = Sure::ask;
    bool anything = false;                  ///< an answer was given
    bool leftOut = false;                   ///< said to be not inspected
    std::size_t from = 0;                   ///< the field to begin with
    std::size_t at = 0;                     ///< the field being asked
    std::optional<std::int64_t> replaces{}; ///< the part of the row that was kept before
    std::optional<std::int64_t> marker{};   ///< where it goes on
};

Walk::Walk(Book& book, const Visit& visit, std::istream& answers, std::ostream& talk)
    : book_(book), visit_(visit), answers_(answers), talk_(talk), keeper_(book, visit) {
    kept_.read(book_, visit_.id);
}

void Walk::say(const std::string& sentence) {
    talk_ << sentence << "\n";
}

std::string Walk::answerTo(const std::string& question) {
    talk_ << question << "\n> " << std::flush;
    end_.at = question;
    std::string line;
    if (!std::getline(answers_, line))
        throw Stopped{};
    line = checkedLine("The answer", trimmed(line), longestText);
    const std::string word = wordAsTyped(line);
    if (word == "stop" || word == "quit")
        throw Stopped{};
    if (word == "again" || word == "back")
        throw Again{};
    if (word == "skip-all")
        throw SkipAll{};
    return word == "skip" ? std::string() : line;
}

WalkEnd Walk::ask(const WorkSheetJob& job, bool afterRepair) {
    std::vector<const SheetSection*> steps;
    const std::vector<SheetSection> sections = workSheetSections(job);
    for (const SheetSection& section : sections)
        if (section.afterRepair == afterRepair)
            steps.push_back(&section);
    std::vector<std::pair<const SheetSection*, const SheetBlock*>> blocks;
    for (const SheetSection* section : steps)
        for (const SheetBlock& block : section->blocks)
            blocks.emplace_back(section, &block);
    try {
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            const bool later = std::any_of(
                blocks.begin() + static_cast<std::ptrdiff_t>(i), blocks.end(), [&](const auto& b) {
                    return std::any_of(b.second->entries.begin(), b.second->entries.end(),
                                       [&](const SheetEntry& entry) {
                                           return !b.second->again &&
                                                  kept_.isAnswered(*b.second, entry);
                                       });
                });
            askBlock(*blocks[i].first, *blocks[i].second, later);
        }
    } catch (const Stopped&) {
        end_.stopped = true;
    }
    return end_;
}

void Walk::askBlock(const SheetSection& section, const SheetBlock& block, bool laterAnswered) {
    std::vector<const SheetEntry*> open;
    for (const SheetEntry& entry : block.entries)
        if (!kept_.isAnswered(block, entry) && !(block.again && entry.given.empty()))
            open.push_back(&entry);
    const bool canName = block.emptyRows > 0;
    const bool unnamed = block.again && !laterAnswered &&
                         (block.entries.empty() || canName || block.entries.front().given.empty());
    if (open.empty() && !unnamed)
        return;
    if (section_ != section.title) {
        section_ = section.title;
        say("\n" + section.title);
        for (const std::string& note : section.notes)
            say(note);
    }
    for (const std::string& caution : keeper_.takeCautions(observationForm(block.form).kind))
        say(caution);
    try {
        for (const SheetEntry* entry : open)
            for (bool more = false; askRow(block, *entry, more) && block.again && !canName;
                 more = true) {
            }
        while (unnamed && askRow(block, {}, true)) {
        }
    } catch (const SkipAll&) {
        leaveOut(block.nameOf({}));
    }
}

/// @param more  whether a row before it was answered: an empty one then ends them.
/// @return whether an observation was kept that another one may follow.
bool Walk::askRow(const SheetBlock& block, const SheetEntry& entry, bool more) {
    const ObservationForm& form = observationForm(block.form);
    for (;;) {
        Row row{block, form, block.nameOf(entry), entry.title, startOf(form, entry)};
        takeUp(row);
        try {
            if (entry.given.empty() && block.emptyRows > 0 && !askName(row))
                return false;
            if (more && !entry.given.empty())
                row.title += ", anything else";
            askFields(row);
            if (!row.anything && !row.replaces) {
                if (!more)
                    leaveOut(row.name);
                return false;
            }
            if (keepRow(row))
                return !row.leftOut && !isCleanPlace(row.observation);
        } catch (const Again&) {
            continue;
        } catch (const SkipAll&) {
            if (row.anything)
                keepRow(row);
            throw;
        } catch (const Stopped&) {
            stopIn(row);
            throw;
        }
    }
}

/// The name of a part that the sheet has an empty row for; false when there is no more.
bool Walk::askName(Row& row) {
    const FieldEntry* name = nullptr;
    for (const FieldEntry& field : fieldsOfKind(row.form.kind))
        if (field.name == row.form.words.front().field)
            name = &field;
    const std::string given =
        answerTo(fmt::format("{}: its name (empty: no more)", name->about.label));
    if (given.empty())
        return false;
    putAnswer(row.observation, row.form, *name, given);
    row.title = given;
    row.name = row.block.nameOf({{given}, ""});
    return true;
}

/// Whether a field is asked that only one answer before it calls for.
bool Walk::isWanted(const Row& row, const SheetField& field) {
    if (field.onlyAfter.empty())
        return true;
    const auto said = toJson(row.observation);
    return std::any_of(said.begin(), said.end(), [&](const auto& value) {
        return value.is_string() &&
               value.template get<std::string>() == wordAsTyped(field.onlyAfter);
    });
}

void Walk::askFields(Row& row) {
    const auto& fields = row.block.fields;
    for (row.at = row.from; row.at < fields.size() && !row.leftOut; ++row.at) {
        const SheetField& field = fields[row.at];
        if (!isAsked(field) || !isWanted(row, field))
            continue;
        const bool first = row.at == row.from && !row.replaces;
        const bool answered = askField(row, field);
        const bool needed =
            std::any_of(row.form.words.begin(), row.form.words.end(), [&](const FormWord& word) {
                return word.required && word.field == field.field->name;
            });
        if (!answered && (needed || (first && row.block.again)))
            return;
    }
}

/// Asks until the answer is understood; false when nothing was said.
bool Walk::askField(Row& row, const SheetField& field) {
    const std::string choices = field.choices();
    std::string question = row.title;
    if (!field.title().empty())
        question += (question.empty() ? "" : ": ") + field.title();
    if (!choices.empty())
        question += fmt::format(" ({})", choices);
    for (std::string before;;) {
        std::string answer = answerTo(question);
        if (answer.empty())
            return false;
        if (saysLeftOut(answer)) {
            row.leftOut = true;
            return true;
        }
        const std::size_t sure = answer.rfind(" --sure");
        const bool meant = answer == before || sure != std::string::npos;
        if (sure != std::string::npos)
            answer.resize(sure);
        try {
            Observation with = row.observation;
            putAnswer(with, row.form, *field.field, answer, meant ? Sure::meant : Sure::ask);
            row.observation = with;
            row.sure = meant ? Sure::meant : row.sure;
            row.anything = true;
            return true;
        } catch (const UsageError& wrong) {
            say(wrong.what());
            before = answer;
        }
    }
}

/// Keeps the row; where it cannot be so, asks whether it is meant. False: ask the row anew.
bool Walk::keepRow(Row& row) {
    if (row.leftOut) {
        leaveOut(row.name);
        return true;
    }
    for (;;) {
        try {
            Observation whole = row.observation;
            completeObservation(whole, row.sure);
            BookTransaction transaction = book_.begin();
            if (row.marker)
                keep({TakenBack{"the row is whole"}, "", row.marker});
            keep({whole, "", row.replaces, row.sure});
            transaction.commit();
            kept_.read(book_, visit_.id);
            return true;
        } catch (const UsageError& wrong) {
            say(wrong.what());
            const std::string answer = answerTo(
                "Is it so? \"sure\" keeps it as it is, \"again\" asks this row once more.");
            if (wordAsTyped(answer) != "sure" || row.sure == Sure::meant)
                return false;
            row.sure = Sure::meant;
        }
    }
}

/// Goes on in a row that was stopped in.
void Walk::takeUp(Row& row) const {
    const auto part = kept_.partOf(row.block, row.name, row.observation);
    if (!part)
        return;
    row.from = part->from;
    row.marker = part->marker;
    row.replaces = part->replaces;
    row.observation = part->observation;
}

/// What was answered in a row stays, with where to go on.
void Walk::stopIn(Row& row) {
    if (!row.anything || row.leftOut || row.at >= row.block.fields.size())
        return;
    try {
        Observation whole = row.observation;
        completeObservation(whole, row.sure);
        BookTransaction transaction = book_.begin();
        if (row.marker)
            keep({TakenBack{"the row went on"}, "", row.marker});
        keep({whole, "", row.replaces, row.sure});
        keep({NotInspected{goesOnFrom(row.name, row.block.fields[row.at])}, "", {}});
        transaction.commit();
    } catch (const UsageError& wrong) {
        say(fmt::format("The row was not kept, it will be asked again: {}", wrong.what()));
    }
}

void Walk::leaveOut(const std::string& what) {
    BookTransaction transaction = book_.begin();
    keep({NotInspected{what}, "", {}});
    transaction.commit();
    kept_.read(book_, visit_.id);
    ++end_.left;
    --end_.kept;
}

void Walk::keep(ToKeep given) {
    const StoredObservation stored = keeper_.keep(given);
    std::cout << observationText(visit_.id, given.observation, stored, "") << std::flush;
    for (const std::string& remark : keeper_.takeRemarks())
        say(remark);
    ++end_.kept;
}

} // namespace swarfbook::cli
