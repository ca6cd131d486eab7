// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <mutex>
#include <span>
#include <string>
#include <vector>

namespace swarfbook::web {

/// A photo that is on its way from a phone.
struct ComingPhoto {
    std::string sha256; ///< of all its bytes, as the phone worked it out
    std::uint64_t size = 0;
};

/// Photos on their way, part by part, in incoming/ of the pages' folder: what arrived stays when
/// the connection breaks or the program ends, and the phone goes on from there. A photo that nobody
/// finishes is removed a day after its last part. Members may be called from several threads.
///
/// Every member throws UsageError for a name that is no SHA-256, for a photo that is empty or
/// larger than the book takes, ToolError where the disk refuses.
/// Checked: tests/web/upload_test.cpp.
class Uploads {
  public:
    explicit Uploads(std::filesystem::path pagesFolder);

    /// How many bytes of it are there.
    [[nodiscard]] std::uint64_t received(const ComingPhoto& photo) const;
    /// Adds a part that begins at byte `from`. One that does not begin where the last ended changes
    /// nothing. UsageError where too many photos are unfinished. @return how many bytes are there
    /// now.
    std::uint64_t add(const ComingPhoto& photo, std::uint64_t from,
                      std::span<const std::byte> part);
    /// All its bytes. UsageError while some are missing, and where they are not those of the
    /// SHA-256: then it is removed.
    [[nodiscard]] std::vector<std::byte> whole(const ComingPhoto& photo);
    /// Removes it.
    void forget(const ComingPhoto& photo);

    static constexpr std::size_t mostUnfinished = 200; ///< ours

  private:
    [[nodiscard]] std::filesystem::path fileOf(const ComingPhoto& photo) const;
    void clearOld() const;

    std::filesystem::path folder_;
    mutable std::mutex mutex_;
};

} // namespace swarfbook::web
