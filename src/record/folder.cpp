// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/folder.h"

#include "base/sha256.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <dirent.h>
#include <fcntl.h>
#include <functional>
#include <memory>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

constexpr mode_t folderMode = 0700;
constexpr int newFileFlags = O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC;
constexpr std::size_t pieceBytes = std::size_t{1} << 20;

EntryKind kindFrom(mode_t mode) {
    if (S_ISREG(mode))
        return EntryKind::file;
    if (S_ISDIR(mode))
        return EntryKind::folder;
    return S_ISLNK(mode) ? EntryKind::link : EntryKind::other;
}

/// Hands a file's bytes over piece by piece until `take` stops it. @return errno, 0 if nothing went
/// wrong.
int readPieces(int file, const std::function<bool(std::span<const std::byte>)>& take) {
    std::vector<std::byte> piece(pieceBytes);
    while (true) {
        const ssize_t got = ::read(file, piece.data(), piece.size());
        if (got == 0)
            return 0;
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return errno;
        if (!take(std::span(piece).first(static_cast<std::size_t>(got))))
            return 0;
    }
}

/// @return errno, 0 when all was written.
int writeAll(int file, std::span<const std::byte> bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            return errno;
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
    return 0;
}

[[noreturn]] void failAsLarge(const fs::path& file, std::uint64_t mostBytes) {
    throw FileTrouble(
        fmt::format("{} is larger than the {} bytes it may have.", file.string(), mostBytes),
        EFBIG);
}

/// Sets the mode, which the umask may have reduced, and waits for the disk.
int finishFile(int file, mode_t mode) {
    return ::fchmod(file, mode) != 0 || ::fsync(file) != 0 ? errno : 0;
}

} // namespace

Descriptor::Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
}

Descriptor::~Descriptor() {
    if (number_ >= 0)
        ::close(number_);
}

Folder::Folder(fs::path path, Descriptor descriptor)
    : path_(std::move(path)), descriptor_(std::move(descriptor)) {}

std::string Folder::sentence(std::string_view what, const std::string& name,
                             int systemError) const {
    const std::string file = (name.empty() ? path_ : path_ / name).string();
    struct stat facts {};
    if (!name.empty() && ::fstatat(number(), name.c_str(), &facts, AT_SYMLINK_NOFOLLOW) == 0 &&
        S_ISLNK(facts.st_mode))
        return fmt::format("{} is a symbolic link, and nothing in a book may be one. Put the file "
                           "or folder itself there.",
                           file);
    if (systemError == ENOSPC || systemError == EDQUOT)
        return fmt::format("The disk that holds {} is full.", file);
    return fmt::format("{} {} ({}).", file, what, std::strerror(systemError));
}

void Folder::fail(std::string_view what, const std::string& name, int systemError) const {
    throw FileTrouble(sentence(what, name, systemError), systemError);
}

void Folder::failToWrite(const std::string& name, int systemError) const {
    throw WriteTrouble(sentence("cannot be written", name, systemError), systemError);
}

