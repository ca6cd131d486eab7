// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <sys/types.h>

/// Files and folders that only their owner can read, whatever the umask, because their content is
/// private. A file system without access rights, as on many memory cards, makes them as it can.
/// Checked: tests/base/private_file_test.cpp.
namespace swarfbook {

inline constexpr mode_t privateFolderMode = 0700, privateFileMode = 0600;

/// An open file or folder that closes itself. Throws std::system_error if it cannot be opened.
class OpenFile {
  public:
    /// @param mode  of a file that is made (O_CREAT, O_TMPFILE); exactly this, whatever the umask.
    OpenFile(const std::filesystem::path& file, int flags, mode_t mode = privateFileMode);
    ~OpenFile();
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    [[nodiscard]] int descriptor() const { return descriptor_; }
    /// Writes all bytes. Throws std::system_error.
    void write(std::span<const std::byte> bytes) const;
    /// Waits until all that was written is on the disk. Throws std::system_error.
    void synchronise() const;

  private:
    int descriptor_;
};

/// Makes a folder and the missing folders above it, each for the owner alone and on the disk when
/// this returns. An existing folder stays as it is. Throws std::system_error.
void makePrivateFolder(const std::filesystem::path& folder);

/// Makes an empty file for the owner alone. @return whether it was made; an existing file stays as
/// it is. Throws std::system_error.
bool makePrivateFile(const std::filesystem::path& file);

/// Makes sure that names added to a folder or removed from it survive a loss of power. Throws
/// std::system_error.
void synchroniseFolder(const std::filesystem::path& folder);

/// Whether others than the owner have any right to it. A link's own rights mean nothing: false.
bool isOpenToOthers(const std::filesystem::path& file);

/// Takes every right of others from a file, or from a folder and all that is in it; links are
/// neither changed nor followed. What belongs to another user stays as it is.
void closeToOthers(const std::filesystem::path& file);

} // namespace swarfbook
