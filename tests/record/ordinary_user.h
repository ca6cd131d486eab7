// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <unistd.h>

namespace swarfbook::test {

/// As long as it lives the process may read and write only what an ordinary user may. The superuser
/// may write everywhere, so a read-only book would not be one.
class OrdinaryUser {
  public:
    OrdinaryUser() : wasRoot_(geteuid() == 0) {
        if (wasRoot_ && seteuid(nobody) != 0)
            throw std::runtime_error("cannot become an ordinary user");
    }
    ~OrdinaryUser() {
        if (wasRoot_ && seteuid(0) != 0)
            std::abort();
    }
    OrdinaryUser(const OrdinaryUser&) = delete;
    OrdinaryUser& operator=(const OrdinaryUser&) = delete;

    static constexpr uid_t nobody = 65534; ///< Debian Policy 9.2.2

  private:
    bool wasRoot_;
};

/// Gives a folder and everything in it to the ordinary user that the superuser becomes. If another
/// user runs the tests, it already belongs to that user.
inline void giveToOrdinaryUser(const std::filesystem::path& folder) {
    if (geteuid() != 0)
        return;
    const auto give = [](const std::filesystem::path& path) {
        if (chown(path.c_str(), OrdinaryUser::nobody, OrdinaryUser::nobody) != 0)
            throw std::runtime_error("a file cannot be given to an ordinary user");
    };
    give(folder);
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        give(entry.path());
}

} // namespace swarfbook::test
