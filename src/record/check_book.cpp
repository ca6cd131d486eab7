// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/judged_case.h"
#include "record/leftovers.h"
#include "record/reading_rights.h"
#include "record/verify_book.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// While we hold the right to write, no other command's work can look like a leftover. In a book
/// that cannot be written no other command is at work.
Leftovers leftoversOf(const Folder& folder, Database& database) {
    std::optional<BookTransaction> writing;
    try {
        writing.emplace(database);
    } catch (const ToolError&) {
        writing.reset();
    }
    return findLeftovers(folder, database);
}

void addLeftovers(BookState& state, const Leftovers& found) {
    for (const std::string& file : found.halfWritten)
        state.faults.push_back({fmt::format("A command that was stopped left {}.", file),
                                "swarfbook book check --mend removes it."});
    for (const std::string& file : found.unnamedPhotos)
        state.faults.push_back({fmt::format("No entry of the book names the photo {}.", file),
                                fmt::format("swarfbook book check --mend moves it to the folder "
                                            "{}; add it to its visit from there.",
                                            setAsideFolder)});
    for (const std::string& file : found.foreign)
        state.faults.push_back({fmt::format("{} was not put there by swarfbook.", file),
                                "Move it out of the book's folder."});
}

} // namespace

BookState Book::check() {
    const Folder folder = Folder::open(folder_);
    BookState state = verifyBook(folder, *database_);
    try {
        addLeftovers(state, leftoversOf(folder, *database_));
    } catch (const FileTrouble& trouble) {
        const bool isSaid = lacksRight(trouble) &&
                            std::any_of(state.faults.begin(), state.faults.end(),
                                        [](const BookFault& fault) { return fault.notRead; });
        if (!isSaid)
            state.faults.push_back({trouble.what(), "Put that right, then check the book again."});
    } catch (const ToolError& error) {
        state.faults.push_back({error.what(), "Put that right, then check the book again."});
    }
    return state;
}

std::vector<std::string> Book::mend() {
    BookTransaction writing(*database_);
    const Folder folder = Folder::open(folder_);
    auto said = mendLeftovers(folder, findLeftovers(folder, *database_));
    for (const std::int64_t visit : dropDamagedJudgedCases(*database_))
        said.push_back(fmt::format("The kept judgement of visit {} was damaged and was removed; "
                                   "swarfbook track-record judges the visit again.",
                                   visit));
    writing.commit();
    return said;
}

} // namespace swarfbook
