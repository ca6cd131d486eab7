// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/output_file.h"

#include "base/errors.h"
#include "base/output_place.h"
#include "base/private_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <fcntl.h>
#include <optional>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

[[noreturn]] void throwNotWritten(const fs::path& file, const std::error_code& error) {
    if (error == std::errc::no_space_on_device || error.value() == EDQUOT)
        throw ToolError(fmt::format("The disk that holds the folder {} is full: {} could not be "
                                    "written, and no part of it was left. Make room on that disk "
                                    "or choose another folder, then try again.",
                                    folderOf(file).string(), file.filename().string()));
    throw ToolError(fmt::format("{} could not be written ({}). Choose another folder, then try "
                                "again.",
                                file.string(), error.message()));
}

constexpr std::string_view ofProcess = ".swarfbook-";

/// A name beside the file that no other command uses, and that says which process made it.
fs::path temporaryName(const fs::path& file, pid_t process) {
    return folderOf(file) / fmt::format(".{}{}{}", file.filename().string(), ofProcess, process);
}

/// A temporary file's name taken apart.
struct Temporary {
    std::string goal;
    pid_t process = 0;
};

std::optional<Temporary> temporaryFrom(std::string_view name) {
    const auto mark = name.rfind(ofProcess);
    if (mark == std::string_view::npos || mark < 2 || name.front() != '.')
        return std::nullopt;
    Temporary found{std::string(name.substr(1, mark - 1)), 0};
    const std::string_view number = name.substr(mark + ofProcess.size());
    const char* end = number.data() + number.size();
    const auto [stop, wrong] = std::from_chars(number.data(), end, found.process);
    if (wrong != std::errc() || stop != end || found.process <= 0)
        return std::nullopt;
    return found;
}

/// Removes what commands that no longer run left of this file.
void clearTemporaries(const fs::path& file) {
    std::error_code none;
    for (const fs::directory_entry& entry : fs::directory_iterator(folderOf(file), none)) {
        const auto found = temporaryFrom(entry.path().filename().string());
        if (found && found->goal == file.filename().string() && ::kill(found->process, 0) != 0 &&
            errno == ESRCH)
            fs::remove(entry.path(), none);
    }
}

/// A file being written that has no name yet; a temporary one if the file system has no such files.
class NewFile {
  public:
    explicit NewFile(const fs::path& goal)
        : goal_(goal), temporary_(temporaryName(goal, getpid())) {
        // Without /proc a file without a name cannot be given one.
        if (::access("/proc/self/fd", X_OK) == 0)
            openWithoutName();
        if (file_)
            return;
        clearTemporaries(goal);
        file_.emplace(temporary_, O_WRONLY | O_CREAT | O_EXCL);
        named_ = true;
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    ~NewFile() {
        if (named_)
            ::unlink(temporary_.c_str());
    }
    void fill(std::span<const std::byte> bytes) const {
        file_->write(bytes);
        file_->synchronise();
    }
    /// Gives it its name. @return false when that is taken.
    bool appear() {
        if (!named_)
            return linkTo(goal_);
        if (::renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, goal_.c_str(), RENAME_NOREPLACE) ==
            0) {
            named_ = false;
            return true;
        }
        if (errno == EEXIST)
            return false;
        // The file system does not know that call. Another program could take the name between the
        // check and the next call.
        if ((errno != EINVAL && errno != ENOSYS) || fs::exists(fs::symlink_status(goal_)))
            fail();
        replace();
        return true;
    }
    void replace() {
        clearTemporaries(goal_);
        if (!named_ && !linkTo(temporary_)) {
            ::unlink(temporary_.c_str()); // of an earlier process of this number
            if (!linkTo(temporary_))
                fail();
        }
        named_ = true;
        if (::rename(temporary_.c_str(), goal_.c_str()) != 0)
            fail();
        named_ = false;
    }

  private:
    void openWithoutName() {
        try {
            file_.emplace(folderOf(goal_), O_WRONLY | O_TMPFILE);
        } catch (const std::system_error&) {
            file_.reset(); // the file system has no such files, or opening it by name gives the
                           // error
        }
    }
    [[nodiscard]] bool linkTo(const fs::path& name) const {
        const std::string source = fmt::format("/proc/self/fd/{}", file_->descriptor());
        if (::linkat(AT_FDCWD, source.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0)
            return true;
        if (errno != EEXIST)
            fail();
        return false;
    }
    [[noreturn]] static void fail() { throw std::system_error(errno, std::generic_category()); }

    fs::path goal_, temporary_;
    std::optional<OpenFile> file_;
    bool named_ = false; ///< the temporary name is on the disk
};

} // namespace

std::optional<std::string> goalOfTemporary(std::string_view name) {
    const auto found = temporaryFrom(name);
    return found ? std::optional(found->goal) : std::nullopt;
}

void writeFile(const fs::path& file, std::span<const std::byte> bytes, IfThere ifThere) {
    std::error_code none;
    if (fs::is_directory(file, none))
        throw UsageError(
            fmt::format("{} is a folder. Give the name of a file to write.", file.string()));
    if (ifThere == IfThere::refuse && fs::exists(fs::symlink_status(file, none)))
        throwThere(file, "");
    try {
        const fs::path goal = followed(file);
        NewFile made(goal);
        made.fill(bytes);
        if (ifThere == IfThere::replace)
            made.replace();
        else if (!made.appear())
            throwThere(file, "");
        synchroniseFolder(folderOf(goal));
    } catch (const std::system_error& error) {
        throwNotWritten(file, error.code());
    }
}

void writeFile(const fs::path& file, std::span<const unsigned char> bytes, IfThere ifThere) {
    writeFile(file, std::as_bytes(bytes), ifThere);
}

} // namespace swarfbook
