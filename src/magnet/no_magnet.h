// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/measure_magnet.h"

namespace swarfbook {

/// Nothing of a magnet's size lies in the window.
NoMagnet nothingThere();
/// The magnet's rim cannot be followed.
NoMagnet outOfSight();

} // namespace swarfbook
