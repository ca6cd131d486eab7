// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/private_file.h"

#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

constexpr fs::perms ofOthers = fs::perms::group_all | fs::perms::others_all;

[[noreturn]] void fail(const fs::path& file) {
    throw std::system_error(errno, std::generic_category(), file.string());
}

/// A memory card's file system has no access rights; whoever holds the card can read it.
bool knowsNoRights(int systemError) {
    return systemError == EPERM || systemError == EOPNOTSUPP || systemError == ENOSYS;
}

void closeOne(const fs::path& file, std::error_code& ignored) {
    if (isOpenToOthers(file))
        fs::permissions(file, ofOthers, fs::perm_options::remove | fs::perm_options::nofollow,
                        ignored);
}

} // namespace

OpenFile::OpenFile(const fs::path& file, int flags, mode_t mode)
    : descriptor_(::open(file.c_str(), flags | O_CLOEXEC, mode)) {
    if (descriptor_ < 0)
        fail(file);
    const bool made = (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE;
    if (made && ::fchmod(descriptor_, mode) != 0 && !knowsNoRights(errno)) {
        const int error = errno;
        ::close(descriptor_);
        errno = error;
        fail(file);
    }
}

OpenFile::~OpenFile() {
    ::close(descriptor_);
}

void OpenFile::write(std::span<const std::byte> bytes) const {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            fail("");
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
}

void OpenFile::synchronise() const {
    // EINVAL: a file system that has nothing to synchronise.
    if (::fsync(descriptor_) != 0 && errno != EINVAL)
        fail("");
}

void synchroniseFolder(const fs::path& folder) {
    OpenFile(folder.empty() ? fs::path(".") : folder, O_RDONLY | O_DIRECTORY).synchronise();
}

void makePrivateFolder(const fs::path& folder) {
    if (folder.empty() || fs::is_directory(folder))
        return;
    makePrivateFolder(folder.parent_path());
    if (::mkdir(folder.c_str(), privateFolderMode) != 0) {
        const int error = errno;
        if (error == EEXIST && fs::is_directory(folder))
            return; // another program made it meanwhile
        errno = error;
        fail(folder);
    }
    if (::chmod(folder.c_str(), privateFolderMode) != 0 && !knowsNoRights(errno))
        fail(folder);
    synchroniseFolder(folder.parent_path());
}

bool makePrivateFile(const fs::path& file) {
    try {
        const OpenFile made(file, O_WRONLY | O_CREAT | O_EXCL);
        return true;
    } catch (const std::system_error& error) {
        if (error.code() == std::errc::file_exists)
            return false;
        throw;
    }
}

bool isOpenToOthers(const fs::path& file) {
    std::error_code none;
    const fs::file_status status = fs::symlink_status(file, none);
    const bool ordinary = fs::is_regular_file(status) || fs::is_directory(status);
    return ordinary && (status.permissions() & ofOthers) != fs::perms::none;
}

void closeToOthers(const fs::path& file) {
    std::error_code ignored;
    closeOne(file, ignored);
    if (fs::symlink_status(file, ignored).type() != fs::file_type::directory)
        return;
    auto entry = fs::recursive_directory_iterator(
        file, fs::directory_options::skip_permission_denied, ignored);
    for (; !ignored && entry != fs::recursive_directory_iterator(); entry.increment(ignored))
        closeOne(entry->path(), ignored);
}

} // namespace swarfbook
