// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/sha256.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/folder.h"
#include "record/keep_original.h"
#include "record/kept_originals.h"
#include "record/photo_store.h"
#include "record/reading_rights.h"
#include "record/stored_values.h"

#include <fmt/format.h>

#include <span>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

/// The name of an original that the book has an entry of.
PhotoName nameOfOriginal(Database& database, const std::string& sha256) {
    const StoredRow checked{database.where(), fmt::format("the photo {:.64}", sha256)};
    Statement query =
        database.prepare(fmt::format("SELECT extension FROM {} WHERE sha256 = ?", keptOriginals));
    if (!query.with(checked.sha256(sha256)).step())
        throw PhotoLost(fmt::format("{} has no entry of the photo {}. Bring the book back from "
                                    "your last backup.",
                                    database.where(), sha256));
    return {sha256, checked.extension(query.text(0))};
}

[[noreturn]] void throwNotReadable(const FileTrouble& trouble, const fs::path& book,
                                   const fs::path& file) {
    throw PhotoLost(fmt::format("{} {}", trouble.what(),
                                lacksRight(trouble)
                                    ? adviceOnRights(book, file.lexically_relative(book))
                                    : "Put that right, or bring the original back from your last "
                                      "backup."));
}

} // namespace

void keepOriginal(const fs::path& folder, Database& database, const PhotoName& photo,
                  std::span<const std::byte> bytes) {
    const PhotoStore store(folder);
    if (!store.keep(photo.sha256, photo.extension, bytes))
        return;
    Statement named =
        database.prepare(fmt::format("SELECT 1 FROM {} WHERE sha256 = ?", keptOriginals));
    if (named.with(photo.sha256).step())
        store.settle(photo, true);
    else
        database.whenDecided([store, photo](bool committed) { store.settle(photo, committed); });
}

std::string Book::keepCleanReference(const std::string& fileName,
                                     std::span<const std::byte> bytes) {
    const std::string sha256 = sha256Hex(bytes);
    const std::string_view extension = photoExtension(bytes);
    BookTransaction transaction = begin();
    if (!folder_.empty())
        keepOriginal(folder_, *database_, {sha256, std::string(extension)}, bytes);
    database_
        ->prepare("INSERT INTO blank (sha256, extension, byte_count, file_name, added_at) "
                  "VALUES (?, ?, ?, ?, ?) ON CONFLICT (sha256) DO NOTHING")
        .with(sha256, extension, static_cast<std::int64_t>(bytes.size()), readableText(fileName),
              nowUtc())
        .run();
    transaction.commit();
    return sha256;
}

fs::path Book::originalPhoto(const std::string& sha256) const {
    const PhotoName name = nameOfOriginal(*database_, sha256);
    const PhotoStore store(folder_);
    const auto file = store.fileOf(name.sha256, name.extension);
    try {
        if (!folder_.empty() && store.holds(name))
            return file;
    } catch (const FileTrouble& trouble) {
        throwNotReadable(trouble, folder_, file);
    }
    throw PhotoLost(fmt::format("The original photo {} is missing from {}. Bring it back from "
                                "your last backup, or add the same photo file again.",
                                file.string(), database_->where()));
}

std::vector<std::byte> Book::originalBytes(const std::string& sha256) const {
    const auto file = originalPhoto(sha256);
    std::vector<std::byte> bytes;
    try {
        bytes = PhotoStore(folder_).read(nameOfOriginal(*database_, sha256));
    } catch (const FileTrouble& trouble) {
        throwNotReadable(trouble, folder_, file);
    }
    if (sha256Hex(bytes) != sha256)
        throw PhotoLost(fmt::format("The original photo {} has changed since it was put into {}. "
                                    "Bring it back from your last backup, or add the same photo "
                                    "file again.",
                                    file.string(), database_->where()));
    return bytes;
}

} // namespace swarfbook
