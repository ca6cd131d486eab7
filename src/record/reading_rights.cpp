// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/reading_rights.h"

#include "base/shell_text.h"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <fcntl.h>
#include <optional>
#include <pwd.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

std::string nameOfAccount(uid_t account) {
    std::array<char, 4096> room{};
    passwd facts{};
    passwd* found = nullptr;
    if (::getpwuid_r(account, &facts, room.data(), room.size(), &found) == 0 && found != nullptr)
        return facts.pw_name;
    return std::to_string(account);
}

struct Obstacle {
    fs::path path;
    uid_t owner = 0;
};

/// The first folder on the path to a file of the book, or the file itself, that this account may
/// not read.
std::optional<Obstacle> obstacleBefore(const fs::path& book, const fs::path& file) {
    fs::path path = book;
    for (const fs::path& part : file) {
        path /= part;
        struct stat facts {};
        if (::stat(path.c_str(), &facts) != 0)
            return std::nullopt;
        const int wanted = S_ISDIR(facts.st_mode) ? R_OK | X_OK : R_OK;
        if (::faccessat(AT_FDCWD, path.c_str(), wanted, AT_EACCESS) != 0)
            return Obstacle{path, facts.st_uid};
    }
    return std::nullopt;
}

} // namespace

bool lacksRight(const FileTrouble& trouble) {
    return trouble.systemError() == EACCES || trouble.systemError() == EPERM;
}

std::string thisAccount() {
    return nameOfAccount(::geteuid());
}

std::string adviceOnRights(const fs::path& book, const fs::path& file) {
    const auto obstacle = obstacleBefore(book, file);
    if (!obstacle)
        return "Check the rights of the drive that holds the book.";
    const std::string place = quotedForShell(fs::absolute(book).string());
    if (obstacle->owner == ::geteuid())
        return fmt::format("To give yourself the right to read it, type: chmod -R u+rX {}", place);
    return fmt::format("{} belongs to the account {}. Work under that account, or let the person "
                       "who looks after this computer type: sudo chown -R {} {}",
                       obstacle->path.string(), nameOfAccount(obstacle->owner),
                       quotedForShell(thisAccount()), place);
}

} // namespace swarfbook
