// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// A finding as the book stores it: the measurement document, and beside it the mapping from card
/// to photo, "" where no card was found.
struct FindingText {
    std::string measurement;
    std::string mapping;
};

FindingText findingText(const Measurement& measurement);

/// The inverse. Throws ToolError naming `where` if the text is not a measurement document, or has a
/// card without its mapping.
/// Checked: tests/record/book_photos_test.cpp (all fields return, drawn outlines in place).
Measurement findingFromText(const FindingText& text, const std::string& where);

} // namespace swarfbook
