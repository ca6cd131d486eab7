// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <sys/types.h>
#include <vector>

namespace swarfbook {

/// A file or folder could not be read or written; the message names it and says why.
class FileTrouble : public ToolError {
  public:
    FileTrouble(const std::string& sentence, int systemError)
        : ToolError(sentence), systemError_(systemError) {}
    [[nodiscard]] int systemError() const { return systemError_; } ///< of <cerrno>; 0: a link

  private:
    int systemError_;
};

/// The same for a place being written: copying continues after any other trouble but not after
/// this.
class WriteTrouble : public FileTrouble {
  public:
    using FileTrouble::FileTrouble;
};

/// An open file or folder of the system that closes itself.
class Descriptor {
  public:
    explicit Descriptor(int number = -1) : number_(number) {}
    Descriptor(Descriptor&& other) noexcept;
    Descriptor& operator=(Descriptor&& other) noexcept;
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor();
    [[nodiscard]] int number() const { return number_; }

  private:
    int number_;
};

/// The type of an entry in a folder.
enum class EntryKind { file, folder, link, other };

struct FolderEntry {
    std::string name;
    EntryKind kind = EntryKind::other;
};

/// A file's digest and length.
struct FileDigest {
    std::string sha256;
    std::uint64_t byteCount = 0;
};

/// A folder held open. Its entries are reached by name through it, and a symbolic link, pipe or
/// device in the place of a file or folder is never followed or opened, so that a folder from
/// elsewhere cannot lead a command out of itself. Folders are made with mode 700 and files with
/// mode 600, whatever the umask. Everything throws FileTrouble. Checked:
/// tests/record/folder_test.cpp.
class Folder {
  public:
    /// Follows links on the way to it and in its own place, because they are the user's own.
    static Folder open(const std::filesystem::path& path);

    [[nodiscard]] Folder child(const std::string& name) const;
    /// Nothing where there is none.
    [[nodiscard]] std::optional<Folder> maybeChild(const std::string& name) const;
    /// Makes it unless it exists.
    [[nodiscard]] Folder makeChild(const std::string& name) const;

    [[nodiscard]] std::vector<FolderEntry> entries() const; ///< by name
    /// Nothing where there is none of that name.
    [[nodiscard]] std::optional<EntryKind> kindOf(const std::string& name) const;

    /// An ordinary file, for reading.
    [[nodiscard]] Descriptor openFile(const std::string& name) const;
    [[nodiscard]] FileDigest digestOf(const std::string& name) const;
    /// The whole file; refused if it is larger than `mostBytes` bytes.
    [[nodiscard]] std::vector<std::byte> read(const std::string& name,
                                              std::uint64_t mostBytes) const;
    /// Makes a new file and waits until it is on the disk.
    void write(const std::string& name, std::span<const std::byte> bytes, mode_t mode) const;
    /// Copies a file into a new one of the same name and waits until it is on the disk; refused if
    /// it is larger than `mostBytes` bytes. Removes a copy that fails. Throws WriteTrouble if the
    /// target fails. @return digest and length read.
    FileDigest copyInto(const Folder& target, const std::string& name, mode_t mode,
                        std::uint64_t mostBytes) const;

    void moveInto(const Folder& target, const std::string& name, const std::string& newName) const;
    void remove(const std::string& name) const;
    /// Makes sure that added and removed names survive a loss of power.
    void synchronise() const;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] int number() const { return descriptor_.number(); }

  private:
    Folder(std::filesystem::path path, Descriptor descriptor);
    [[nodiscard]] std::string sentence(std::string_view what, const std::string& name,
                                       int systemError) const;
    [[noreturn]] void fail(std::string_view what, const std::string& name, int systemError) const;
    [[noreturn]] void failToWrite(const std::string& name, int systemError) const;

    std::filesystem::path path_;
    Descriptor descriptor_;
};

} // namespace swarfbook
