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
struct NextRow {}; ///< "next": no more of this row

/// A clean place has no further debris.
bool isCleanPlace(const Observation& observation) {
    const auto* debris = std::get_if<DebrisSeen>(&observation);
    return debris != nullptr && debris->what == DebrisKind::clean;
}

bool isAsked(const SheetField& field) {
    return field.use != SheetField::Use::printed;
}

/// A refusal names the option of the command line; here the question stands above it.
std::string toTheQuestion(std::string sentence, const SheetField& field) {
    const std::string option = "--" + std::string(field.field->about.option) + " takes";
    if (sentence.starts_with(option))
        sentence.replace(0, option.size(), "The answer is");
    return sentence;
}

} // namespace

std::string walkHelp() {
    return "The questions are those of the printed sheet. Type an answer, or:\n"
           "  nothing   it was not inspected\n"
           "  next      no more of this row\n"
           "  again     this row again from its start\n"
           "  skip all  none of the rows of this kind that are left\n"
           "  stop      stop; what is answered is kept\n"
           "  ?         show this again\n";
}

Walk::Walk(Book& book, const Visit& visit, std::istream& answers, std::ostream& talk)
    : book_(book), visit_(visit), answers_(answers), talk_(talk), keeper_(book, visit) {
    kept_.read(book_, visit_);
}

void Walk::say(const std::string& sentence) {
    talk_ << sentence << "\n";
}

std::string Walk::lineTo(const std::string& question) {
    for (;;) {
        talk_ << question << "\n> " << std::flush;
        end_.at = question;
        std::string line;
        if (!std::getline(answers_, line))
            throw Stopped{};
        try {
            return checkedLine("The answer", trimmed(line), longestText);
        } catch (const UsageError& wrong) {
            say(wrong.what());
        }
    }
}

std::string Walk::answerTo(const std::string& question) {
    std::string line = lineTo(question), word = wordAsTyped(line);
    for (; word == "?" || word == "help"; word = wordAsTyped(line)) {
        talk_ << walkHelp();
        line = lineTo(question);
    }
    if (word == "stop" || word == "quit")
        throw Stopped{};
    if (word == "again" || word == "back")
        throw Again{};
    if (word == "skip-all")
        throw SkipAll{};
    if (word == "next")
        throw NextRow{};
    return word == "skip" ? std::string() : line;
}

WalkEnd Walk::ask(const WorkSheetJob& job, bool afterRepair) {
    std::vector<std::pair<const SheetSection*, const SheetBlock*>> blocks;
    const std::vector<SheetSection> sections = workSheetSections(job);
    for (const SheetSection& section : sections)
        for (const SheetBlock& block : section.blocks)
            if (section.afterRepair == afterRepair)
                blocks.emplace_back(&section, &block);
    const auto anyAnswered = [&](const auto& one) {
        const SheetBlock& block = *one.second;
        return !block.again &&
               std::any_of(block.entries.begin(), block.entries.end(),
                           [&](const auto& entry) { return kept_.isAnswered(block, entry); });
    };
    try {
        for (auto one = blocks.begin(); one != blocks.end(); ++one)
            askBlock(*one->first, *one->second, std::any_of(one, blocks.end(), anyAnswered));
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

/// @param more  whether a row before it was answered; then an empty row ends the block.
/// @return whether an observation was kept after which another may follow.
bool Walk::askRow(const SheetBlock& block, const SheetEntry& entry, bool more) {
    const ObservationForm& form = observationForm(block.form);
    for (;;) {
        Row row{block, form, block.nameOf(entry), entry.title, startOf(form, entry)};
        row.unnamed = entry.given.empty() && block.again;
        takeUp(row);
        if (more && !entry.given.empty())
            row.title += ", anything else";
        try {
            if (!askFields(row)) {
                if (!more)
                    leaveOut(row.name);
                return false;
            }
            if (keepRow(row))
                return !row.leftOut && !isCleanPlace(row.observation);
        } catch (const Again&) {
        } catch (const NextRow&) { // if the question was about the row as a whole
        } catch (const SkipAll&) {
            keepAsFar(row, "");
            throw;
        } catch (const Stopped&) {
            if (row.at < block.fields.size())
                keepAsFar(row, goesOnFrom(row.name, block.fields[row.at]));
            throw;
        }
    }
}

/// Asks the name of a part for an empty row of the sheet; false if there is no further part.
bool Walk::askName(Row& row) {
    const FieldEntry* name = nullptr;
    for (const FieldEntry& field : fieldsOfKind(row.form.kind))
        if (field.name == row.form.words.front().field)
            name = &field;
    const std::string given =
        answerTo(fmt::format("{}: its name (empty: no more)", name->about.label));
    if (given.empty())
        return false;
    putAnswer(row.observation, row.form, *name, {given});
    row.title = given;
    row.name = row.block.nameOf({{given}, ""});
    return true;
}

/// Whether to ask a field that depends on an earlier answer.
bool Walk::isWanted(const Row& row, const SheetField& field) {
    if (field.onlyAfter.empty())
        return true;
    const auto said = toJson(row.observation);
    return std::any_of(field.onlyAfter.begin(), field.onlyAfter.end(), [&](const auto& word) {
        return std::find(said.begin(), said.end(), wordAsTyped(word)) != said.end();
    });
}

/// Asks the row's fields; false if nothing was answered.
bool Walk::askFields(Row& row) {
    const auto& fields = row.block.fields;
    try {
        if (row.unnamed && row.block.emptyRows > 0 && !askName(row))
            return false;
        for (row.at = row.from; row.at < fields.size(); ++row.at) {
            const SheetField& field = fields[row.at];
            if (!isAsked(field) || !isWanted(row, field))
                continue;
            const bool names = row.unnamed && row.block.emptyRows == 0 && row.at == 0;
            if (!askField(row, field) && (names || isNeeded(row.form, field)))
                break;
            if (row.leftOut || isCleanPlace(row.observation))
                break;
        }
    } catch (const NextRow&) {
        row.at = fields.size();
    }
    return row.anything || row.leftOut || row.replaces;
}

/// Asks until the answer is understood; false if nothing was answered.
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
            putAnswer(with, row.form, *field.field, {answer, meant ? Sure::meant : Sure::ask});
            row.observation = with;
            row.sure = meant ? Sure::meant : row.sure;
            row.anything = true;
            return true;
        } catch (const UsageError& wrong) {
            say(toTheQuestion(wrong.what(), field));
            before = answer;
        }
    }
}

} // namespace swarfbook::cli
