// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/next_test.h"
#include "judgement/rules.h"

#include <string>

namespace swarfbook {

/// The part from which plastic broke off decides whether taking the pan off is enough. Common
/// practice, no source. Checked: tests/cli/typed (150 to 152), tests/judgement/next-tests.txt.

/// Asks for the part.
NextTest findThePlastic(const DebrisFacts& debris);

/// The part is reached only with the unit open, or it was not found although pieces keep breaking
/// off.
MaybeDraft plasticFromInside(const Facts& facts);

/// "baffle": a part that is renewed with the pan off; "" for any other.
std::string plasticPartOutside(const DebrisFacts& debris);

} // namespace swarfbook