Folder Folder::open(const fs::path& path) {
    Descriptor folder(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (folder.number() < 0)
        throw FileTrouble(
            fmt::format("{} cannot be opened ({}).", path.string(), std::strerror(errno)), errno);
    return {path, std::move(folder)};
}

Folder Folder::child(const std::string& name) const {
    Descriptor folder(
        ::openat(number(), name.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    if (folder.number() < 0)
        fail("cannot be opened", name, errno);
    return {path_ / name, std::move(folder)};
}

std::optional<Folder> Folder::maybeChild(const std::string& name) const {
    if (!kindOf(name))
        return std::nullopt;
    return child(name);
}

Folder Folder::makeChild(const std::string& name) const {
    const bool made = ::mkdirat(number(), name.c_str(), folderMode) == 0;
    if (!made && errno != EEXIST)
        failToWrite(name, errno);
    Folder folder = child(name);
    if (made && ::fchmod(folder.number(), folderMode) != 0)
        failToWrite(name, errno);
    if (made)
        synchronise();
    return folder;
}

std::vector<FolderEntry> Folder::entries() const {
    const int again = ::openat(number(), ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR* opened = again < 0 ? nullptr : ::fdopendir(again);
    if (opened == nullptr) {
        Descriptor closing(again);
        fail("cannot be looked into", "", errno);
    }
    const std::unique_ptr<DIR, int (*)(DIR*)> listing(opened, &::closedir);
    std::vector<FolderEntry> all;
    errno = 0;
    while (const dirent* entry = ::readdir(listing.get())) {
        const std::string name = entry->d_name;
        if (const auto kind = name == "." || name == ".." ? std::nullopt : kindOf(name))
            all.push_back({name, *kind});
        errno = 0;
    }
    if (errno != 0)
        fail("cannot be looked into", "", errno);
    std::sort(all.begin(), all.end(),
              [](const FolderEntry& a, const FolderEntry& b) { return a.name < b.name; });
    return all;
}

std::optional<EntryKind> Folder::kindOf(const std::string& name) const {
    struct stat facts {};
    if (::fstatat(number(), name.c_str(), &facts, AT_SYMLINK_NOFOLLOW) == 0)
        return kindFrom(facts.st_mode);
    if (errno == ENOENT)
        return std::nullopt;
    throw FileTrouble(
        fmt::format("{} cannot be looked at ({}).", (path_ / name).string(), std::strerror(errno)),
        errno);
}

Descriptor Folder::openFile(const std::string& name) const {
    // O_NONBLOCK: otherwise a pipe in the file's place would wait for its other end for ever.
    Descriptor file(
        ::openat(number(), name.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    struct stat facts {};
    if (file.number() < 0 || ::fstat(file.number(), &facts) != 0)
        fail("cannot be read", name, errno);
    if (!S_ISREG(facts.st_mode))
        throw FileTrouble(fmt::format("{} is not an ordinary file.", (path_ / name).string()),
                          EINVAL);
    return file;
}

FileDigest Folder::digestOf(const std::string& name) const {
    const Descriptor file = openFile(name);
    Sha256 digest;
    FileDigest result;
    const int error = readPieces(file.number(), [&](std::span<const std::byte> piece) {
        digest.add(piece);
        result.byteCount += piece.size();
        return true;
    });
    if (error != 0)
        fail("cannot be read", name, error);
    result.sha256 = digest.hex();
    return result;
}

std::vector<std::byte> Folder::read(const std::string& name, std::uint64_t mostBytes) const {
    const Descriptor file = openFile(name);
    std::vector<std::byte> bytes;
    const int error = readPieces(file.number(), [&](std::span<const std::byte> piece) {
        bytes.insert(bytes.end(), piece.begin(), piece.end());
        return bytes.size() <= mostBytes;
    });
    if (error != 0)
        fail("cannot be read", name, error);
    if (bytes.size() > mostBytes)
        failAsLarge(path_ / name, mostBytes);
    return bytes;
}

void Folder::write(const std::string& name, std::span<const std::byte> bytes, mode_t mode) const {
    const Descriptor file(::openat(number(), name.c_str(), newFileFlags, 0600));
    if (file.number() < 0)
        failToWrite(name, errno);
    int error = writeAll(file.number(), bytes);
    if (error == 0)
        error = finishFile(file.number(), mode);
    if (error != 0) {
        ::unlinkat(number(), name.c_str(), 0);
        failToWrite(name, error);
    }
}

FileDigest Folder::copyInto(const Folder& target, const std::string& name, mode_t mode,
                            std::uint64_t mostBytes) const {
    const Descriptor from = openFile(name);
    const Descriptor to(::openat(target.number(), name.c_str(), newFileFlags, 0600));
    if (to.number() < 0)
        target.failToWrite(name, errno);
    Sha256 digest;
    FileDigest result;
    int writeError = 0;
    const int readError = readPieces(from.number(), [&](std::span<const std::byte> piece) {
        digest.add(piece);
        result.byteCount += piece.size();
        writeError = result.byteCount > mostBytes ? 0 : writeAll(to.number(), piece);
        return writeError == 0 && result.byteCount <= mostBytes;
    });
    if (writeError == 0)
        writeError = finishFile(to.number(), mode);
    if (readError != 0 || writeError != 0 || result.byteCount > mostBytes)
        ::unlinkat(target.number(), name.c_str(), 0);
    if (writeError != 0)
        target.failToWrite(name, writeError);
    if (readError != 0)
        fail("cannot be read", name, readError);
    if (result.byteCount > mostBytes)
        failAsLarge(path_ / name, mostBytes);
    result.sha256 = digest.hex();
    return result;
}

void Folder::moveInto(const Folder& target, const std::string& name,
                      const std::string& newName) const {
    if (::renameat(number(), name.c_str(), target.number(), newName.c_str()) != 0)
        fail("cannot be moved", name, errno);
}

void Folder::remove(const std::string& name) const {
    if (::unlinkat(number(), name.c_str(), 0) != 0 && errno != ENOENT)
        fail("cannot be removed", name, errno);
}

void Folder::synchronise() const {
    if (::fsync(number()) != 0 && errno != EINVAL)
        failToWrite("", errno);
}

} // namespace swarfbook
