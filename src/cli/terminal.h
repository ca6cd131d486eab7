// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

/// What the user's terminal can show, asked of the system each time.
/// Checked: tests/cli/terminal_test.cpp.
namespace swarfbook::cli {

enum class Stream { output, error };

/// Characters in one line of the terminal that the stream writes to, 20 or more; nothing if it
/// writes to a file or a pipe. If the system does not know, $COLUMNS, else 80.
std::optional<std::size_t> terminalWidth(Stream stream);

/// Whether colour is wanted: a terminal that is not "dumb", and NO_COLOR is unset or empty
/// (the convention of no-color.org).
bool wantsColour(Stream stream);

/// Text that a terminal with colour shows in bold; elsewhere the text as it is. Only PlainOutput
/// understands the marks around it.
std::string heading(std::string_view text, Stream stream = Stream::output);
/// The same in bold red, for failures.
std::string alarming(std::string_view text, Stream stream = Stream::error);
/// The same in yellow, for cautions.
std::string cautioning(std::string_view text, Stream stream = Stream::output);
/// The marks: a byte of `marks` after `markBegin` says which style, `markEnd` ends it.
inline constexpr char markBegin = '\x0e';
inline constexpr char markEnd = '\x0f';
/// The bytes sent to a terminal for a mark ("\x1b[1m" for 'b'); "" for any other byte.
std::string_view styleOf(char mark);

/// The stream for remarks that are neither results nor errors: standard error, or nowhere after
/// sayNothing(true), which --quiet calls.
std::ostream& talk();
void sayNothing(bool quiet);
bool saysNothing();

/// Whether long lines are left whole on a terminal too, because other programs read them.
void keepLinesWhole(bool whole);
bool linesStayWhole();

} // namespace swarfbook::cli
