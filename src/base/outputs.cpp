// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/outputs.h"

#include "base/errors.h"
#include "base/output_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <string_view>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

bool isBookFolder(const fs::path& folder) {
    std::error_code none;
    return fs::exists(fs::symlink_status(folder / "book.db", none));
}

bool same(const fs::path& one, const fs::path& other) {
    std::error_code none;
    return fs::equivalent(one, other, none);
}

/// Folders of a book in which only the book itself writes.
constexpr std::string_view innerFolders[] = {"photos", "units", "set-aside"};

} // namespace

void Outputs::addInput(const fs::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) == 0)
        inputs_.insert({status.st_dev, status.st_ino});
}

void Outputs::addBook(const fs::path& folder) {
    books_.push_back(folder);
}

void Outputs::plan(const fs::path& file) {
    requireAllowed(file);
    if (!planned_.insert(followed(file).string()).second)
        throw UsageError(fmt::format("{} would be written twice by this command. Give each output "
                                     "a name of its own.",
                                     file.string()));
}

void Outputs::write(const fs::path& file, std::span<const unsigned char> bytes) const {
    requireAllowed(file);
    writeFile(file, bytes, ifThere_);
}

void Outputs::requireAllowed(const fs::path& file) const {
    std::error_code none;
    const fs::path folder = folderOf(file);
    if (!fs::is_directory(folder, none))
        throw UsageError(fmt::format("There is no folder {}. Make it first, or name a file in a "
                                     "folder that exists.",
                                     folder.string()));
    if (fs::is_directory(file, none))
        throw UsageError(fmt::format("{} is a folder. Give the name of a file to write, such as "
                                     "{}.",
                                     file.string(),
                                     (file / "name").string() + file.extension().string()));
    struct stat status {};
    const bool there = ::stat(file.c_str(), &status) == 0;
    if (there && inputs_.contains({status.st_dev, status.st_ino}))
        throw UsageError(fmt::format("{} is a file that this command reads, so it is never "
                                     "written over. Give another name.",
                                     file.string()));
    requireOutsideBooks(followed(file));
    if (there && !S_ISREG(status.st_mode))
        throw UsageError(
            fmt::format("{} is not an ordinary file. Give another name.", file.string()));
    if (there && status.st_nlink > 1 && isFileOfBook(file))
        throw UsageError(fmt::format("{} is a file of the book under another name, so it is never "
                                     "written over. Give another name.",
                                     file.string()));
    if (ifThere_ == IfThere::refuse && fs::exists(fs::symlink_status(file, none)))
        throwThere(file, ", or say --force to replace it");
    if (::access(folder.c_str(), W_OK) != 0)
        throw ToolError(fmt::format("Nothing can be written into the folder {} ({}). Name a file "
                                    "in a folder of yours.",
                                    folder.string(), std::generic_category().message(errno)));
}

void Outputs::requireOutsideBooks(const fs::path& file) const {
    const auto refuse = [&] {
        throw UsageError(fmt::format("{} is in the folder of a book, where only the book itself "
                                     "writes. Name a file in another folder.",
                                     file.string()));
    };
    const fs::path parent = folderOf(file);
    const auto isOwn = [&](const fs::path& folder) {
        return std::any_of(books_.begin(), books_.end(),
                           [&](const fs::path& book) { return same(folder, book); });
    };
    if (isBookFolder(parent) || isOwn(parent))
        refuse();
    for (fs::path folder = parent; folder.has_relative_path(); folder = folder.parent_path()) {
        for (const std::string_view inner : innerFolders) {
            if (folder.filename() == inner && isBookFolder(folder.parent_path()))
                refuse();
            for (const fs::path& book : books_)
                if (same(folder, book / inner))
                    refuse();
        }
    }
}

bool Outputs::isFileOfBook(const fs::path& file) const {
    for (const fs::path& book : books_) {
        std::error_code none;
        for (fs::recursive_directory_iterator entry(book, none), end; !none && entry != end;
             entry.increment(none))
            if (entry->is_regular_file(none) && same(entry->path(), file))
                return true;
    }
    return false;
}

} // namespace swarfbook
