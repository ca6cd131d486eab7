// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string_view>

namespace swarfbook::web {

/// A file of the pages that is part of the program: a style or a script.
struct EmbeddedFile {
    std::string_view name; ///< "style.css"
    std::string_view type; ///< its media type
    std::string_view content;
};

/// All of them, as they stand beside this header.
/// Checked: tests/web/pages_test.cpp.
std::span<const EmbeddedFile> embeddedFiles();

} // namespace swarfbook::web
