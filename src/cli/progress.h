// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>

namespace swarfbook::cli {

/// How far a command has come that takes several photos, on standard error: a bar in one line of a
/// terminal, which goes when it is done; elsewhere a line a photo. Of one photo alone, and with
/// --quiet, nothing is said. Checked: tests/cli/terminal_test.cpp.
class Progress {
  public:
    /// @param count  of the photos there are
    explicit Progress(std::size_t count) : count_(count) {}
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// The next photo is begun.
    void next(const std::string& name);
    /// Takes the bar away, before something else is printed.
    void clear();

  private:
    std::size_t count_, begun_ = 0;
    bool shown_ = false;
};

/// The bar as one line of at most `width` characters: "[####......] 2 of 5  name".
/// @param begun  of the photos, from 1 on; that many less one are done
std::string progressBar(std::size_t begun, std::size_t count, const std::string& name,
                        std::size_t width);

} // namespace swarfbook::cli
