// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_store.h"

#include "base/errors.h"
#include "base/regular_file.h"
#include "base/sha256.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

[[noreturn]] void throwCannotKeep(const fs::path& file, int systemError) {
    if (systemError == ENOSPC || systemError == EDQUOT)
        throw ToolError(fmt::format("The disk is full: the photo could not be copied to {}. "
                                    "Nothing of this command was kept. Make room on that disk, "
                                    "then give the command again.",
                                    file.parent_path().string()));
    throw ToolError(fmt::format("The photo could not be copied to {} ({}). Nothing of this "
                                "command was kept. Check that you may write there, then give the "
                                "command again.",
                                file.parent_path().string(), std::strerror(systemError)));
}

/// An open file that closes itself.
class OpenFile {
  public:
    OpenFile(const fs::path& file, int flags, mode_t mode = 0)
        : descriptor_(::open(file.c_str(), flags | O_CLOEXEC, mode)) {
        if (descriptor_ < 0)
            throwCannotKeep(file, errno);
    }
    ~OpenFile() { ::close(descriptor_); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    [[nodiscard]] int descriptor() const { return descriptor_; }

  private:
    int descriptor_;
};

void writeToDisk(const fs::path& file, std::span<const std::byte> bytes) {
    const OpenFile open(file, O_WRONLY | O_CREAT | O_EXCL, 0600);
    while (!bytes.empty()) {
        const ssize_t written = ::write(open.descriptor(), bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            throwCannotKeep(file, errno);
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
    if (::fchmod(open.descriptor(), 0444) != 0 || ::fsync(open.descriptor()) != 0)
        throwCannotKeep(file, errno);
}

/// Makes names that appeared in the folder last through a loss of power.
void synchroniseFolder(const fs::path& folder) {
    const OpenFile open(folder, O_RDONLY | O_DIRECTORY);
    if (::fsync(open.descriptor()) != 0 && errno != EINVAL)
        throwCannotKeep(folder / ".", errno);
}

void makeFolder(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        throwCannotKeep(folder / ".", error.value());
    synchroniseFolder(folder.parent_path());
}

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

PhotoStore::PhotoStore(fs::path bookFolder) : photos_(std::move(bookFolder) / "photos") {}

fs::path PhotoStore::fileOf(const std::string& sha256, std::string_view extension) const {
    return photos_ / sha256.substr(0, 2) / fmt::format("{}.{}", sha256, extension);
}

void PhotoStore::keep(const std::string& sha256, std::string_view extension,
                      std::span<const std::byte> bytes) const {
    const fs::path file = fileOf(sha256, extension);
    const fs::path incoming = photos_ / "incoming";
    makeFolder(incoming);
    clearFolder(incoming);
    makeFolder(file.parent_path());
    if (!holdsThese(file, sha256)) {
        const fs::path half = incoming / file.filename();
        writeToDisk(half, bytes);
        if (::rename(half.c_str(), file.c_str()) != 0)
            throwCannotKeep(file, errno);
    }
    synchroniseFolder(file.parent_path());
}

} // namespace swarfbook
