// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// "jpg", "png" or "heic" by the first bytes, "photo" for anything else.
std::string_view photoExtension(std::span<const std::byte> bytes);

/// Bytes of a file, whatever they are. Throws ToolError naming the file and the reason.
std::vector<std::byte> readWholeFile(const std::filesystem::path& file);

/// The original photos of a book on disk: photos/<first two digits>/<SHA-256>.<extension>, never
/// written to again. A file appears under its name only when all its bytes are on the disk, so a
/// kill leaves at most a file in photos/incoming, cleared at the next keep(), or a whole photo that
/// no entry names, found and used when that photo is added again.
/// Checked: tests/record/photo_store_test.cpp, tests/record/kill_test.cpp.
class PhotoStore {
  public:
    explicit PhotoStore(const std::filesystem::path& bookFolder);
    [[nodiscard]] std::filesystem::path fileOf(const std::string& sha256,
                                               std::string_view extension) const;
    /// Puts the bytes on the disk under their SHA-256, which the caller states. Call it while
    /// holding the book's write transaction: what lies in photos/incoming is then nobody's.
    /// Throws ToolError when the disk refuses; nothing of these bytes is left then.
    /// @return the file, where this call put it there; nothing where it was there before.
    std::optional<std::filesystem::path> keep(const std::string& sha256, std::string_view extension,
                                              std::span<const std::byte> bytes) const;
    /// Takes a file away that keep() put there, and its folder when nothing else is in it: for a
    /// command that failed.
    static void takeAway(const std::filesystem::path& file);

  private:
    std::filesystem::path photos_;
};

} // namespace swarfbook
