// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book.h"

#include "base/errors.h"
#include "base/private_file.h"
#include "record/book_privacy.h"
#include "record/book_reading.h"
#include "record/database.h"
#include "record/lost_book.h"
#include "record/schema.h"

#include <fmt/format.h>

#include <cstdlib>
#include <system_error>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? "" : value;
}

fs::path absolute(const std::string& folder) {
    return fs::absolute(fs::path(folder)).lexically_normal();
}

[[noreturn]] void throwNoBook(const fs::path& folder) {
    throw UsageError(fmt::format("There is no book in {} yet. Start one with: swarfbook vehicle "
                                 "add LABEL --book {}, or name another folder with --book.",
                                 folder.string(), folder.string()));
}

[[noreturn]] void throwNotLookedInto(const fs::path& folder, const std::error_code& error) {
    throw ToolError(fmt::format("The book's folder {} cannot be looked into ({}). Check that you "
                                "may read it, or name another folder with --book.",
                                folder.string(), error.message()));
}

[[noreturn]] void throwNotMade(const fs::path& folder, const std::error_code& error) {
    throw ToolError(fmt::format("The folder {} for the book cannot be made or written to ({}). "
                                "Make it yourself, or name another folder with --book.",
                                folder.string(), error.message()));
}

/// Makes the folder of a new book, or says why it cannot hold one.
void prepareFolder(const fs::path& folder, IfNoBook ifNone) {
    std::error_code error;
    const fs::file_status status = fs::status(folder, error);
    if (error && error != std::errc::no_such_file_or_directory &&
        error != std::errc::not_a_directory)
        throwNotLookedInto(folder, error);
    if (fs::exists(status) && !fs::is_directory(status))
        throw UsageError(fmt::format(
            "{} is a file, and a book is a folder. Name a folder with --book.", folder.string()));
    const bool there = fs::exists(folder / "book.db", error);
    if (error)
        throwNotLookedInto(folder, error);
    requireOrdinaryDatabase(folder);
    if (hasNoDatabase(folder))
        refuseLostBook(folder, [&] { return hasNoDatabase(folder); });
    if (there)
        return;
    if (ifNone == IfNoBook::refuse)
        throwNoBook(folder);
    try {
        makePrivateFolder(folder);
        makePrivateFile(folder / "book.db");
    } catch (const std::system_error& wrong) {
        throwNotMade(folder, wrong.code());
    }
}

} // namespace

fs::path bookFolder(const std::optional<std::string>& given) {
    if (given && given->empty())
        throw UsageError("--book needs the name of a folder, such as --book workshop-book.");
    if (given)
        return absolute(*given);
    if (const std::string named = environment("SWARFBOOK_BOOK"); !named.empty())
        return absolute(named);
    // XDG Base Directory Specification: a relative $XDG_DATA_HOME is to be ignored.
    if (const std::string data = environment("XDG_DATA_HOME"); data.starts_with('/'))
        return absolute(data) / "swarfbook";
    if (const std::string home = environment("HOME"); !home.empty())
        return absolute(home) / ".local/share/swarfbook";
    throw UsageError("It is not known where the book is. Name its folder with --book DIR.");
}

Book::Book(fs::path folder, std::unique_ptr<Database> database)
    : folder_(std::move(folder)), database_(std::move(database)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Book Book::open(const fs::path& folder, IfNoBook ifNone) {
    prepareFolder(folder, ifNone);
    requireOwnCharts(folder);
    auto database = std::make_unique<Database>(folder / "book.db",
                                               fmt::format("the book in {}", folder.string()));
    // An empty database remains if the program was killed while it was starting a book.
    if (versionOfBook(*database) == 0) {
        refuseLostBook(folder, [&] { return versionOfBook(*database) == 0; });
        if (ifNone == IfNoBook::refuse)
            throwNoBook(folder);
    }
    const bool wasOpen = closeBookToOthers(folder);
    database->useWriteAheadLog();
    bringUpToDate(*database);
    Book book(folder, std::move(database));
    book.wasOpenToOthers_ = wasOpen;
    return book;
}

Book Book::openForReading(const fs::path& folder) {
    prepareFolder(folder, IfNoBook::refuse);
    auto database = databaseToRead(folder, fmt::format("the book in {}", folder.string()));
    if (versionOfBook(*database) == 0) {
        refuseLostBook(folder, [&] { return versionOfBook(*database) == 0; });
        throwNoBook(folder);
    }
    const bool wasOpen = closeBookToOthers(folder);
    Book book(folder, atPresentVersion(std::move(database)));
    book.wasOpenToOthers_ = wasOpen;
    return book;
}

void Book::waitUpTo(std::chrono::milliseconds longest) {
    Patience patience = database_->patience();
    patience.longest = longest;
    database_->waitWith(std::move(patience));
}

void Book::talkTo(std::function<void(const std::string&)> say) {
    Patience patience = database_->patience();
    patience.say = say;
    database_->waitWith(std::move(patience));
    say_ = std::move(say);
}

void Book::tell(const std::string& sentence) const {
    if (said_.insert(sentence).second && say_)
        say_(sentence);
}

Book Book::inMemory() {
    auto database = Database::inMemory();
    bringUpToDate(*database);
    return {fs::path(), std::move(database)};
}

BookTransaction Book::begin() {
    return {*database_, folder_};
}

} // namespace swarfbook
