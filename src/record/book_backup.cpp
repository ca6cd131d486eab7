// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/database.h"
#include "record/photo_store.h"

#include <fmt/format.h>

#include <system_error>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

[[noreturn]] void throwNoBackup(const fs::path& target, const std::error_code& error) {
    throw ToolError(fmt::format("The backup cannot be written to {} ({}). Name another folder with "
                                "--out.",
                                target.string(), error.message()));
}

/// A fresh folder beside the target; what an interrupted backup left there goes.
fs::path unfinishedFolder(const fs::path& target) {
    const fs::path folder = target.string() + ".unfinished";
    std::error_code error;
    fs::remove_all(folder, error);
    if (!error)
        fs::create_directories(folder, error);
    if (error)
        throwNoBackup(target, error);
    return folder;
}

} // namespace

Book::Copied Book::backUp(const fs::path& given) {
    const fs::path target = fs::absolute(given / "").lexically_normal().parent_path();
    std::error_code error;
    if (fs::exists(target, error))
        throw UsageError(fmt::format("{} is there already, and a backup overwrites nothing. Name a "
                                     "new folder with --out.",
                                     target.string()));
    if (error)
        throwNoBackup(target, error);
    const fs::path folder = unfinishedFolder(target);
    Copied copied;
    {
        Database copy(folder / "book.db", fmt::format("the backup in {}", folder.string()));
        database_->copyTo(copy);
        Statement photos = copy.prepare("SELECT sha256, extension FROM photo UNION "
                                        "SELECT sha256, extension FROM blank ORDER BY sha256");
        while (photos.step()) {
            try {
                const auto bytes = originalBytes(photos.text(0));
                PhotoStore(folder).keep(photos.text(0), photos.text(1), bytes);
                ++copied.photos;
            } catch (const PhotoLost& lost) {
                copied.troubles.emplace_back(lost.what());
            }
        }
    }
    fs::rename(folder, target, error);
    if (error)
        throwNoBackup(target, error);
    return copied;
}

} // namespace swarfbook
