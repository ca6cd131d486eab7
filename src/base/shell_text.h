// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace swarfbook {

/// Text within single quotation marks, as a POSIX shell takes it for one word whatever it holds.
/// Source: POSIX.1-2017, Shell Command Language, 2.2.2 Single-Quotes.
/// Checked: tests/base/shell_text_test.cpp.
std::string quotedForShell(std::string_view text);

} // namespace swarfbook
