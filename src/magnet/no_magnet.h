// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/measure_magnet.h"

namespace swarfbook {

/// The window holds no dark thing as large as a magnet.
NoMagnet nothingThere();
/// The magnet's rim cannot be followed.
NoMagnet outOfSight();

} // namespace swarfbook
