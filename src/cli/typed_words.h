// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"

namespace swarfbook::cli {

/// Refuses, with a UsageError that names the character, every typed text that holds what
/// base/text.h's firstUnprintable finds or more than longestText characters. Line breaks may stand
/// in a note and in the customer's complaint. Names of files may hold anything but line breaks:
/// they are shown escaped. Checked: tests/cli/odd_text_test.cpp.
void checkTypedWords(const ParsedOptions& words);

} // namespace swarfbook::cli
