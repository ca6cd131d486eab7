// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace swarfbook::web {

/// A QR code (ISO/IEC 18004) of a text, with its quiet zone of four modules all round, for a
/// terminal: two modules one above the other in each character, dark on light by the terminal's
/// own colours set out loud, so that it reads on a dark ground too.
/// Checked: tests/web/qr_code_test.cpp (read by another library).
std::string qrForTerminal(const std::string& text);
/// The same as an SVG picture for a page, black on white.
std::string qrAsSvg(const std::string& text);

} // namespace swarfbook::web
