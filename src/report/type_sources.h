// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <string>

namespace swarfbook {

/// Who decided the types of the pieces, as a sentence: how many by hand, by the magnet, by two
/// lights and by the photo alone, and of how many the photo alone says another type. "" where the
/// photo alone decided all. Checked: tests/report/sweep_words_test.cpp.
std::string typeSourcesSentence(const DebrisFinding& debris);

} // namespace swarfbook
