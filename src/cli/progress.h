// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>

namespace swarfbook::cli {

/// Progress of a command with several photos, on standard error: a bar in one line of a terminal,
/// removed at the end; elsewhere one line per photo. Shows nothing for a single photo or with
/// --quiet. Checked: tests/cli/terminal_test.cpp.
class Progress {
  public:
    /// @param count  number of photos
    explicit Progress(std::size_t count) : count_(count) {}
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// Call it when the next photo begins.
    void next(const std::string& name);
    /// Removes the bar before something else is printed.
    void clear();

  private:
    std::size_t count_, begun_ = 0;
    bool shown_ = false;
};

/// The bar as one line of at most `width` characters: "[####......] 2 of 5  name".
/// @param begun  number of the photo, from 1 on; the photos before it are done
std::string progressBar(std::size_t begun, std::size_t count, const std::string& name,
                        std::size_t width);

} // namespace swarfbook::cli
