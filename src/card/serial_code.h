// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/find_card.h"

#include <cairo.h>
#include <opencv2/core.hpp>

#include <optional>
#include <string>

namespace swarfbook {

/// Modules on a side of the code: version 1 of ISO/IEC 18004. White paper of 4 more belongs to it
/// all round.
inline constexpr int codeModules = 21;
inline constexpr int codeQuietModules = 4;

/// Draws the serial as a QR code at the layout's `serialCode`, with the most spare bits (level H).
/// Draws nothing where the serial is not one that is given once (base/card_serial.h) or the layout
/// has no place for it. The pen's origin is the card's, its unit the millimetre.
void drawSerialCode(cairo_t* pen, const CardLayout& layout, const std::string& serial);

/// Whether the card in the photo has a code printed on it: the three marks of its corners are
/// darker than the paper round it.
bool showsSerialCode(const cv::Mat& bgr, const CardSighting& card);

/// The serial that the code on the card says; nullopt where there is no code, or it cannot be read.
/// Only the code's own place is looked at, as seen from straight above.
/// @param bgr  upright, sRGB, the photo that `card` was found in.
/// Source: ISO/IEC 18004; drawn by libqrencode, read by ZXing.
/// Checked: tests/card/serial_code_test.cpp.
std::optional<std::string> readSerialCode(const cv::Mat& bgr, const CardSighting& card);

} // namespace swarfbook
