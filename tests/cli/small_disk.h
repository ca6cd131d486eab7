// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"

#include <fmt/format.h>

#include <sys/mount.h>

namespace swarfbook::test {

/// A small disk that is soon full, if the system allows mounting one (for the superuser, as in
/// continuous integration); otherwise isThere() is false and a test says that it is skipped.
class SmallDisk {
  public:
    explicit SmallDisk(int kibibytes) {
        const std::string options = fmt::format("size={}k", kibibytes);
        there_ = ::mount("tmpfs", path().c_str(), "tmpfs", 0, options.c_str()) == 0;
    }
    ~SmallDisk() {
        if (there_)
            ::umount2(path().c_str(), MNT_DETACH);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;

    [[nodiscard]] bool isThere() const { return there_; }
    [[nodiscard]] const std::filesystem::path& path() const { return folder_.path(); }
    /// Writes until it is full.
    void fill() const {
        const std::string file = (path() / "fill").string();
        const int out = ::open(file.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
        const std::string block(4096, 'x');
        while (::write(out, block.data(), block.size()) > 0) {
        }
        ::close(out);
    }
    void makeRoom() const { std::filesystem::remove(path() / "fill"); }

  private:
    TemporaryFolder folder_;
    bool there_ = false;
};

/// As long as it lives nothing can be written in a folder: it is mounted read-only for the
/// superuser, whom access rights do not stop, and has no write access for anyone else.
class ReadOnlyFolder {
  public:
    explicit ReadOnlyFolder(std::filesystem::path folder) : folder_(std::move(folder)) {
        if (geteuid() != 0) {
            setWritable(false);
            there_ = true;
            return;
        }
        const char* path = folder_.c_str();
        mounted_ = ::mount(path, path, nullptr, MS_BIND, nullptr) == 0;
        there_ = mounted_ &&
                 ::mount(nullptr, path, nullptr, MS_REMOUNT | MS_BIND | MS_RDONLY, nullptr) == 0;
    }
    ~ReadOnlyFolder() {
        if (mounted_)
            ::umount2(folder_.c_str(), MNT_DETACH);
        else if (there_)
            setWritable(true);
    }
    ReadOnlyFolder(const ReadOnlyFolder&) = delete;
    ReadOnlyFolder& operator=(const ReadOnlyFolder&) = delete;
    /// False if the system does not allow mounting; then a test says that it is skipped.
    [[nodiscard]] bool isThere() const { return there_; }

  private:
    void setWritable(bool writable) const {
        namespace fs = std::filesystem;
        const auto how = writable ? fs::perm_options::add : fs::perm_options::remove;
        fs::permissions(folder_, fs::perms::owner_write, how);
        for (const auto& entry : fs::recursive_directory_iterator(folder_))
            if (entry.is_directory() || entry.path().filename().string().starts_with("book.db"))
                fs::permissions(entry.path(), fs::perms::owner_write, how);
    }

    std::filesystem::path folder_;
    bool mounted_ = false, there_ = false;
};

} // namespace swarfbook::test
