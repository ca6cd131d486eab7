// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

/// The manual page and completions for a package, written from the same verbs and options as
/// --help.
/// Checked: tests/cli/manual_test.cpp.
namespace swarfbook::cli {

/// The manual page, in the roff language of man(7).
std::string manualPage();
/// The shells' completions after "swarfbook": the verbs, then the options of the verb.
std::string bashCompletion();
std::string zshCompletion();
std::string fishCompletion();

} // namespace swarfbook::cli
