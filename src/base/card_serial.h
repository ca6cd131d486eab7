// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace swarfbook {

/// A serial for a card that is printed now: "K7Q-M4X", drawn at random from 23 letters and digits
/// that are not mistaken for one another (23^6 = 148 million). So serials do not start again in
/// each book, and cards of two books differ. Ours. Checked: tests/base/card_serial_test.cpp.
std::string newCardSerial();

/// Whether a serial has that form. Only such a serial is printed as a code, as earlier programs
/// gave "C0001" in every book.
bool isCodedSerial(std::string_view serial);

} // namespace swarfbook
