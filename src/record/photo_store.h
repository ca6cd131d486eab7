// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <sys/types.h>
#include <vector>

namespace swarfbook {

/// "jpg", "png" or "heic" by the first bytes, "photo" for anything else.
std::string_view photoExtension(std::span<const std::byte> bytes);

/// Every extension that photoExtension gives.
bool isPhotoExtension(std::string_view extension);

/// Bytes of a file, whatever they are. Throws ToolError naming the file and the reason.
std::vector<std::byte> readWholeFile(const std::filesystem::path& file);

/// The parts of an original's name in its folder, "<SHA-256>.<extension>"; nothing for any other
/// name.
struct PhotoName {
    std::string sha256, extension;
    [[nodiscard]] std::string folder() const { return sha256.substr(0, 2); }
    [[nodiscard]] std::string file() const;
};
std::optional<PhotoName> photoNameFrom(std::string_view fileName);

/// The original photos of a book on disk: photos/<first two digits>/<SHA-256>.<extension>, never
/// written to again. A file appears under its name only when all its bytes are on the disk. Before
/// that an empty file photos/incoming/<name>.arriving says that it is coming; it is removed when
/// the entry is in the book. So a kill leaves at most half a file in photos/incoming, or a whole
/// photo without an entry beside its .arriving; the next writing command removes both (see
/// leftovers.h). Symbolic links are never followed.
/// Checked: tests/record/photo_store_test.cpp, tests/record/kill_test.cpp.
class PhotoStore {
  public:
    explicit PhotoStore(std::filesystem::path bookFolder);
    /// `sha256` and `extension` as photoNameFrom takes them, else std::logic_error.
    [[nodiscard]] std::filesystem::path fileOf(const std::string& sha256,
                                               std::string_view extension) const;
    /// Whether the original is there as an ordinary file, not behind a link. Throws FileTrouble if
    /// a link or the disk prevents it.
    [[nodiscard]] bool holds(const PhotoName& photo) const;
    /// Its bytes. Throws FileTrouble.
    [[nodiscard]] std::vector<std::byte> read(const PhotoName& photo) const;
    /// Puts the bytes on the disk under their SHA-256, which the caller gives. Call it while
    /// holding the book's write transaction, so that files in photos/incoming belong to this
    /// command. Throws ToolError if the disk refuses.
    /// @return whether it was written; false: it was already there, whole.
    bool keep(const std::string& sha256, std::string_view extension,
              std::span<const std::byte> bytes) const;
    /// Call it at the end of the transaction in which keep() wrote this photo: after a commit, or
    /// before a rollback, which removes the photo again.
    void settle(const PhotoName& photo, bool committed) const;

  private:
    std::filesystem::path bookFolder_;
};

/// The largest photo file that is read, bytes.
inline constexpr std::uint64_t largestPhotoBytes = std::uint64_t{256} << 20;
/// Access rights of an original: its owner may read it, and nobody may change it.
inline constexpr mode_t originalMode = 0400;
/// The ending of the name of a photo being added.
inline constexpr std::string_view arrivingEnding = ".arriving";

} // namespace swarfbook
