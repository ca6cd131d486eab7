// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_store.h"

#include "base/errors.h"
#include "base/private_file.h"
#include "base/regular_file.h"
#include "base/sha256.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

// Of the owner alone, and never written to again.
constexpr mode_t originalMode = 0400;

[[noreturn]] void throwCannotKeep(const fs::path& file, int systemError) {
    if (systemError == ENOSPC || systemError == EDQUOT)
        throw ToolError(fmt::format("The disk that holds the book is full: the photo could not be "
                                    "copied to {}. Nothing of this command was kept. Make room on "
                                    "that disk, then give the command again.",
                                    file.parent_path().string()));
    throw ToolError(fmt::format("The photo could not be copied to {} ({}). Nothing of this "
                                "command was kept. Check that you may write there, then give the "
                                "command again.",
                                file.parent_path().string(), std::strerror(systemError)));
}

/// A file half written, gone again unless it was given its place.
class Incoming {
  public:
    Incoming(fs::path file, std::span<const std::byte> bytes) : file_(std::move(file)) {
        const OpenFile open(file_, O_WRONLY | O_CREAT | O_EXCL, originalMode);
        try {
            open.write(bytes);
            open.synchronise();
        } catch (...) {
            ::unlink(file_.c_str());
            throw;
        }
    }
    Incoming(const Incoming&) = delete;
    Incoming& operator=(const Incoming&) = delete;
    ~Incoming() {
        if (!placed_)
            ::unlink(file_.c_str());
    }
    void moveTo(const fs::path& place) {
        if (::rename(file_.c_str(), place.c_str()) != 0)
            throw std::system_error(errno, std::generic_category());
        placed_ = true;
    }

  private:
    fs::path file_;
    bool placed_ = false;
};

/// Removes what killed programs left half written.
void clearFolder(const fs::path& folder) {
    std::error_code error;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, error))
        fs::remove(entry.path(), error);
}

bool holdsThese(const fs::path& file, const std::string& sha256) {
    std::error_code error;
    return fs::is_regular_file(file, error) && sha256Hex(readWholeFile(file)) == sha256;
}

bool startsWith(std::span<const std::byte> bytes, std::size_t from, std::string_view text) {
    return bytes.size() >= from + text.size() &&
           std::memcmp(bytes.data() + from, text.data(), text.size()) == 0;
}

} // namespace

std::string_view photoExtension(std::span<const std::byte> bytes) {
    if (startsWith(bytes, 0, "\xFF\xD8\xFF"))
        return "jpg";
    if (startsWith(bytes, 0, "\x89PNG\r\n\x1A\n"))
        return "png";
    return startsWith(bytes, 4, "ftyp") ? "heic" : "photo";
}

std::vector<std::byte> readWholeFile(const fs::path& file) {
    if (const std::string why = whyNotReadable(file); !why.empty())
        throw ToolError(why);
    std::error_code error;
    const auto size = fs::file_size(file, error);
    std::ifstream in(file, std::ios::binary);
    std::vector<std::byte> bytes(error ? 0 : size);
    in.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (error || !in)
        throw ToolError(fmt::format("{} cannot be read ({}). Check that it is there and that you "
                                    "may read it.",
                                    file.string(), error ? error.message() : "it ended too soon"));
    return bytes;
}

PhotoStore::PhotoStore(const fs::path& bookFolder) : photos_(bookFolder / "photos") {}

fs::path PhotoStore::fileOf(const std::string& sha256, std::string_view extension) const {
    return photos_ / sha256.substr(0, 2) / fmt::format("{}.{}", sha256, extension);
}

std::optional<fs::path> PhotoStore::keep(const std::string& sha256, std::string_view extension,
                                         std::span<const std::byte> bytes) const {
    const fs::path file = fileOf(sha256, extension);
    const fs::path incoming = photos_ / "incoming";
    bool placed = false;
    try {
        makePrivateFolder(incoming);
        clearFolder(incoming);
        makePrivateFolder(file.parent_path());
        if (!holdsThese(file, sha256)) {
            Incoming(incoming / file.filename(), bytes).moveTo(file);
            placed = true;
        }
        synchroniseFolder(file.parent_path());
    } catch (const std::system_error& error) {
        if (placed)
            takeAway(file);
        throwCannotKeep(file, error.code().value());
    }
    return placed ? std::optional(file) : std::nullopt;
}

void PhotoStore::takeAway(const fs::path& file) {
    ::unlink(file.c_str());
    ::rmdir(file.parent_path().c_str()); // goes only when it is empty
}

} // namespace swarfbook
