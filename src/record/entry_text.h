// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// Text as the book takes it: blanks at both ends cut off, at most `longest` bytes, UTF-8 without
/// control characters (a note may have line breaks).
///
/// @param what  names the entry in the message, such as "The label".
/// Throws UsageError saying what to change.
/// Checked: tests/record/entry_text_test.cpp.
std::string checkedLine(std::string_view what, std::string_view text, std::size_t longest = 100);
std::string checkedNote(std::string_view what, std::string_view text, std::size_t longest = 4000);

/// Any bytes as UTF-8 text without control characters: what is neither becomes U+FFFD. For names
/// of files, which may hold anything.
std::string readableText(std::string_view bytes);

/// Those of `known` that someone who typed `typed` may have meant, nearest first, at most three:
/// a few letters differ (Levenshtein distance, case ignored), or one contains the other.
std::vector<std::string> nearLabels(std::string_view typed, const std::vector<std::string>& known);

} // namespace swarfbook
