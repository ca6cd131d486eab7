// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/find_card.h"

#include <cairo.h>
#include <opencv2/core.hpp>

#include <optional>
#include <string>

namespace swarfbook {

/// Modules on a side of the code: version 1 of ISO/IEC 18004. A white border of 4 modules all round
/// belongs to it.
inline constexpr int codeModules = 21;
inline constexpr int codeQuietModules = 4;

/// Draws the serial as a QR code at the layout's `serialCode`, with the strongest error correction
/// (level H). Draws nothing if the serial is not unique (base/card_serial.h) or the layout has no
/// place for it. The pen's origin is the card's, its unit the millimetre.
void drawSerialCode(cairo_t* pen, const CardLayout& layout, const std::string& serial);

/// Whether the card in the photo has a code printed on it: the three marks of its corners are
/// darker than the paper round it.
bool showsSerialCode(const cv::Mat& bgr, const CardSighting& card);

/// The serial in the code on the card; nullopt if there is no code or it cannot be read. Reads only
/// the code's own place, seen from straight above.
/// @param bgr  upright, sRGB, the photo that `card` was found in.
/// Source: ISO/IEC 18004; drawn by libqrencode, read by ZXing.
/// Checked: tests/card/serial_code_test.cpp.
std::optional<std::string> readSerialCode(const cv::Mat& bgr, const CardSighting& card);

} // namespace swarfbook
