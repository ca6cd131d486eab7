// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"

#include <fmt/format.h>

#include <sys/mount.h>

namespace swarfbook::test {

/// A disk of its own that is soon full, where the system lets one be mounted (the superuser, as in
/// continuous integration); elsewhere isThere() is false and a test says that it passes over.
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
    /// Writes until nothing more goes on it.
    void fill() const {
        const std::string file = (path() / "fill").string();
        const int out = ::open(file.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
        const std::string block(4096, 'x');
        while (::write(out, block.data(), block.size()) > 0) {
        }
        ::close(out);
    }
    void makeRoom() const { std::filesystem::remove(path() / "fill"); }
    /// From now on nobody writes to it, not even the superuser.
    [[nodiscard]] bool makeReadOnly() const {
        return ::mount(nullptr, path().c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0;
    }

  private:
    TemporaryFolder folder_;
    bool there_ = false;
};

} // namespace swarfbook::test
