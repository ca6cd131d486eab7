// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <string>

namespace swarfbook::cli {

/// A photo's pieces as a table, and what hands said of them under it; a sentence for a photo that
/// was not measured. Checked: tests/cli/piece_test.cpp.
std::string piecesText(const StoredPhoto& photo);

} // namespace swarfbook::cli
