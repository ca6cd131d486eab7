// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/silhouette.h"

namespace swarfbook {

/// The silhouette without the magnet's own shadow, where that has an edge as sharp as the photo's,
/// as the sun throws it. It is smooth like paper, of an even light, borders on paper, and lies
/// outside the outline that fits what is left; a bare stretch of a face lies inside that outline
/// and stays.
/// Checked: tests/magnet/hard_light_test.cpp (drawn sun).
Silhouette withoutCastShadow(const TopView& view, Silhouette silhouette);

} // namespace swarfbook
