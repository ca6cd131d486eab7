// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <string>
#include <string_view>

/// Pictures in the terminal, as sixel graphics (DEC STD 070), by libsixel.
/// Checked: tests/cli/terminal_picture_test.cpp.
namespace swarfbook::cli {

/// Writes bytes to standard output past PlainOutput, which would escape them; flush what was
/// written before.
void writeToTerminal(std::string_view bytes);

/// Asks the terminal that standard input and output are whether it shows sixel graphics: its answer
/// to "primary device attributes" (ECMA-48, DA) then holds a 4. False where one of them is no
/// terminal, where TERM is "dumb", and where no answer comes within half a second. What is typed
/// meanwhile is lost, so ask before the user is asked anything.
bool terminalShowsPictures();

/// The picture as sixel graphics in at most 256 colours, which begin and end in the leftmost
/// column.
/// @param bgr  8 bits, three channels, not empty; one pixel of it is one of the terminal's.
/// Throws ToolError where libsixel fails.
std::string sixelsOf(const cv::Mat& bgr);

/// Writes the picture as writeToTerminal() does.
void showInTerminal(const cv::Mat& bgr);

} // namespace swarfbook::cli
