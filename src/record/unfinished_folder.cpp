// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/copy_book.h"
#include "record/leftovers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

constexpr std::string_view unfinishedPart = ".unfinished-";
constexpr std::size_t randomLetters = 6; // mkdtemp's
constexpr mode_t privateFolder = 0700;

/// Whether a folder has the name that an unfinished backup or restore gives it: NAME.unfinished-
/// and six characters.
bool hasUnfinishedName(const std::string& name) {
    const auto part = name.rfind(unfinishedPart);
    if (part == std::string::npos || part == 0 ||
        name.size() != part + unfinishedPart.size() + randomLetters)
        return false;
    return std::all_of(name.end() - randomLetters, name.end(),
                       [](unsigned char c) { return std::isalnum(c) != 0; });
}

/// Removes a folder that a killed command left. A folder that is locked, or that another user or
/// program made, stays.
void clearIfAbandoned(const Folder& parent, const std::string& name) {
    const Folder folder = parent.child(name);
    struct stat facts {};
    if (::fstat(folder.number(), &facts) != 0 || facts.st_uid != ::geteuid() ||
        folder.kindOf(unfinishedMark) != EntryKind::file ||
        ::flock(folder.number(), LOCK_EX | LOCK_NB) != 0)
        return;
    std::error_code ignored;
    fs::remove_all(folder.path(), ignored);
}

void clearAbandoned(const fs::path& parent) {
    try {
        const Folder folder = Folder::open(parent);
        for (const FolderEntry& entry : folder.entries())
            if (entry.kind == EntryKind::folder && hasUnfinishedName(entry.name))
                clearIfAbandoned(folder, entry.name);
    } catch (const FileTrouble&) {
        // A folder that cannot be looked at stays; the copy itself reports what is wrong with the
        // disk.
        return;
    }
}

/// @return errno, 0 when the folder is there.
int makeFolders(const fs::path& folder) {
    std::error_code error;
    if (folder.empty() || fs::is_directory(folder, error))
        return 0;
    if (const int above = makeFolders(folder.parent_path()); above != 0)
        return above;
    if (::mkdir(folder.c_str(), privateFolder) != 0)
        return errno == EEXIST && fs::is_directory(folder, error) ? 0 : errno;
    return ::chmod(folder.c_str(), privateFolder) != 0 ? errno : 0;
}

/// Waits until a folder and those in it are on the disk, names and all.
void synchroniseAll(const Folder& folder) {
    for (const FolderEntry& entry : folder.entries())
        if (entry.kind == EntryKind::folder)
            synchroniseAll(folder.child(entry.name));
    folder.synchronise();
}

/// Renames without replacing anything. @return errno, 0 when done.
int renameToNothing(const fs::path& from, const fs::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0)
        return 0;
    if (errno != EINVAL && errno != ENOSYS)
        return errno;
    // The file system does not know this call. mkdir() fails if anything is there, so the folder
    // that it makes may be replaced.
    if (::mkdir(to.c_str(), privateFolder) != 0)
        return errno;
    if (::rename(from.c_str(), to.c_str()) == 0)
        return 0;
    const int error = errno;
    ::rmdir(to.c_str());
    return error;
}

} // namespace

UnfinishedFolder::UnfinishedFolder(const fs::path& target, CopyWords words)
    : target_(target), words_(std::move(words)) {
    if (const int error = makeFolders(target_.parent_path()); error != 0)
        fail(error);
    clearAbandoned(target_.parent_path());
    std::string name =
        target_.string() + std::string(unfinishedPart) + std::string(randomLetters, 'X');
    if (::mkdtemp(name.data()) == nullptr)
        fail(errno);
    path_ = name;
    try {
        folder_ = Folder::open(path_);
        // Locked as long as this object lives; the mark is made afterwards, so that no mark is ever
        // unlocked.
        ::flock(folder_->number(), LOCK_EX | LOCK_NB);
        if (::fchmod(folder_->number(), privateFolder) != 0)
            fail(errno);
        folder_->write(unfinishedMark, {}, 0600);
    } catch (...) {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
        throw;
    }
}

UnfinishedFolder::~UnfinishedFolder() {
    std::error_code ignored;
    if (!finished_)
        fs::remove_all(path_, ignored);
}

fs::path UnfinishedFolder::makeDatabaseFile() const {
    folder_->write("book.db", {}, 0600);
    return path_ / "book.db";
}

void UnfinishedFolder::fail(int systemError) const {
    const bool full = systemError == ENOSPC || systemError == EDQUOT;
    throw ToolError(fmt::format("{} cannot be written to {} ({}). {} {}.", words_.what,
                                target_.string(), std::strerror(systemError),
                                full ? "Make room on that disk, or name a folder on another with"
                                     : "Name another folder with",
                                words_.option));
}

void UnfinishedFolder::fill(const std::function<void()>& write) const {
    try {
        write();
    } catch (const WriteTrouble& trouble) {
        fail(trouble.systemError());
    }
}

void UnfinishedFolder::finish(InPlace allowed) {
    fill([&] { synchroniseAll(*folder_); });
    // rename() itself replaces an empty folder, and nothing else.
    const bool mayBeThere = allowed == InPlace::emptyFolder;
    int error = 0;
    if (!mayBeThere)
        error = renameToNothing(path_, target_);
    else if (::rename(path_.c_str(), target_.c_str()) != 0)
        error = errno;
    if (error == EEXIST || error == ENOTEMPTY || error == ENOTDIR)
        throw UsageError(fmt::format("{} appeared while the copy was being made: another command "
                                     "put it there, and it was left as it is. Name another folder "
                                     "with {}.",
                                     target_.string(), words_.option));
    if (error != 0)
        fail(error);
    finished_ = true;
    Folder::open(target_.parent_path()).synchronise();
    folder_->remove(unfinishedMark);
    folder_->synchronise();
}

} // namespace swarfbook
