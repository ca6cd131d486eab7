// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

/// Two programs share the verbs. `swarfbook`, which is typed, has those that need the book alone
/// and loads few libraries. `swarfbook-full` has all verbs and loads what photos, cards and pages
/// need; `swarfbook` becomes it whenever it is asked for more than it has.
namespace swarfbook::cli {

/// Whether the quick program can do what was typed: --version, or a verb of quickCommands(), but
/// not `visit measure`, `piece --review`, or `observe` with photos of work or a file that may name
/// some. Checked: tests/cli/full_program_test.cpp.
bool isQuick(const std::vector<std::string>& words);

/// Becomes swarfbook-full, which lies beside this program (as built) or in
/// ../libexec/swarfbook (as installed).
/// @param words  as main got them, ended by a null pointer
/// @return only where that failed, and after saying so on stderr: an ExitCode.
int becomeFullProgram(char** words);

} // namespace swarfbook::cli
