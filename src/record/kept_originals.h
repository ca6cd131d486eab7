// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

/// SQL for the book's own members: what names an original photo in photos/. A table that joins it
/// is backed up, checked and never taken for a leftover.
namespace swarfbook {

/// A row for each entry of a measured photo, a clean reference or a photo of work: sha256,
/// extension, byte_count and file_name. One file may have several.
inline constexpr std::string_view keptOriginals =
    "(SELECT sha256, extension, byte_count, file_name FROM photo UNION ALL "
    "SELECT sha256, extension, byte_count, file_name FROM blank UNION ALL "
    "SELECT sha256, extension, byte_count, file_name FROM work_photo)";

} // namespace swarfbook
