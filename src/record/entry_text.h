// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/text.h"

#include <string>
#include <string_view>

namespace swarfbook {

/// Text as the book takes it: blanks at both ends cut off, at most `longest` characters, UTF-8
/// without what firstUnprintable finds (a note may have line breaks).
///
/// @param what  names the entry in the message, such as "The label".
/// Throws UsageError saying what to change.
/// Checked: tests/record/entry_text_test.cpp.
std::string checkedLine(std::string_view what, std::string_view text, std::size_t longest = 100);
std::string checkedNote(std::string_view what, std::string_view text,
                        std::size_t longest = longestText);

/// Throws UsageError, naming the character and its place, for text that must not be taken in.
/// @param breaks  whether line breaks and tabs may stand in it.
void requirePlain(std::string_view what, std::string_view text, Breaks breaks = Breaks::keep);

/// Any bytes as text that can be kept and shown: what is unprintable is escaped. For names of
/// files, which may hold anything.
std::string readableText(std::string_view bytes);

} // namespace swarfbook
