// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/lost_book.h"

#include "base/errors.h"
#include "record/folder.h"
#include "record/leftovers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <system_error>
#include <vector>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

std::size_t filesIn(const Folder& folder) {
    std::size_t count = 0;
    for (const FolderEntry& entry : folder.entries()) {
        if (entry.kind == EntryKind::file)
            ++count;
        else if (entry.kind == EntryKind::folder)
            count += filesIn(folder.child(entry.name));
    }
    return count;
}

std::string counted(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::vector<std::string> whatIsThere(const fs::path& path) {
    std::vector<std::string> there;
    const Folder folder = Folder::open(path);
    for (const auto& [name, what] : {std::pair("photos", "photo file"), std::pair("units", "chart"),
                                     std::pair(setAsideFolder, "photo file set aside")}) {
        const auto kind = folder.kindOf(name);
        if (kind && kind != EntryKind::folder)
            there.push_back(fmt::format("{} in place of a folder", name));
        else if (const auto count = kind ? filesIn(folder.child(name)) : 0; count > 0)
            there.push_back(counted(count, what));
    }
    std::error_code none;
    const auto size = fs::file_size(path / "book.db-wal", none);
    if (!none && size > 0 && hasNoDatabase(path))
        there.push_back(fmt::format("a write-ahead log of {} bytes (book.db-wal)", size));
    return there;
}

} // namespace

bool hasNoDatabase(const fs::path& folder) {
    std::error_code error;
    const auto size = fs::file_size(folder / "book.db", error);
    return error ? error == std::errc::no_such_file_or_directory : size == 0;
}

void refuseLostBook(const fs::path& folder, const std::function<bool()>& stillLost) {
    std::error_code error;
    if (!fs::is_directory(folder, error))
        return;
    const std::vector<std::string> there = whatIsThere(folder);
    if (there.empty() || !stillLost())
        return;
    throw ToolError(fmt::format(
        "The book in {0} has lost its entries: book.db is {1}, and these are beside it: {2}. "
        "Nothing was changed. Bring your last backup back to another folder: swarfbook restore "
        "BACKUP "
        "--book NEW-FOLDER. Photos added after it are still in {0}. For a new book, name a folder "
        "that is empty.",
        folder.string(), fs::exists(folder / "book.db", error) ? "empty" : "missing",
        fmt::join(there, ", ")));
}

void requireOrdinaryDatabase(const fs::path& folder) {
    std::error_code error;
    const fs::file_status status = fs::symlink_status(folder / "book.db", error);
    if (!fs::exists(status) || fs::is_regular_file(status))
        return;
    throw ToolError(fmt::format("{} cannot be opened: it is {}, and a book is kept in an ordinary "
                                "file. Name the book's own folder with --book.",
                                (folder / "book.db").string(),
                                fs::is_symlink(status)     ? "a symbolic link"
                                : fs::is_directory(status) ? "a folder"
                                                           : "no ordinary file"));
}

void requireOwnCharts(const fs::path& folder) {
    std::error_code error;
    if (fs::is_symlink(fs::symlink_status(folder / "units", error)))
        throw ToolError(fmt::format("{} is a symbolic link, and nothing in a book may be one. Put "
                                    "the folder itself there.",
                                    (folder / "units").string()));
}

} // namespace swarfbook
