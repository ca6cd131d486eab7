// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/output_file.h"

#include "base/errors.h"
#include "base/private_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <fcntl.h>
#include <optional>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

fs::path folderOf(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

[[noreturn]] void throwThere(const fs::path& file, std::string_view orElse) {
    throw UsageError(fmt::format("{} is there already and was left as it is. Give another name{}.",
                                 file.string(), orElse));
}

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

/// Where a file's name leads: a link is followed, so that it stays a link. The last part may be
/// missing.
fs::path followed(const fs::path& file) {
    std::error_code error;
    fs::path real = fs::weakly_canonical(file, error);
    return error ? file : real;
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

/// A file being written that has no name yet, or where the file system knows no such files, a
/// temporary one.
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
        // The file system does not know that call; between the question and the answer lies the
        // time of one call.
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

bool isBookFolder(const fs::path& folder) {
    std::error_code none;
    return fs::exists(fs::symlink_status(folder / "book.db", none));
}

bool same(const fs::path& one, const fs::path& other) {
    std::error_code none;
    return fs::equivalent(one, other, none);
}

/// Folders of a book in which only the book itself writes.
constexpr std::string_view innerFolders[] = {"photos", "units"};

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
