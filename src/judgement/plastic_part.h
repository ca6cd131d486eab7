// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/next_test.h"
#include "judgement/rules.h"

#include <string>

namespace swarfbook {

/// What plastic broke off decides whether the pan off is enough. Source: common practice, no
/// source. Checked: tests/cli/typed (150 to 152), tests/judgement/next-tests.txt.

/// Asks for the part.
NextTest findThePlastic(const DebrisFacts& debris);

/// The part is reached only with the unit open, or was not found while pieces keep breaking off.
MaybeDraft plasticFromInside(const Facts& facts);

/// "baffle": a part that is renewed with the pan off; "" for any other.
std::string plasticPartOutside(const DebrisFacts& debris);

} // namespace swarfbook
