// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <string_view>

namespace swarfbook {

/// The check bar of a card as typed: "79.6", "80.0 mm", "79,6", "3.15 in"; a number alone is in
/// millimetres. UsageError for what cannot be read and for a bar that no layout of the card has,
/// as printScaleFromBar() refuses it.
/// Checked: tests/web/upload_test.cpp.
Millimetres checkBarTyped(std::string_view typed);

} // namespace swarfbook
